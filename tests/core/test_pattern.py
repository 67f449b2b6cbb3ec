"""Strip patterns: what lies where, and the panels that take least wood."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.core.errors import WorkshopError
from app.core.length import Length, inches, mm
from app.core.pattern import Column, Cut, Pattern, equal_panels, panels, repeated, ways
from app.core.pattern_kinds import (
    alternating,
    bands,
    blend,
    mirrored,
    own,
    stepped,
)

W, M, C = "walnut", "maple", "cherry"
counts = st.integers(1, 12)
names = st.sampled_from([(W,), (W, M), (W, M, C)])
patterns = st.integers(1, 4).flatmap(
    lambda rows: st.integers(1, 5).flatmap(
        lambda sides: st.lists(
            st.tuples(*[st.sampled_from([W, M])] * sides),
            min_size=rows,
            max_size=rows,
        ).map(lambda made: Pattern(tuple(made)))
    )
)


def drawn(pattern: Pattern) -> list[str]:
    """The top row first, as it is seen; one letter a strip."""
    return ["".join(name[0] for name in row) for row in reversed(pattern.rows)]


@pytest.mark.parametrize(
    ("pattern", "seen"),
    [
        (bands((W, M), 3, 4), ["wwww", "mmmm", "wwww"]),
        (bands((W, M, C), 4, 2), ["ww", "cc", "mm", "ww"]),
        (alternating((W, M), 3, 4), ["wmwm", "mwmw", "wmwm"]),
        (stepped((W, M, C), 3, 3, 1), ["cmw", "mwc", "wcm"]),
        (stepped((W, W, M), 4, 3, 1), ["wmw", "mww", "wwm", "wmw"]),
        (mirrored((W, M, C), 5, 2), ["ww", "mm", "cc", "mm", "ww"]),
        (mirrored((W, M), 4, 1), ["w", "m", "m", "w"]),
        (blend((W, M), 5, 4, None), ["mmmm", "mwmm", "mwmw", "wwmw", "wwww"]),
        (blend((W, M), 8, 1, None), ["m", "m", "m", "w", "m", "w", "w", "w"]),
        (blend((W, M), 4, 3, 0), ["mmm", "mmm", "www", "www"]),
        (own("maple\nwalnut | maple | 2", (W, C), 3), ["mmm", "wmc"]),
        (own("1, 2; 2, 1", (W, M), 2), ["wm", "mw"]),
    ],
)
def test_a_pattern_reads_from_the_top_as_it_is_seen(
    pattern: Pattern, seen: list[str]
) -> None:
    assert drawn(pattern) == seen


@given(counts, counts, names)
def test_every_kind_fills_every_place_and_nothing_else(
    rows: int, sides: int, woods: tuple[str, ...]
) -> None:
    made = [
        bands(woods, rows, sides),
        alternating(woods, rows, sides),
        stepped(woods, rows, sides, 2),
        mirrored(woods, rows, sides),
        blend((W, M), rows, sides, None),
    ]
    for pattern in made:
        assert len(pattern.rows) == rows
        assert all(len(row) == sides for row in pattern.rows)


@given(counts, counts, names)
def test_bands_and_mirrors_are_the_same_all_round_and_a_mirror_upside_down(
    rows: int, sides: int, woods: tuple[str, ...]
) -> None:
    assert bands(woods, rows, sides).same_all_round
    pattern = mirrored(woods, rows, sides)
    assert pattern.same_all_round
    assert pattern.rows == pattern.rows[::-1]


@given(counts, counts, st.integers(0, 5))
def test_a_step_lifts_the_bands_from_side_to_side(
    rows: int, sides: int, step: int
) -> None:
    pattern = stepped((W, M, C), rows, sides, step)
    for side in range(1, sides):
        before, after = pattern.column(side - 1), pattern.column(side)
        assert after[step:] == before[: max(rows - step, 0)]


@given(st.integers(2, 20), st.integers(2, 16), st.data())
def test_the_second_species_takes_more_of_each_row_of_a_blend(
    rows: int, sides: int, data: st.DataObject
) -> None:
    over = data.draw(st.none() | st.integers(0, rows))
    found = [row.count(M) for row in blend((W, M), rows, sides, over).rows]
    assert all(low <= high for low, high in pairwise(found))
    below = (rows - (max(rows - 2, 0) if over is None else over)) // 2
    assert not any(found[:below])
    if over is None and rows > 2:
        assert (found[0], found[-1]) == (0, sides)


@given(st.integers(2, 20), st.integers(2, 16))
def test_a_blend_turned_upside_down_swaps_its_species_row_by_row(
    rows: int, sides: int
) -> None:
    # Halves are rounded up in both, so a row may differ by one side.
    one = [row.count(M) for row in blend((W, M), rows, sides, None).rows]
    other = [row.count(W) for row in blend((W, M), rows, sides, None).rows[::-1]]
    assert all(abs(a - b) <= 1 for a, b in zip(one, other, strict=True))


@pytest.mark.parametrize(
    "text", ["", "walnut | maple", "walnut || maple", "9", "walnut, ,maple"]
)
def test_a_pattern_of_ones_own_that_does_not_fit_is_refused(text: str) -> None:
    with pytest.raises(WorkshopError) as refusal:
        own(text, (W,), 3)
    assert refusal.value.input == "own_pattern"


CUT = Cut(inches("4"), inches("1"), inches("5/8"), inches("1/8"), inches("1/2"))


def test_six_walls_alike_come_from_one_panel() -> None:
    (one,) = panels(repeated((W, M), 3, 6), CUT)
    # 6 × 4 in + 5 × 1/8 in + 1/2 in over size.
    assert one.length == inches("25 1/8")
    assert (one.quantity, one.each, one.sides) == (1, 6, (0, 1, 2, 3, 4, 5))
    assert one.strips == {W: 2, M: 1}


def test_a_checked_vessel_of_even_rows_needs_one_panel_where_walls_may_turn() -> None:
    pattern = alternating((W, M), 4, 6)
    upright = panels(pattern, CUT)
    assert [one.sides for one in upright] == [(0, 2, 4), (1, 3, 5)]
    (turned,) = panels(pattern, Cut(*_facts(CUT), may_turn=True))
    assert turned.turned == (1, 3, 5)
    assert turned.length == inches("25 1/8")


def _facts(cut: Cut) -> tuple[Length, ...]:
    return (cut.wall, cut.strip_width, cut.thickness, cut.kerf, cut.over_length)


def test_a_panel_longer_than_the_longest_board_is_made_as_several() -> None:
    long = Cut(mm(600), mm(50), mm(15), mm(3), mm(12))
    found = panels(repeated((W,), 3, 8), long)
    # 3 × 600 + 2 × 3 + 12 mm goes on 2400 mm, a fourth wall does not.
    assert [(one.quantity, one.each) for one in found] == [(2, 3), (1, 2)]
    assert [one.sides for one in found] == [(0, 1, 2, 3, 4, 5), (6, 7)]


def test_a_wall_longer_than_any_board_still_has_its_panel() -> None:
    (one,) = panels(repeated((W,), 2, 3), Cut(mm(3000), *_facts(CUT)[1:]))
    assert (one.quantity, one.each) == (3, 1)


def test_spares_lengthen_the_panel_most_walls_come_from() -> None:
    cut = Cut(*_facts(CUT), spares=2)
    found = panels(Pattern(((W, M, M),)), cut)
    assert [(one.column, one.each, one.spares) for one in found] == [
        ((W,), 1, 0),
        ((M,), 4, 2),
    ]


def test_kept_designs_share_their_walls_over_equal_panels() -> None:
    (one,) = equal_panels(repeated((W, M), 3, 7), CUT, 2)
    assert (one.quantity, one.each, one.length) == (2, 4, CUT.length(4))


def partitions(items: list[int]) -> Iterator[list[list[int]]]:
    """Every way to put things into heaps."""
    if not items:
        yield []
        return
    first, rest = items[0], items[1:]
    for heaps in partitions(rest):
        for i, heap in enumerate(heaps):
            yield [*heaps[:i], [first, *heap], *heaps[i + 1 :]]
        yield [[first], *heaps]


def least_wood(pattern: Pattern, cut: Cut) -> int:
    """The least over every way to put the sides on panels, tried one by one."""

    def alike(one: Column, other: Column) -> bool:
        return one == other or (cut.may_turn and one == other[::-1])

    best = None
    for heaps in partitions(list(range(pattern.sides))):
        fits = all(
            len(heap) <= cut.most
            and all(
                alike(pattern.column(heap[0]), pattern.column(side)) for side in heap
            )
            for heap in heaps
        )
        if fits:
            long = sum(cut.length(len(heap)).nm for heap in heaps)
            wood = long * len(pattern.rows) * cut.strip_width.nm * cut.thickness.nm
            best = wood if best is None else min(best, wood)
    assert best is not None
    return best


@settings(max_examples=150, deadline=None)
@given(
    patterns,
    st.booleans(),
    st.sampled_from([mm(0), mm(1), mm(12)]),
    st.sampled_from([mm(900), mm(260), mm(90)]),
)
def test_no_other_way_to_put_the_sides_on_panels_takes_less_wood(
    pattern: Pattern, may_turn: bool, over: Length, longest: Length
) -> None:
    cut = Cut(mm(100), mm(30), mm(14), mm(3), over, may_turn=may_turn, longest=longest)
    best, *others = ways(pattern, cut)
    assert best.wood == least_wood(pattern, cut)
    assert all(way.wood >= best.wood for way in others)


@settings(deadline=None)
@given(patterns, st.booleans(), st.integers(0, 3))
def test_longer_boards_and_fewer_spares_never_take_more_wood(
    pattern: Pattern, may_turn: bool, spares: int
) -> None:
    def least(longest: Length, spares: int) -> int:
        cut = Cut(*_facts(CUT), spares, may_turn, longest)
        return ways(pattern, cut)[0].wood

    assert least(mm(2400), spares) <= least(mm(240), spares)
    assert least(mm(2400), spares) <= least(mm(2400), spares + 1)


@settings(deadline=None)
@given(patterns, st.booleans(), st.integers(0, 3))
def test_every_side_comes_from_one_panel_and_every_strip_is_counted(
    pattern: Pattern, may_turn: bool, spares: int
) -> None:
    cut = Cut(*_facts(CUT), spares=spares, may_turn=may_turn)
    for way in ways(pattern, cut):
        taken = [side for one in way.panels for side in one.sides]
        assert sorted(taken) == list(range(pattern.sides))
        for one in way.panels:
            for side in one.sides:
                column = pattern.column(side)
                assert one.column == (column[::-1] if side in one.turned else column)
            assert one.quantity * one.each == len(one.sides) + one.spares
        assert sum(one.spares for one in way.panels) == spares
        assert way.strips.total() == way.count * len(pattern.rows)


@settings(deadline=None)
@given(patterns, st.booleans(), st.randoms(use_true_random=False))
def test_walls_in_another_order_or_turned_upside_down_take_as_much_wood(
    pattern: Pattern, may_turn: bool, random: object
) -> None:
    cut = Cut(*_facts(CUT), may_turn=may_turn)
    order = list(range(pattern.sides))
    random.shuffle(order)  # type: ignore[attr-defined]
    shuffled = Pattern(tuple(tuple(row[i] for i in order) for row in pattern.rows))
    upended = Pattern(pattern.rows[::-1])
    best = ways(pattern, cut)[0]
    for other in (shuffled, upended):
        found = ways(other, cut)[0]
        assert (found.wood, found.count) == (best.wood, best.count)


def test_a_sides_shares_are_those_of_its_rows() -> None:
    pattern = Pattern((("walnut", "maple"), ("maple", "maple"), ("walnut", "cherry")))
    assert pattern.shares() == (("walnut", Fraction(2, 3)), ("maple", Fraction(1, 3)))
    assert pattern.shares(1) == (("maple", Fraction(2, 3)), ("cherry", Fraction(1, 3)))
