"""The checker itself: a right plan passes, and each wrong one is caught.

A plan of two periods on one board, drawn by hand, kerf 1/8:

    96 x 8   one: [b-c 0 … 90] knot 91 … 92     [a 30][rest 59 7/8, kept till two]
             two: [b 20][c 10 x 3 below an offcut 4 7/8 high][offcut 29 5/8]
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from app.core.cutting.job import Area, Blank, Job, Keep, Machine, Pin, Saw, Stock
from app.core.cutting.plan import (
    Bound,
    Cut,
    Direction,
    Layout,
    Leftover,
    Placed,
    Plan,
    Unplaced,
)
from app.core.cutting.totals import Level
from app.core.length import Length, inches
from tests.core.cutting import checker
from tests.core.cutting.checker import check, right_side

CROSS, RIP = Direction.CROSSCUT, Direction.RIP
KERF = inches("1/8")


def at(x: str, y: str, length: str, width: str) -> Area:
    return Area(inches(x), inches(y), inches(length), inches(width))


def cut(number: int, direction: Direction, where: str, of: Area, period: str) -> Cut:
    return Cut(
        direction, inches(where), KERF, of, f"Setting {number}", number, period=period
    )


SOUND = at("0", "0", "90", "8")
WAITS = at("30 1/8", "0", "59 7/8", "8")
REST = at("50 1/4", "0", "39 3/4", "8")
SLAB = at("50 1/4", "0", "10", "8")
CUTS = (
    cut(1, CROSS, "90", at("0", "0", "96", "8"), "one"),
    cut(2, CROSS, "30", SOUND, "one"),
    cut(3, CROSS, "50 1/8", WAITS, "two"),
    cut(4, CROSS, "60 1/4", REST, "two"),
    cut(5, RIP, "3", SLAB, "two"),
)
LAYOUT = Layout(
    "board",
    1,
    (
        Placed("a", at("0", "0", "30", "8")),
        Placed("b", at("30 1/8", "0", "20", "8")),
        Placed("c", at("50 1/4", "0", "10", "3")),
    ),
    (
        Leftover(at("90 1/8", "0", "5 7/8", "8"), keep=False),
        Leftover(WAITS, keep=True, used_in="two"),
        Leftover(at("50 1/4", "3 1/8", "10", "4 7/8"), keep=True),
        Leftover(at("60 3/8", "0", "29 5/8", "8"), keep=True),
    ),
    CUTS,
    "one",
)
JOB = Job(
    Saw(KERF),
    Keep(inches("8"), inches("1")),
    (
        Stock(
            "board",
            inches("96"),
            inches("8"),
            inches("3/4"),
            cost=5000,
            species="walnut",
            defects=(at("91", "2", "1", "1"),),
        ),
        Stock("other", inches("40"), inches("8"), cost=4000),
    ),
    (
        Blank("a", inches("30"), inches("8"), inches("3/4"), period="one"),
        Blank("b", inches("20"), inches("8"), species="walnut", period="two"),
        Blank("c", inches("10"), inches("3"), period="two"),
    ),
    stages=2,
    first="crosscut",
    periods=("one", "two"),
    pins=(Pin("c", "board"), Pin("a", "other", firm=False)),
    machine=Machine(inches("8"), inches("10"), inches("10")),
)
RIGHT = Plan(JOB, (LAYOUT,))
Change = Callable[[], Plan]


def test_the_plan_drawn_by_hand_is_right() -> None:
    check(RIGHT)


def asked(**changes: Any) -> Change:
    return lambda: replace(RIGHT, job=replace(JOB, **changes))


def board(**changes: Any) -> Change:
    return asked(stock=(replace(JOB.stock[0], **changes), JOB.stock[1]))


def blank(number: int, **changes: Any) -> Change:
    blanks = list(JOB.blanks)
    blanks[number] = replace(blanks[number], **changes)
    return asked(blanks=tuple(blanks))


def layout(**changes: Any) -> Change:
    return lambda: replace(RIGHT, layouts=(replace(LAYOUT, **changes),))


def one_of(name: str, place: int, /, **changes: Any) -> Change:
    found = list(getattr(LAYOUT, name))
    found[place] = replace(found[place], **changes)
    return layout(**{name: tuple(found)})


def without(name: str, number: int) -> Change:
    found = list(getattr(LAYOUT, name))
    del found[number]
    return layout(**{name: tuple(found)})


def swapped(first: int, second: int) -> Change:
    found = list(CUTS)
    found[first], found[second] = found[second], found[first]
    return layout(cuts=tuple(found))


HALF = replace(JOB.blanks[2], quantity=2)
WRONG: dict[str, tuple[Change, str]] = {
    "a piece lies elsewhere": (
        one_of("pieces", 0, area=at("1", "0", "30", "8")),
        "holds something else",
    ),
    "two pieces share their wood": (
        one_of("pieces", 2, area=at("31", "0", "10", "3")),
        "holds something else",
    ),
    "a cut is missing": (without("cuts", 4), "holds something else"),
    "a leftover is missing": (without("leftovers", 0), "holds something else"),
    "a cut leaves its piece": (one_of("cuts", 2, at=inches("20")), "outside its piece"),
    "a cut goes through no piece": (
        one_of("cuts", 3, of=at("50 1/4", "0", "30", "8")),
        "no piece",
    ),
    "a cut comes before its piece": (swapped(0, 1), "no piece"),
    "the kerf is missing": (one_of("cuts", 1, kerf=Length(0)), "not what the saw"),
    "the kerf is another": (one_of("cuts", 1, kerf=inches("1/4")), "not what the saw"),
    "the grain is turned": (one_of("pieces", 2, turned=True), "grain"),
    "a blank is longer": (blank(1, length=inches("21")), "wrong size"),
    "the wood is another": (board(species="cherry"), "wrong wood"),
    "the board is thicker": (board(thickness=inches("1")), "wrong thickness"),
    "the board is thinner": (board(thickness=inches("1/2")), "wrong thickness"),
    "a blank is bound elsewhere": (blank(1, only=("other",)), "bound to other"),
    "one board is cut twice": (layout(copies=2), "not so many there"),
    "nothing is cut so": (layout(copies=0), "not cut"),
    "a blank is lost": (
        asked(blanks=(*JOB.blanks[:2], HALF)),
        "lost or found",
    ),
    "what is placed is also left out": (
        lambda: replace(RIGHT, unplaced=(Unplaced("c", 1, "No wood."),)),
        "lost or found",
    ),
    "a piece has a knot": (
        board(defects=(at("5", "5", "1", "1"),)),
        "a defect in it",
    ),
    "a piece touches a split": (
        board(defects=(at("49", "7", "2", "1/64"),)),
        "a defect in it",
    ),
    "an offcut has a knot": (
        board(defects=(at("70", "1", "1", "1"),)),
        "worth keeping",
    ),
    "what waits has a knot": (
        board(defects=(at("60 1/4", "1", "1/16", "1"),)),
        "worth keeping",
    ),
    "an offcut is thrown away": (one_of("leftovers", 3, keep=False), "worth keeping"),
    "scrap is kept": (one_of("leftovers", 0, keep=True), "worth keeping"),
    "ends are not trimmed": (
        asked(saw=Saw(KERF, end_trim=inches("1/2"))),
        "in the trim",
    ),
    "edges are not trimmed": (
        asked(saw=Saw(KERF, edge_trim=inches("1/4"))),
        "in the trim",
    ),
    "a crosscut is too long": (
        asked(machine=Machine(longest_crosscut=inches("7 7/8"))),
        "longer than the machine",
    ),
    "a rip is too long": (
        asked(machine=Machine(longest_rip=inches("9 7/8"))),
        "longer than the machine",
    ),
    "what is ripped is too short": (
        asked(machine=Machine(shortest_piece=inches("10 1/64"))),
        "too short",
    ),
    "a firm pin is not kept": (asked(pins=(Pin("c", "other"),)), "not where it is"),
    "a firm pin for one is not kept": (
        asked(pins=(Pin("b", "other", 1),)),
        "not where it is",
    ),
    "the board comes later": (board(period="two"), "not there yet"),
    "the board is taken later": (layout(period="two"), "not taken when"),
    "a piece comes too early": (blank(2, period="one"), "in its period"),
    "a piece comes too late": (blank(0, period="two"), "not taken when"),
    "nothing waits for the second period": (
        without("leftovers", 1),
        "in its period",
    ),
    "what waits is scrap": (one_of("leftovers", 1, keep=False), "worth keeping"),
    "what waits is too small": (
        asked(keep=Keep(inches("60"), inches("1"))),
        "worth keeping",
    ),
    "what waits is not there whole": (
        one_of("leftovers", 1, area=at("30 1/8", "0", "59 3/4", "8")),
        "was not left over|no piece|in its period",
    ),
    "used_in names the wrong period": (
        one_of("leftovers", 1, used_in="one"),
        "in its period",
    ),
    "an offcut is said to be used": (
        one_of("leftovers", 3, used_in="two"),
        "was not left over",
    ),
    "more rounds than allowed": (asked(stages=1, first="rip"), "more rounds"),
    "the bound is above the cost": (
        lambda: replace(RIGHT, bounds=(Bound("cost", 5001),)),
        "beats its own bound",
    ),
    "a cut is said to be of another period": (
        one_of("cuts", 1, period="two"),
        "is in another period",
    ),
    "the order of the whole plan turns the periods round": (
        layout(
            cuts=tuple(
                replace(one, number=(4, 5, 1, 2, 3)[at]) for at, one in enumerate(CUTS)
            )
        ),
        "cut before an earlier",
    ),
    "cuts bear the same number": (one_of("cuts", 1, number=1), "without their number"),
}


@pytest.mark.parametrize("what", WRONG)
def test_each_wrong_plan_is_caught(what: str) -> None:
    change, words = WRONG[what]
    with pytest.raises(AssertionError, match=words):
        check(change())


def test_a_last_trimming_round_is_not_counted() -> None:
    check(asked(stages=1)())


def test_a_cut_of_an_earlier_period_never_comes_after_a_later_one() -> None:
    late = cut(5, CROSS, "95", at("90 1/8", "0", "5 7/8", "8"), "one")
    chips = (
        Leftover(at("90 1/8", "0", "4 7/8", "8"), keep=False),
        Leftover(at("95 1/8", "0", "7/8", "8"), keep=False),
    )
    wrong = layout(
        cuts=(*CUTS[:4], late, CUTS[4]), leftovers=(*chips, *LAYOUT.leftovers[1:])
    )
    with pytest.raises(AssertionError, match="comes after a later one"):
        check(wrong())


@pytest.mark.parametrize(
    "level",
    [
        Level("cost", 5, 6, proven=False),
        Level("cost", 6, 5, proven=True),
        Level("offcut_value", 6, 5, proven=False),
        Level("offcut_value", 5, 6, proven=True),
        Level("cuts", 3, 4, proven=False),
    ],
)
def test_a_bound_on_the_wrong_side_and_a_proof_too_many_are_caught(
    level: Level,
) -> None:
    with pytest.raises(AssertionError):
        right_side(level)


@pytest.mark.parametrize(
    "name", ["cost", "stock_pieces", "stock", "parts", "offcuts", "scrap", "cuts"]
)
def test_wrong_totals_are_caught(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    told = checker.totals(RIGHT)
    wrong = replace(told, **{name: getattr(told, name) + 1})
    monkeypatch.setattr(checker, "totals", lambda _: wrong)
    with pytest.raises(AssertionError, match="do not add up"):
        check(RIGHT)


def test_another_worth_of_offcuts_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    told = checker.levels(RIGHT)
    wrong = [
        replace(one, value=one.value + (one.objective == "offcut_value"))
        for one in told
    ]
    monkeypatch.setattr(checker, "levels", lambda _: wrong)
    with pytest.raises(AssertionError, match="another value"):
        check(RIGHT)
