"""The cut list sorted by set-up: one setting of the saw, and all that is cut at it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby

from app.core.cutting.against import RAW, RAW_END
from app.core.cutting.job import Job
from app.core.cutting.offcut_names import board_names, offcut_names
from app.core.cutting.order import numbered, same_setting, sequence
from app.core.cutting.pattern import Box
from app.core.cutting.plan import Cut, Direction, Layout, Plan
from app.core.cutting.sawn import box, sides
from app.core.length import Length


class Becomes(StrEnum):
    """What a piece is that comes off the saw."""

    BLANK = "blank"
    OFFCUT = "offcut"
    SCRAP = "scrap"
    REST = "to be cut further"


@dataclass(frozen=True, slots=True)
class Off:
    """One piece that a cut makes; ``name`` is empty for scrap and what is cut on.

    ``used_in`` is the later period that cuts an offcut up.
    """

    becomes: Becomes
    name: str
    length: Length
    width: Length
    used_in: str = ""


@dataclass(frozen=True, slots=True)
class SetUpCut:
    """One cut at a set-up, made on each of ``copies`` equal boards."""

    number: int
    stock: str
    copies: int
    of_length: Length
    of_width: Length
    against: str
    off: tuple[Off, ...]


@dataclass(frozen=True, slots=True)
class SetUpGroup:
    """One setting of fence or stop with its cuts in order.

    ``words`` say how it is set; ``blanks`` counts the finished blanks that come
    off at it. ``period`` is when it is set, empty where there are none.
    """

    number: int
    words: str
    direction: Direction
    trim: bool
    period: str
    cuts: tuple[SetUpCut, ...]
    blanks: int


def by_set_up(plan: Plan) -> tuple[SetUpGroup, ...]:
    """Every cut of the plan under the setting it is made at, in the order of sawing.

    A setting stands twice where something must be cut at another one between.
    """
    plan = numbered(plan)
    named = zip(plan.layouts, board_names(plan), offcut_names(plan), strict=True)
    # Layouts may be equal; each cut is only in one of them, by its number.
    ends: dict[int, _Ends] = {}
    for layout, board, names in named:
        each = _Ends.of(plan.job, layout, board, names)
        ends |= {cut.number: each for cut in layout.cuts}
    groups = groupby(sequence(plan), key=lambda pair: same_setting(pair[1]))
    return tuple(
        _group(number, list(pairs), ends) for number, (_, pairs) in enumerate(groups, 1)
    )


@dataclass(frozen=True, slots=True)
class _Ends:
    """What the pieces of one layout become, by where they lie on which board."""

    board: str
    becomes: dict[Box, tuple[Becomes, str, str]]

    @classmethod
    def of(cls, job: Job, layout: Layout, board: str, names: tuple[str, ...]) -> _Ends:
        blanks = {one.id: one.name or one.id for one in job.blanks}
        found: dict[Box, tuple[Becomes, str, str]] = {}
        for left, name in zip(layout.leftovers, names, strict=True):
            kind = Becomes.OFFCUT if left.keep else Becomes.SCRAP
            found[box(left.area)] = (kind, name, left.used_in)
        for piece in layout.pieces:
            found[box(piece.area)] = (Becomes.BLANK, blanks[piece.blank], "")
        return cls(board, found)

    def off(self, cut: Cut) -> tuple[Off, ...]:
        rest = (Becomes.REST, "", "")
        return tuple(
            Off(kind, name, Length(side[2]), Length(side[3]), used_in)
            for side in sides(cut)
            for kind, name, used_in in [self.becomes.get(side, rest)]
        )


def _group(
    number: int,
    pairs: list[tuple[Layout, Cut]],
    ends: dict[int, _Ends],
) -> SetUpGroup:
    first = pairs[0][1]
    cuts = tuple(
        SetUpCut(
            cut.number,
            ends[cut.number].board,
            layout.copies,
            cut.of.length,
            cut.of.width,
            cut.against,
            ends[cut.number].off(cut),
        )
        for layout, cut in pairs
    )
    blanks = sum(
        one.copies * sum(off.becomes is Becomes.BLANK for off in one.off)
        for one in cuts
    )
    return SetUpGroup(
        number, first.set_up, first.direction, first.trim, first.period, cuts, blanks
    )


@dataclass(frozen=True, slots=True)
class Prepared:
    """Stocks whose sides are to be straight before their first cut, in words."""

    stocks: tuple[str, ...]
    sides: tuple[str, ...]


def prepared(plan: Plan) -> tuple[Prepared, ...]:
    """What is to be jointed or squared on which stock, in the order of sawing.

    Sides that no cut of the plan makes and that bear on fence, gauge or stop;
    stocks with the same sides stand together.
    """
    labels = {one.id: one.name or one.id for one in plan.job.stock}
    found: dict[str, set[str]] = {}
    for layout, cut in sequence(plan):
        for ending, doing in ((RAW, "joint"), (RAW_END, "square")):
            side, told, _ = cut.against.partition(ending)
            if told:
                sides = found.setdefault(labels[layout.stock], set())
                sides.add(f"{doing} the {side}")
    together: dict[tuple[str, ...], list[str]] = {}
    for stock, sides in found.items():
        together.setdefault(tuple(sorted(sides)), []).append(stock)
    return tuple(Prepared(tuple(them), sides) for sides, them in together.items())
