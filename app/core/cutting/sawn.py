"""A layout's cuts as a tree: what each cut waits for, and how the saw is set for it.

Everything here is whole nanometres in plain integers. Between fence or stop and
blade lies what is wanted: the near side of a cut, or the far one where the near
one holds no blank or is a strip too thin to be fenced.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.core.cutting.job import Area
from app.core.cutting.pattern import Box, Pattern, RawCut
from app.core.cutting.plan import Cut, Direction, Layout
from app.core.length import mm

# A strip thinner than this is caught between fence and blade: it falls on the free
# side. Common practice, no source; see the caution table-saw.thin-strip.
THIN = mm(13).nm
# With less than this between fence and blade no hand fits beside it: the figure of
# the caution powered-machine.hand-position.
NARROW = mm(75).nm
# A piece shorter than this between a stop and the blade may jam: a block that stands
# clear of the cut measures it. Common practice, no source; table-saw.fence-as-stop.
SHORT = mm(150).nm
SMALL = {Direction.RIP: NARROW, Direction.CROSSCUT: SHORT}


@dataclass(frozen=True, slots=True)
class Sawn:
    """One cut in the tree. ``after`` is the cut before it, or -1.

    ``setting`` is what stays between fence or stop and blade, or what a trim takes
    off; ``far``: the far side of the cut is the one that is fenced or stopped.
    ``round`` counts rounds of parallel cuts from 1, trims being 0.
    """

    raw: RawCut
    after: int
    setting: int
    far: bool
    round: int


def of_pattern(pattern: Pattern) -> list[Sawn]:
    """The tree of a pattern that is still being laid out."""
    return _tree(pattern.cuts, frozenset(pattern.waste))


def of_layout(layout: Layout) -> list[Sawn]:
    """The tree of a finished layout, read from where its cuts run."""
    waste = frozenset(box(one.area) for one in layout.leftovers if not one.used_in)
    return _tree(_raw(layout.cuts), waste)


def box(area: Area) -> Box:
    """An area in plain nanometres."""
    return (area.x.nm, area.y.nm, area.length.nm, area.width.nm)


def halves(cut: RawCut) -> tuple[Box, Box]:
    """The near and the far side of a cut; one that is all dust has no size."""
    x, y, length, width = cut.box
    far = cut.at + cut.kerf
    if cut.direction is Direction.CROSSCUT:
        near_side = (x, y, cut.at - x, width)
        return near_side, (far, y, x + length - far, width)
    return (x, y, length, cut.at - y), (x, far, length, y + width - far)


def sides(cut: Cut) -> tuple[Box, ...]:
    """What a cut makes of its piece: two sides, or one where the other is dust."""
    raw = RawCut(cut.direction, cut.at.nm, cut.kerf.nm, box(cut.of), 0, -1)
    return tuple(one for one in halves(raw) if extent(cut.direction, one) > 0)


def extent(direction: Direction, one: Box) -> int:
    """How large a box is in the way that a cut of this direction measures."""
    return one[2] if direction is Direction.CROSSCUT else one[3]


def _raw(cuts: Iterable[Cut]) -> list[RawCut]:
    """Cuts with the number of the one that made their piece, in the order given."""
    made: dict[Box, int] = {}
    found: list[RawCut] = []
    for number, cut in enumerate(cuts):
        whole = box(cut.of)
        trim = cut.trim or cut.set_up.startswith("Trim")
        after = made.get(whole, -1)
        raw = RawCut(cut.direction, cut.at.nm, cut.kerf.nm, whole, 0, after, trim)
        found.append(raw)
        made |= dict.fromkeys(halves(raw), number)
    return found


def _tree(cuts: Sequence[RawCut], waste: frozenset[Box]) -> list[Sawn]:
    found: list[Sawn] = []
    unfinished = waste.union(cut.box for cut in cuts)
    for cut in cuts:
        setting, far = _fenced(cut, waste)
        if not (far or cut.trim) and _held_by_its_rest(cut, found, unfinished):
            setting, far = extent(cut.direction, halves(cut)[1]), True
        found.append(Sawn(cut, cut.after, setting, far, _round(cut, found)))
    return found


def _held_by_its_rest(
    cut: RawCut, before: Sequence[Sawn], unfinished: frozenset[Box]
) -> bool:
    """Whether a narrow or short side may fall free of a larger one that is a blank.

    Either setting gives both sizes. Not where the saw is set to the small one
    already: then it is one of several.
    """
    near, far = (extent(cut.direction, side) for side in halves(cut))
    if near >= min(far, SMALL[cut.direction]) or halves(cut)[1] in unfinished:
        return False
    if cut.after < 0:
        return True
    last = before[cut.after]
    return last.raw.direction is not cut.direction or last.setting != near


def _round(cut: RawCut, before: Sequence[Sawn]) -> int:
    if cut.trim:
        return 0
    if cut.after < 0 or before[cut.after].raw.trim:
        return 1
    parent = before[cut.after]
    return parent.round + (parent.raw.direction is not cut.direction)


def _fenced(cut: RawCut, waste: frozenset[Box]) -> tuple[int, bool]:
    """How far fence or stop stands from the blade, and on which side of it."""
    near_side, far_side = halves(cut)
    near, far = (extent(cut.direction, one) for one in (near_side, far_side))
    if cut.trim:
        return (near + cut.kerf, True) if near < far else (far + cut.kerf, False)
    if far > 0 and (not near or near_side in waste) and far_side not in waste:
        return far, True
    thin = cut.direction is Direction.RIP and near < THIN < far
    return (far, True) if thin else (near, False)
