"""The laminated board as numbers, every one following from the others."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import accumulate, pairwise

from app.core.length import Length
from app.core.pattern import Cut, Panel, Pattern, Way

Rectangle = tuple[int, int, int, int]  # left, right, front, back; nm


@dataclass(frozen=True, slots=True)
class Groove:
    """A flat-bottomed groove round the face; square corners, as it is reckoned."""

    width: Length
    depth: Length
    inset: Length
    faces: int

    def island(self, length: Length, width: Length) -> tuple[int, int]:
        """What stands inside it on the face, nm along and across."""
        taken = 2 * (self.inset.nm + self.width.nm)
        return length.nm - taken, width.nm - taken

    def area(self, length: Length, width: Length) -> int:
        """Its floor on one face, nm²."""
        along, across = self.island(length, width)
        wide = 2 * self.width.nm
        return (along + wide) * (across + wide) - along * across


@dataclass(frozen=True, slots=True)
class Board:
    """A board that can be built: every number resolved, none contradicting.

    ``strips`` are the widths as glued, front to back, the trim included;
    ``slice_width`` is the planed thickness of the first panel, and of an edge-grain
    board the planed thickness itself. ``trim_length`` and ``trim_width`` come off
    both sides together, ``level`` off both faces of an end-grain board.
    """

    end: bool
    length: Length
    width: Length
    thickness: Length
    pattern: Pattern
    strips: tuple[Length, ...]
    slice_width: Length
    trim_length: Length
    trim_width: Length
    level: Length
    cut: Cut
    ways: tuple[Way, ...]
    groove: Groove | None

    @property
    def panels(self) -> tuple[Panel, ...]:
        """What is glued up first, by the way that takes least wood."""
        return self.ways[0].panels

    @property
    def slices(self) -> int:
        """Slices across the length; an edge-grain board is one piece."""
        return self.pattern.sides

    @property
    def slice_thickness(self) -> Length:
        """A slice as it comes off the saw, before the board is levelled."""
        return self.thickness + self.level

    @property
    def glued_width(self) -> Length:
        """Across the strips, before the trim."""
        return self.width + self.trim_width

    @property
    def glued_length(self) -> Length:
        """Along the board as it comes out of its clamps."""
        if self.end:
            return self.slice_width * self.slices
        return self.length + self.trim_length

    @property
    def net_panel_length(self) -> Length:
        """What the first panels hold, one behind the other, before trim."""
        if not self.end:
            return self.length
        pieces, kerfs = self.slices, self.slices - 1
        return self.slice_thickness * pieces + self.cut.kerf * kerfs

    @property
    def across(self) -> tuple[int, ...]:
        """Where the strips' edges lie on the finished board, front to back, nm."""
        return _trimmed((one.nm for one in self.strips), self.width.nm)

    @property
    def along(self) -> tuple[int, ...]:
        """Where the slices' edges lie on the finished board, left to right, nm."""
        if not self.end:
            return 0, self.length.nm
        return _trimmed([self.slice_width.nm] * self.slices, self.length.nm)

    @property
    def volume(self) -> int:
        """The finished board, nm³."""
        whole = self.length.nm * self.width.nm * self.thickness.nm
        if not self.groove:
            return whole
        floor = self.groove.area(self.length, self.width)
        return whole - floor * self.groove.depth.nm * self.groove.faces

    @property
    def finish_area(self) -> int:
        """Faces, edges and the groove's walls, nm²."""
        around = 2 * (self.length.nm + self.width.nm)
        area = 2 * self.length.nm * self.width.nm + around * self.thickness.nm
        if not self.groove:
            return area
        along, across = self.groove.island(self.length, self.width)
        walls = 4 * (along + across) + 8 * self.groove.width.nm
        return area + walls * self.groove.depth.nm * self.groove.faces

    def cells(self, slice: int) -> list[tuple[str, Rectangle]]:
        """One slice's strips on the face, front to back, each with its species."""
        left, right = self.along[slice : slice + 2]
        return [
            (name, (left, right, front, back))
            for name, (front, back) in zip(
                self.pattern.column(slice), pairwise(self.across), strict=True
            )
        ]

    def beside_groove(self) -> list[Rectangle]:
        """The face without its groove, in rectangles."""
        long, wide = self.length.nm, self.width.nm
        if not self.groove:
            return [(0, long, 0, wide)]
        rim = self.groove.inset.nm
        inner = rim + self.groove.width.nm
        return [
            (0, long, 0, rim),
            (0, long, wide - rim, wide),
            (0, rim, rim, wide - rim),
            (long - rim, long, rim, wide - rim),
            (inner, long - inner, inner, wide - inner),
        ]


def _trimmed(widths: Iterable[int], whole: int) -> tuple[int, ...]:
    """Edges of pieces side by side, once half the excess is off either end."""
    edges = list(accumulate(widths, initial=0))
    left = (edges[-1] - whole) // 2
    return tuple(min(max(edge - left, 0), whole) for edge in edges)


def common(one: Rectangle, other: Rectangle) -> Rectangle | None:
    """Where two rectangles overlap."""
    left, right = max(one[0], other[0]), min(one[1], other[1])
    front, back = max(one[2], other[2]), min(one[3], other[3])
    return (left, right, front, back) if left < right and front < back else None


def area(one: Rectangle) -> int:
    """nm²."""
    return (one[1] - one[0]) * (one[3] - one[2])
