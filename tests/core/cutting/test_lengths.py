"""Jobs of lengths: as cheap as can be, and a bound that no plan comes below."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import replace
from functools import cache
from random import Random
from time import perf_counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.core.cutting.effort import Work
from app.core.cutting.gather import gathered
from app.core.cutting.job import Blank, Job, Keep, Saw, Stock
from app.core.cutting.kinds import kinds
from app.core.cutting.master import Column
from app.core.cutting.plan import Plan
from app.core.cutting.solve import _served, solve
from app.core.cutting.supply import Run
from app.core.cutting.totals import levels, totals
from app.core.length import Length, inches, mm
from tests.conftest import shared
from tests.core.cutting.checker import check
from tests.core.cutting.jobs import random_job
from tests.core.cutting.published import known, read

KEEP = Keep(inches("8"), inches("1"))
KERF = Saw(inches("1/8"))
FLAT = [seed for seed in range(600) if random_job(seed).one_dimensional]


def job(stock: list[Stock], blanks: list[Blank], saw: Saw = KERF) -> Job:
    return Job(saw, KEEP, tuple(stock), tuple(blanks))


def planned(asked: Job, **more: int) -> Plan:
    plan = solve(asked, **more)
    check(plan)
    sums = totals(plan)
    assert sums.stock == sums.parts + sums.kerf + sums.offcuts + sums.scrap
    return plan


def least_by_trying(asked: Job) -> int | None:
    """The least cost of placing everything, by trying all: whole units, tiny jobs."""
    kerf = asked.saw.kerf.nm
    stock = tuple(
        (one.length.nm + kerf, one.cost or 0)
        for one in asked.stock
        for _ in range(one.quantity if one.quantity is not None else 9)
    )
    sizes = tuple(
        blank.length.nm + kerf for blank in asked.blanks for _ in range(blank.quantity)
    )

    @cache
    def place(at: int, opened: tuple[int, ...], unused: tuple[int, ...]) -> int | None:
        if at == len(sizes):
            return 0
        found = []
        for n, room in enumerate(opened):
            if room >= sizes[at]:
                rest = tuple(sorted((*opened[:n], room - sizes[at], *opened[n + 1 :])))
                found.append(place(at + 1, rest, unused))
        for n in {stock[n]: n for n in unused}.values():
            room, cost = stock[n]
            if room >= sizes[at]:
                rest = tuple(sorted((*opened, room - sizes[at])))
                left = place(at + 1, rest, tuple(m for m in unused if m != n))
                found.append(None if left is None else left + cost)
        return min((one for one in found if one is not None), default=None)

    return place(0, (), tuple(range(len(stock))))


tiny_stock = st.lists(
    st.tuples(
        st.integers(4, 12), st.sampled_from([1, 2, None]), st.sampled_from([0, 3, 5, 7])
    ),
    min_size=1,
    max_size=3,
)
tiny_blanks = st.lists(
    st.tuples(st.integers(1, 9), st.integers(1, 2)), min_size=1, max_size=3
)


@settings(max_examples=60, deadline=None)
@given(tiny_stock, tiny_blanks, st.integers(0, 1))
def test_a_tiny_job_costs_what_trying_everything_finds(
    stock: list[tuple[int, int | None, int]],
    blanks: list[tuple[int, int]],
    kerf: int,
) -> None:
    asked = job(
        [
            Stock(f"s{n}", Length(long), quantity=there, cost=cost)
            for n, (long, there, cost) in enumerate(stock)
        ],
        [
            Blank(f"b{n}", Length(long), quantity=q)
            for n, (long, q) in enumerate(blanks)
        ],
        Saw(Length(kerf)),
    )
    least = least_by_trying(asked)
    plan = planned(asked)
    assert bool(plan.unplaced) == (least is None)
    if least is not None:
        cost = levels(plan)[0]
        assert (cost.value, cost.bound, cost.proven) == (least, least, True)


@pytest.mark.parametrize("seed", FLAT[:40])
def test_a_plan_is_never_worse_than_serving_one_stick_after_another(seed: int) -> None:
    asked = random_job(seed)
    plan = planned(asked, work=500_000)
    served, _ = _served(asked, Work(500_000), None, None)
    assert score(asked, plan, served) <= served.score
    for level in levels(plan)[:2]:
        assert level.bound <= level.value


def score(asked: Job, plan: Plan, served: Run) -> tuple[int, ...]:
    """What a plan counts for in unplaced length and cost, then as serving counts."""
    length = {blank.id: blank.length.nm for blank in asked.blanks}
    offcuts = {one.id for one in asked.stock if one.offcut}
    return (
        sum(length[one.blank] * one.quantity for one in plan.unplaced),
        totals(plan).cost,
        sum(one.copies for one in plan.layouts if one.stock not in offcuts),
        *served.score[3:],
    )


@pytest.mark.parametrize("seed", FLAT[40:46])
def test_the_same_lengths_give_the_same_plan(seed: int) -> None:
    asked = random_job(seed)
    assert solve(asked, work=300_000) == solve(asked, work=300_000)


def test_the_kerf_between_pieces_counts_and_the_one_at_the_end_does_not() -> None:
    # Three of 31 15/16 and two kerfs of 1/8 are 96 1/16; of 31 29/32 they are 95 31/32.
    def sticks(length: str) -> int:
        stock = [Stock("eight foot", inches("96"), quantity=None, cost=1000)]
        plan = planned(job(stock, [Blank("rail", inches(length), quantity=6)]))
        return totals(plan).stock_pieces

    assert (sticks("31 15/16"), sticks("31 29/32")) == (3, 2)
    assert sticks("31 11/12") == 2  # with both kerfs exactly 96


def test_the_dealer_sells_two_lengths_and_the_cheaper_mix_is_found() -> None:
    # Four of 50 and four of 40: in each 96 one of both for 900, not two of 50 in 120.
    stock = [
        Stock("eight foot", inches("96"), quantity=None, cost=900),
        Stock("ten foot", inches("120"), quantity=None, cost=1300),
    ]
    blanks = [
        Blank("post", inches("50"), quantity=4),
        Blank("rail", inches("40"), quantity=4),
    ]
    plan = planned(job(stock, blanks))
    cost = levels(plan)[0]
    assert (cost.value, cost.bound, cost.proven) == (3600, 3600, True)


def test_what_lies_on_the_rack_is_used_before_anything_is_bought() -> None:
    stock = [
        Stock("bought", inches("96"), quantity=None, cost=900),
        Stock("on the rack", inches("60"), quantity=2),
        Stock("left over", inches("33"), offcut=True),
    ]
    blanks = [Blank("rail", inches("29"), quantity=5)]
    plan = planned(job(stock, blanks))
    assert totals(plan).cost == 0
    assert levels(plan)[0].proven


def test_species_stay_apart() -> None:
    stock = [
        Stock("oak", inches("40"), quantity=None, cost=500, species="oak"),
        Stock("ash", inches("40"), quantity=None, cost=300, species="ash"),
    ]
    blanks = [
        Blank("oak rail", inches("19"), quantity=3, species="oak"),
        Blank("ash rail", inches("19"), quantity=3, species="ash"),
    ]
    cost = levels(planned(job(stock, blanks)))[0]
    assert (cost.value, cost.bound) == (1600, 1600)


def test_odd_lengths_that_share_no_step_are_planned_on_a_coarser_one() -> None:
    stock = [Stock("long", Length(2_438_400_001), quantity=None, cost=700)]
    blanks = [
        Blank(f"b{n}", Length(300_000_007 + n * 41_000_019), quantity=3)
        for n in range(9)
    ]
    plan = planned(job(stock, blanks))
    assert not plan.unplaced
    cost = levels(plan)[0]
    assert 0 < cost.bound <= cost.value


def test_what_is_left_over_is_one_long_offcut_not_three_short_ones() -> None:
    # Three sticks must be opened; full ones leave 48 3/8 in of the third in one.
    stock = [Stock("eight foot", inches("96"), quantity=None, cost=900)]
    blanks = [
        Blank("post", inches("47 1/2"), quantity=3),
        Blank("rail", inches("31 7/8"), quantity=3),
    ]
    plan = planned(job(stock, blanks))
    kept = [
        (one.area.length, layout.copies)
        for layout in plan.layouts
        for one in layout.leftovers
        if one.keep
    ]
    assert totals(plan).stock_pieces == 3
    assert kept == [(inches("48 3/8"), 1)]


@pytest.mark.parametrize("seed", range(30))
def test_gathering_leftovers_keeps_every_piece_and_overfills_no_stick(
    seed: int,
) -> None:
    dice = Random(seed)
    found = kinds(random_job(FLAT[seed]))
    if not found.sizes:
        return
    spread = []
    for stick, one in enumerate(found.sticks):
        for kind in sorted(one.suited):
            if dice.random() < 0.7:
                spread.append(Column(stick, {kind: 1}))
    whole = gathered(found, spread, Work(10**6))
    assert pieces(whole) == pieces(spread)
    assert not Counter(one.stick for one in whole) - Counter(o.stick for o in spread)
    for column in whole:
        stick = found.sticks[column.stick]
        assert column.filling.keys() <= stick.suited
        held = sum(found.sizes[kind] * n for kind, n in column.filling.items())
        assert held <= stick.room


def pieces(columns: list[Column]) -> Counter[int]:
    found: Counter[int] = Counter()
    for column in columns:
        found.update(column.filling)
    return found


def test_what_fits_no_stick_leaves_the_bound_for_the_rest() -> None:
    stock = [Stock("short", inches("30"), quantity=None, cost=400)]
    blanks = [Blank("long", inches("31")), Blank("rail", inches("20"), quantity=3)]
    plan = planned(job(stock, blanks))
    assert [one.blank for one in plan.unplaced] == ["long"]
    cost = levels(plan)[0]
    assert (cost.value, cost.bound, cost.proven) == (1200, 1200, False)


def test_without_wood_for_all_no_bound_is_claimed() -> None:
    stock = [Stock("short", inches("30"), quantity=1, cost=400)]
    plan = planned(job(stock, [Blank("rail", inches("20"), quantity=3)]))
    assert plan.unplaced[0].quantity == 2
    assert plan.bounds == ()


def test_the_callers_clock_stops_a_long_job() -> None:
    blanks = [Blank(f"b{n}", mm(300 + 7 * n % 611), quantity=3) for n in range(150)]
    stock = [Stock("stick", mm(2400), quantity=None, cost=1)]
    asked = replace(job(stock, blanks), saw=Saw(mm(3)))
    began = perf_counter()
    plan = solve(asked, work=10**12, left=lambda: began + 0.5 - perf_counter())
    assert perf_counter() - began < 10  # the first way is gone to its end
    check(plan)
    assert not plan.unplaced


def test_planning_says_nothing_on_the_terminal(
    capfd: pytest.CaptureFixture[str],
) -> None:
    # The document goes there, and nothing may stand before it.
    solve(random_job(FLAT[0]), work=300_000)
    assert capfd.readouterr() == ("", "")


# Instances of each family that are solved with little work, and how many pieces a
# plan may be above the published optimum: see the README of the benchmarks.
SAMPLES = [
    ("falkenauer_u.json", (0, 12), 0),
    ("falkenauer_t.json", (0,), 0),
    ("scholl1.json", (0, 40, 90), 0),
    ("scholl2.json", (0,), 0),
    ("schwerin.json", (0, 30), 0),
    ("waescher_gau.json", (3,), 0),
    ("hard28.json", (0,), 1),
    ("generated_1d_multi_length.json", (0, 3, 15), 0),
]


@pytest.mark.parametrize(("family", "numbers", "above"), SAMPLES)
def test_published_optima_are_reached_and_no_bound_is_above_them(
    family: str, numbers: tuple[int, ...], above: int
) -> None:
    path = shared("benchmarks/cutting") / family
    instances = json.loads(path.read_text(encoding="utf-8"))
    for number in numbers:
        instance = instances[number]
        plan = planned(read(instance), work=6_000_000)
        cost = levels(plan)[0]
        _, best = known(instance)
        assert not plan.unplaced
        assert cost.bound <= best, instance["name"]
        assert cost.value <= best + above, instance["name"]
