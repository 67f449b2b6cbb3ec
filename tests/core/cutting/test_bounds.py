"""Bounds that no plan beats: held against any sawing, and tight where they can be."""

from __future__ import annotations

from random import Random

import pytest

from app.core.cutting.job import Area, Blank, Job, Keep, OffcutValue, Saw, Stock
from app.core.cutting.order import in_order
from app.core.cutting.plan import Cut, Direction, Layout, Leftover, Placed, Plan
from app.core.cutting.solve import solve
from app.core.cutting.totals import Level, levels, offcut_worth
from app.core.length import Length, inches
from tests.core.cutting.checker import check

KEEP = Keep(inches("8"), inches("1"))
SAW = Saw(inches("1/8"))
Rectangle = tuple[int, int, int, int]


def level(plan: Plan, objective: str) -> Level:
    return next(one for one in levels(plan) if one.objective == objective)


def board(length: str, width: str | None, **more: object) -> Stock:
    wide = None if width is None else inches(width)
    return Stock("B", inches(length), wide, **more)  # type: ignore[arg-type]


def blank(name: str, length: str, width: str | None, quantity: int = 1) -> Blank:
    wide = None if width is None else inches(width)
    return Blank(name, inches(length), wide, quantity=quantity)


def planned(
    stock: Stock, blanks: list[Blank], saw: Saw = SAW, keep: Keep = KEEP
) -> Plan:
    plan = solve(Job(saw, keep, (stock,), tuple(blanks)))
    check(plan)
    return plan


QUARTER = inches("1/4").nm  # what the sawyer measures in


class Sawyer:
    """Saws boards up at random: whatever comes out is what some job asked for."""

    def __init__(self, seed: int) -> None:
        self.dice = Random(seed)
        self.flat = self.dice.random() < 0.3
        # Few and small numbers, so that sizes often fill a board exactly.
        self.kerf = self.dice.choice([1, 2])
        self.sizes = [self.dice.randint(2, 9) for _ in range(3)]
        self.blanks: list[Blank] = []

    def plan(self) -> Plan:
        boards = [
            Stock(
                f"B{n}",
                quarters(self.dice.randint(10, 40)),
                None if self.flat else quarters(self.dice.randint(6, 20)),
                cost=self.dice.choice([None, 0, 5, 9]),
            )
            for n in range(self.dice.randint(1, 3))
        ]
        layouts = [self.layout(one) for one in boards]
        job = Job(
            Saw(quarters(self.kerf)),
            Keep(quarters(4), quarters(2)),
            tuple(boards),
            tuple(self.blanks),
            offcut_value=OffcutValue(quarters(20), quarters(6)),
        )
        cut_up = tuple(one for one in layouts if one.pieces)
        return in_order(Plan(job, cut_up))

    def layout(self, stock: Stock) -> Layout:
        width = stock.width.nm // QUARTER if stock.width else 0
        left: list[Rectangle] = [(0, 0, stock.length.nm // QUARTER, width)]
        cuts: list[Cut] = []
        for _ in range(self.dice.randint(1, 7)):
            one = self.dice.choice(left)
            direction = self.dice.choice(list(Direction))
            if self.flat:
                direction = Direction.CROSSCUT
            long = one[2] if direction is Direction.CROSSCUT else one[3]
            size = self.dice.choice([*self.sizes, self.dice.randint(1, 9)])
            if size < long:
                left.remove(one)
                left += self.sawn(one, direction, size, cuts)
        pieces = [one for one in left if self.dice.random() < 0.7]
        waste = [one for one in left if one not in pieces]
        return Layout(
            stock.id,
            1,
            tuple(self.placed(one) for one in pieces),
            tuple(self.leftover(one) for one in waste),
            tuple(cuts),
        )

    def sawn(
        self, one: Rectangle, direction: Direction, size: int, cuts: list[Cut]
    ) -> list[Rectangle]:
        x, y, length, width = one
        across = direction is Direction.CROSSCUT
        beyond = (length if across else width) - size
        dust = min(self.kerf, beyond)
        at = (x if across else y) + size
        cuts.append(Cut(direction, quarters(at), quarters(dust), area(one)))
        rest, far = beyond - dust, at + dust
        if across:
            both = [(x, y, size, width), (far, y, rest, width)]
        else:
            both = [(x, y, length, size), (x, far, length, rest)]
        return [half for half, room in zip(both, (size, rest), strict=True) if room]

    def placed(self, one: Rectangle) -> Placed:
        name = f"p{len(self.blanks)}"
        width = None if self.flat else quarters(one[3])
        self.blanks.append(Blank(name, quarters(one[2]), width))
        return Placed(name, area(one))

    def leftover(self, one: Rectangle) -> Leftover:
        return Leftover(area(one), one[2] >= 4 and (self.flat or one[3] >= 2))


def quarters(number: int) -> Length:
    return Length(number * QUARTER)


def area(one: Rectangle) -> Area:
    x, y, length, width = map(quarters, one)
    return Area(x, y, length, width)


@pytest.mark.parametrize("seed", range(600))
def test_no_way_of_sawing_beats_a_bound(seed: int) -> None:
    check(Sawyer(seed).plan())  # every level's value on its side of its bound


def test_one_long_offcut_is_proven_to_be_worth_most() -> None:
    plan = planned(board("96", "8"), [blank("top", "20", "8")])
    worth = level(plan, "offcut_value")
    assert worth.proven
    assert worth.value == offcut_worth(plan) == (inches("75 7/8").nm * inches("8").nm)


def test_a_stick_with_one_offcut_is_proven_to_be_cut_best() -> None:
    plan = planned(board("96", None), [blank("rail", "20", None, 2)])
    worth = level(plan, "offcut_value")
    assert worth.proven
    assert worth.value == inches("55 3/4").nm


def test_a_piece_in_the_middle_of_nothing_takes_two_cuts_and_no_fewer() -> None:
    cuts = level(planned(board("30", "8"), [blank("lid", "20", "5")]), "cuts")
    assert (cuts.value, cuts.bound, cuts.proven) == (2, 2, True)


def test_a_board_that_is_used_up_exactly_takes_one_cut_less_than_pieces() -> None:
    plan = planned(board("20 1/8", "6"), [blank("end", "10", "6", 2)])
    cuts = level(plan, "cuts")
    assert (cuts.value, cuts.bound, cuts.proven) == (1, 1, True)


def test_trims_all_round_are_four_cuts_that_make_no_piece() -> None:
    saw = Saw(inches("1/8"), inches("1/2"), inches("1/4"))
    plan = planned(board("21", "6 1/2"), [blank("lid", "20", "6")], saw)
    cuts = level(plan, "cuts")
    assert (cuts.value, cuts.bound, cuts.proven) == (4, 4, True)


@pytest.mark.parametrize(
    ("rails", "least"),
    [
        (["20"], 1),
        (["20", "30 1/64"], 2),
        # 96 - 60 - 1/8 = 35 7/8: one setting gives both.
        (["60", "35 7/8"], 1),
        # ... and 96 - 2 x (20 + 1/8) = 55 3/4 as well.
        (["20", "55 3/4"], 1),
        (["96"], 0),
    ],
)
def test_sizes_that_one_setting_cannot_give_force_a_second(
    rails: list[str], least: int
) -> None:
    stock = Stock("B", inches("96"), None, quantity=5)
    blanks = tuple(blank(f"r{n}", length, None) for n, length in enumerate(rails))
    plan = solve(Job(SAW, KEEP, (stock,), blanks))
    check(plan)
    assert level(plan, "set_ups").bound == least


def test_nothing_is_proven_of_a_plan_with_blanks_left_out() -> None:
    plan = planned(board("20", "6"), [blank("a", "20", "6", 2)])
    assert plan.unplaced
    assert not any(one.proven for one in levels(plan))
