"""What lies on the bench while one layout is sawn, cut after cut.

Nothing of ``app.core.cutting`` but its values is used: the stock is one
rectangle, each cut must run edge to edge through a rectangle that is there, and
what lies on the bench at the end must be the plan's pieces and leftovers.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from app.core.cutting.job import Area, Blank, Job, Stock
from app.core.cutting.plan import Cut, Direction, Layout, Leftover

Rectangle = tuple[int, int, int, int]


def rectangle(area: Area) -> Rectangle:
    return (area.x.nm, area.y.nm, area.length.nm, area.width.nm)


def area_of(one: Rectangle, flat: bool) -> int:
    return one[2] * (1 if flat else one[3])


def within(inner: Rectangle, outer: Rectangle) -> bool:
    x, y, length, width = inner
    ox, oy, olength, owidth = outer
    inside = ox <= x and oy <= y
    return inside and x + length <= ox + olength and y + width <= oy + owidth


def meet(one: Rectangle, other: Rectangle, flat: bool) -> bool:
    """Whether two rectangles have wood in common."""
    x, y, length, width = one
    ox, oy, olength, owidth = other
    along = x < ox + olength and ox < x + length
    return along and (flat or (y < oy + owidth and oy < y + width))


@dataclass(frozen=True)
class Bench:
    """One layout, its stock and the job, with what follows from them at once."""

    layout: Layout
    stock: Stock
    job: Job

    @property
    def flat(self) -> bool:
        return self.stock.width is None

    @property
    def whole(self) -> Rectangle:
        width = 0 if self.stock.width is None else self.stock.width.nm
        return (0, 0, self.stock.length.nm, width)

    @property
    def pieces(self) -> list[Rectangle]:
        return [rectangle(piece.area) for piece in self.layout.pieces]

    @property
    def final(self) -> list[Rectangle]:
        """What is left over for good."""
        left = self.layout.leftovers
        return [rectangle(one.area) for one in left if not one.used_in]

    @property
    def interim(self) -> list[Leftover]:
        """What one period leaves over and a later one cuts up."""
        return [one for one in self.layout.leftovers if one.used_in]

    def sitting(self, one: Rectangle) -> int:
        """In which period a rectangle is cut up or comes off, by its place."""
        start = self.job.when(self.layout.period)
        inside = [
            self.job.when(left.used_in)
            for left in self.interim
            if within(one, rectangle(left.area))
        ]
        return max([start, *inside])


def saw_up(bench: Bench) -> None:
    """The cuts in their order give exactly the pieces and the leftovers."""
    lying: Counter[Rectangle] = Counter([bench.whole])
    dust, now = 0, bench.job.when(bench.layout.period)
    for cut in bench.layout.cuts:
        of = rectangle(cut.of)
        period = bench.sitting(of)
        assert period >= now, "a cut of an earlier period comes after a later one"
        for passed in range(now + 1, period + 1):
            left_over_till(passed, lying, bench)
        now = period
        assert lying[of] == 1, f"there is no piece {of} to cut at this moment"
        lying[of] -= 1
        halves, taken = halves_of(cut, bench.job.saw.kerf.nm, bench.flat)
        lying.update(halves)
        dust += taken
        the_machine_takes(cut, bench)
    for passed in range(now + 1, max(len(bench.job.periods), 1)):
        left_over_till(passed, lying, bench)
    left = Counter({piece: n for piece, n in lying.items() if n})
    ends = [*bench.pieces, *bench.final]
    assert left == Counter(ends), "the bench holds something else"
    no_overlap(ends, bench.whole, bench.flat)
    areas = sum(area_of(one, bench.flat) for one in ends)
    assert areas + dust == area_of(bench.whole, bench.flat), "wood appears or vanishes"


def left_over_till(period: int, lying: Counter[Rectangle], bench: Bench) -> None:
    """What a period cuts up lies on the bench whole when it begins."""
    for one in bench.interim:
        if bench.job.when(one.used_in) == period:
            there = lying[rectangle(one.area)]
            assert there == 1, "a later period uses what was not left over"


def halves_of(cut: Cut, kerf: int, flat: bool) -> tuple[list[Rectangle], int]:
    x, y, length, width = rectangle(cut.of)
    if cut.direction is Direction.CROSSCUT:
        near, far, across = cut.at.nm - x, x + length - cut.at.nm, 1 if flat else width
    else:
        assert not flat, "a stick without width cannot be ripped"
        near, far, across = cut.at.nm - y, y + width - cut.at.nm, length
    assert near >= 0, "the cut is outside its piece"
    assert far > 0, "the cut is outside its piece"
    # At the near edge the blade may hang over it: an end trim thinner than a kerf.
    full = cut.kerf.nm == min(kerf, far)
    assert full or (near == 0 and 0 < cut.kerf.nm < kerf), "not what the saw takes"
    rest = far - cut.kerf.nm
    if cut.direction is Direction.CROSSCUT:
        both = [(x, y, near, width), (x + length - rest, y, rest, width)]
    else:
        both = [(x, y, length, near), (x, y + width - rest, length, rest)]
    there = [half for half, size in zip(both, (near, rest), strict=True) if size]
    return there, cut.kerf.nm * across


def the_machine_takes(cut: Cut, bench: Bench) -> None:
    machine, of = bench.job.machine, cut.of
    if cut.direction is Direction.CROSSCUT:
        most, size = machine.longest_crosscut, of.width
    else:
        most, size = machine.longest_rip, of.length
    assert most is None or size <= most, "the cut is longer than the machine takes"
    least = machine.shortest_piece
    assert least is None or of.length >= least, "too short to be held at the machine"


def no_overlap(found: list[Rectangle], whole: Rectangle, flat: bool) -> None:
    for number, one in enumerate(found):
        assert within(one, whole), "outside the stock"
        for other in found[:number]:
            assert not meet(one, other, flat), "two pieces from the same wood"


def in_their_time(bench: Bench, blanks: dict[str, Blank]) -> None:
    """Stock is not cut before it is there, nor a piece out of its period."""
    job, layout = bench.job, bench.layout
    start = job.when(layout.period)
    assert start >= job.when(bench.stock.period), "the stock is not there yet"
    due = [job.when(blanks[piece.blank].period) for piece in layout.pieces]
    assert min(due, default=start) == start, "the stock is not taken when it is cut"
    for period, one in zip(due, bench.pieces, strict=True):
        assert bench.sitting(one) == period, "a piece is not cut in its period"
    for left in bench.interim:
        period, area = job.when(left.used_in), rectangle(left.area)
        inside = [due[n] for n, one in enumerate(bench.pieces) if within(one, area)]
        assert left.keep, "a later period uses scrap"
        assert period > start, "a leftover is used before it is left"
        assert period in inside, "what used_in says is not so"
    for cut in layout.cuts:
        told = job.when(cut.period)
        assert told == bench.sitting(rectangle(cut.of)), "a cut is in another period"


def only_worthwhile_kept(bench: Bench) -> None:
    """What is kept is large enough and without a defect, and all such is kept."""
    keep, flat = bench.job.keep, bench.flat
    for left in bench.layout.leftovers:
        long_enough = left.area.length >= keep.length
        wide_enough = flat or left.area.width >= keep.width
        assert left.keep == (
            long_enough and wide_enough and sound(rectangle(left.area), bench)
        ), "kept and worth keeping are not the same"


def free_of_defects(bench: Bench) -> None:
    for one in bench.pieces:
        assert sound(one, bench), "a piece has a defect in it"


def sound(one: Rectangle, bench: Bench) -> bool:
    spots = map(rectangle, bench.stock.defects)
    return not any(meet(one, spot, bench.flat) for spot in spots)


def trims_respected(bench: Bench) -> None:
    # What was sawn all round before owes the saw no trims; all else does.
    end, edge = trims_of(bench)
    _, _, length, width = bench.whole
    inner = (end, edge, length - 2 * end, width - 2 * edge)
    for one in bench.pieces:
        assert within(one, inner), "a piece in the trim"


def trims_of(bench: Bench) -> tuple[int, int]:
    if bench.stock.trimmed:
        return 0, 0
    edge = 0 if bench.flat else bench.job.saw.edge_trim.nm
    return bench.job.saw.end_trim.nm, edge
