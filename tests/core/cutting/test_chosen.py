"""Sticks chosen before what is cut from them: the money of whole ones."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from app.core.cutting.chosen import choices, worth_choosing
from app.core.cutting.effort import Work
from app.core.cutting.job import Blank, Job, Keep, Saw, Stock
from app.core.cutting.kinds import Kinds, kinds
from app.core.cutting.price import _whole, prices
from app.core.cutting.pricing import Pricer
from app.core.cutting.search import Search
from app.core.cutting.sequence import Rest, serve, worth_by_length
from app.core.cutting.solve import solve
from app.core.cutting.totals import levels
from app.core.length import Length
from tests.core.cutting.checker import check
from tests.core.cutting.published import instances, known, read

sticks = st.lists(
    st.tuples(st.integers(30, 60), st.sampled_from([1, 3, None]), st.integers(0, 40)),
    min_size=1,
    max_size=3,
)
blanks = st.lists(
    st.tuples(st.integers(5, 30), st.integers(1, 4)), min_size=1, max_size=4
)


def job(
    stock: list[tuple[int, int | None, int]], wanted: list[tuple[int, int]]
) -> Kinds:
    return kinds(
        Job(
            Saw(Length(1)),
            Keep(Length(0), Length(0)),
            tuple(
                Stock(f"s{n}", Length(room), quantity=there, cost=cost)
                for n, (room, there, cost) in enumerate(stock)
            ),
            tuple(
                Blank(f"b{n}", Length(long), quantity=times)
                for n, (long, times) in enumerate(wanted)
            ),
        )
    )


def least_by_trying(asked: Kinds, total: int, holds: list[int]) -> int | None:
    """The least money for sticks that hold so much together, by trying all."""
    ranges = []
    for n in range(len(asked.sticks)):
        limit = asked.limit(n)
        ranges.append(range((asked.pieces if limit is None else limit) + 1))
    return min(
        (
            sum(k * stick.money for k, stick in zip(taken, asked.sticks, strict=True))
            for taken in product(*ranges)
            if sum(k * hold for k, hold in zip(taken, holds, strict=True)) >= total
        ),
        default=None,
    )


@given(sticks, blanks)
def test_whole_sticks_cost_what_trying_every_number_of_them_finds(
    stock: list[tuple[int, int | None, int]], wanted: list[tuple[int, int]]
) -> None:
    asked = job(stock, wanted)
    assume(asked.sizes and any(stick.money for stick in asked.sticks))
    holds = [stick.room for stick in asked.sticks]
    total = sum(s * n for s, n in zip(asked.sizes, asked.wanted, strict=True))
    least = least_by_trying(asked, total, holds)
    money = tuple(stick.money for stick in asked.sticks)
    found = _whole(asked, total, holds, money)
    assert found <= (least or 0) or least is None
    enough = any(
        stick.money and stick.room * (asked.limit(n) or asked.pieces) >= total
        for n, stick in enumerate(asked.sticks)
    )
    if enough:
        assert found == least


def test_the_sticks_chosen_cost_less_than_the_plan_and_hold_enough() -> None:
    asked = job(
        [(60, None, 31), (45, None, 22), (20, 1, 0)], [(14, 9), (23, 7), (9, 5)]
    )
    assert worth_choosing(asked)
    search = Search(asked, prices(asked), Work(10**6))
    rest = Rest.of(asked)
    serve(asked, search.prices, rest, worth_by_length(asked), 1e9, search.meter)
    search.offer(rest)
    duals = [size / 61 for size in asked.sizes]
    found = choices(search, Pricer(asked, search.prices, search.meter), duals)
    assert found, "there is something to try below the first plan"
    for one in found:
        paid = sum(asked.sticks[n].money * times for n, times in one.sticks.items())
        assert paid < search.money()
        assert one.spare >= -1e-6
    assert [one.spare for one in found] == sorted(
        (c.spare for c in found), reverse=True
    )


def test_equal_prices_leave_nothing_to_choose() -> None:
    assert not worth_choosing(job([(60, None, 31), (45, 2, 0)], [(14, 9)]))


# Jobs whose relaxation lies three to nine parts in a thousand below any plan.
@pytest.mark.parametrize("name", ["m1d_34_200", "m1d_39_200"])
def test_plans_with_prices_are_proven_where_no_relaxation_reaches_them(
    name: str,
) -> None:
    found = instances("generated_1d_multi_length")
    instance = next(one for one in found if one["name"] == name)
    plan = solve(read(instance), work=8_000_000)
    check(plan)
    cost = levels(plan)[0]
    low, best = known(instance)
    assert cost.proven
    assert low < cost.value <= best
