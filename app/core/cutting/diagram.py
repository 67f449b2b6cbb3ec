"""A plan as drawings: each layout to scale, to take to the saw.

On a long narrow board the widths are drawn larger than the lengths where a blank
could not hold its letter else; the drawing says so.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from string import ascii_uppercase
from textwrap import wrap

from app.core.cutting.diagram_marks import crossed, framed
from app.core.cutting.fit import trims
from app.core.cutting.job import Area, Blank, Stock
from app.core.cutting.lettering import Lettering
from app.core.cutting.offcut_names import board_names, offcut_names
from app.core.cutting.order import numbered
from app.core.cutting.plan import Cut, Direction, Layout, Leftover, Plan
from app.core.cutting.spans import spans
from app.core.drawing import (
    LETTER,
    PAGE_MM,
    TEXT_MM,
    Drawing,
    Line,
    Measure,
    Pen,
    Point,
    Shape,
)
from app.core.drawing_texts import BELOW, FALL, RISE
from app.core.length import Display, Length, show

STICK_LINES = 2  # how wide a stick without a width is drawn
PAGE_LINES = PAGE_MM / TEXT_MM  # the page's width in lines of text
MARGIN_LINES = 3  # lines of text around the board, for cut numbers and measures
RIGHT_LINES = 6  # and beside it, where a narrow board's width stands
TALLEST_LINES = 26  # a board short and wide is drawn no higher than this
WIDENED_LINES = 13  # nor one whose widths are drawn larger than its lengths
ROOM_FOR_A_LETTER = 13  # tenths of a line
# Thin, so that a kerf shows as a gap even where a long board is drawn small.
FINE = Pen.GRAIN
Box = tuple[int, int, int, int]
Names = tuple[str, tuple[str, ...]]  # the board's and its leftovers'


def diagrams(plan: Plan) -> tuple[Drawing, ...]:
    """One drawing for each layout: ``layout-1`` and so on.

    Cuts bear their numbers in the order of the whole plan, offcuts the names that
    ``offcut_names`` gives them.
    """
    plan = numbered(plan)
    stock = {one.id: one for one in plan.job.stock}
    names = zip(board_names(plan), offcut_names(plan), strict=True)
    each = enumerate(zip(plan.layouts, names, strict=True), 1)
    return tuple(
        _drawn(plan, layout, stock[layout.stock], number, own)
        for number, (layout, own) in each
    )


def _drawn(
    plan: Plan, layout: Layout, stock: Stock, number: int, own: Names
) -> Drawing:
    """Blanks by name where that leaves room for the cuts' numbers, else by letter."""
    by_name = _Sheet(plan, layout, stock, number, own, names=True)
    drawing = by_name.drawing()
    if not by_name.unnumbered:
        return drawing
    by_letter = _Sheet(plan, layout, stock, number, own, names=False)
    lettered = by_letter.drawing()
    fewer = len(by_letter.unnumbered) < len(by_name.unnumbered)
    return lettered if fewer else drawing


def letters(number: int) -> str:
    """The cut list's letters: A to Z, then AA; numbers from 0 are for cuts."""
    before, last = divmod(number, len(ascii_uppercase))
    return (letters(before - 1) if before else "") + ascii_uppercase[last]


@dataclass
class _Sheet:
    plan: Plan
    layout: Layout
    stock: Stock
    number: int
    own: Names
    names: bool
    shapes: list[Shape] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    legend: dict[str, str] = field(default_factory=dict)
    unlettered: list[str] = field(default_factory=list)
    unnumbered: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.length = self.stock.length.nm
        self.width = self.stock.width.nm if self.stock.width else 0
        # The page's width holds the board and its margins, in lines of text.
        lines = int(PAGE_LINES) - MARGIN_LINES - RIGHT_LINES
        self.line = max(self.length // lines, self.width // TALLEST_LINES, 1)
        self.high = self.width or STICK_LINES * self.line
        self.times = self._times()
        self.high *= self.times
        self.margin = MARGIN_LINES * self.line
        self.text = Lettering(self.line)
        self.letters = {
            one.id: letters(n) for n, one in enumerate(self.plan.job.blanks)
        }

    def _times(self) -> int:
        """How much larger widths are drawn than lengths, so that letters have room."""
        named = [one.area for one in self.layout.pieces]
        named += [
            one.area for one in self.layout.leftovers if one.keep and not one.used_in
        ]
        least = min((one.width.nm for one in named), default=0)
        if not self.width or not least:
            return 1
        wanted = -(-self.line * ROOM_FOR_A_LETTER // (10 * least))
        most = WIDENED_LINES * self.line // self.high
        return max(1, min(wanted, most))

    def drawing(self) -> Drawing:
        """The whole picture."""
        self._defects()
        self._pieces()
        self._leftovers()
        for cut in self.layout.cuts:
            number = str(cut.number)
            wide = self.text.wide(number)
            places = (at for at in self._places(cut) if not self._on_edge(at, wide))
            if not self.text.put(places, number):
                self.unnumbered.append(cut.number)
        times = f", {self.layout.copies} times" if self.layout.copies > 1 else ""
        grain, foot = self._grain(), self._foot()
        return Drawing(
            key=f"layout-{self.number}",
            title=f"{self.own[0]}{times}",
            description=self._description(),
            width=Length(int(PAGE_LINES * self.line)),
            height=Length(foot),
            shapes=(self._board(), *self.shapes),
            lines=(*grain, *self.lines),
            measures=self._measures(),
            labels=tuple(self.text.labels),
        )

    def _board(self) -> Shape:
        whole = (self.margin, self.margin, self.length, self.high)
        return Shape(self._corners(whole), title="the board")

    def _pieces(self) -> None:
        blanks = {one.id: one for one in self.plan.job.blanks}
        for piece in self.layout.pieces:
            blank = blanks[piece.blank]
            box, size = self._box(piece.area), self._size(piece.area)
            name = blank.name or blank.id
            # Without a species it still is wood, and is drawn as such.
            species = self.stock.species or blank.species or "wood"
            title = f"{name}, {size}" + (", turned" if piece.turned else "")
            self.shapes.append(Shape(self._corners(box), FINE, species, title=title))
            if not self._named(box, name, size):
                then = f", for {blank.period}" if blank.period else ""
                meant = f"{name}, {self._own(blank)}{then}"
                self._lettered(box, self.letters[blank.id], meant)

    def _defects(self) -> None:
        """What is cut around: in a dashed frame, struck through."""
        for one in self.stock.defects:
            box = self._box(one)
            self.lines += crossed(box)
            x, y, length, width = box
            self.text.taken.append((x, y, x + length, y + width))

    def _leftovers(self) -> None:
        named = list(zip(self.layout.leftovers, self.own[1], strict=True))
        for left, name in named:
            if left.used_in:
                self._until(left, name)
        for left, name in named:
            if not left.used_in:
                self._leftover(left, name)

    def _until(self, left: Leftover, name: str) -> None:
        """The outline of what a later period cuts up."""
        box, size = self._box(left.area), self._size(left.area)
        self.lines += framed(box)
        self.text.keep_off(box)
        letter = name.rpartition("-")[2]
        self.legend[letter] = f"{name}, {size}, left over until {left.used_in}"
        x, y, length, width = box
        inset = self.line * 3 // 4
        corners = [
            Point(across, down)
            for down in (y + width - inset, y + inset)
            for across in (x + length - inset, x + inset)
        ]
        if not self.text.put(corners, letter, italic=True):
            self.unlettered.append(letter)

    def _leftover(self, left: Leftover, name: str) -> None:
        box, size = self._box(left.area), self._size(left.area)
        word = f"offcut {name}" if left.keep else "scrap"
        self.shapes.append(
            Shape(
                self._corners(box), FINE, scrap=not left.keep, title=f"{word}, {size}"
            )
        )
        if left.keep and not self._named(box, name, size, italic=True):
            letter = name.rpartition("-")[2]
            self._lettered(box, letter, f"{word}, {size}", italic=True)

    def _named(self, box: Box, name: str, size: str, *, italic: bool = False) -> bool:
        """Write name and size into a box, in a line or two, if they have room."""
        if not self.names:
            return False
        middle, up = self._middle(box), self.line * 2 // 3
        if self.text.fits([f"{name} {size}"], *box[2:]):
            return self.text.put([middle], f"{name} {size}", italic=italic)
        if not self.text.fits([name, size], *box[2:]):
            return False
        over, under = (Point(middle.x, middle.y + way) for way in (-up, up))
        if not (self.text.clear(over, name) and self.text.clear(under, size)):
            return False
        self.text.put([over], name, italic=italic)
        return self.text.put([under], size, italic=italic)

    def _lettered(
        self, box: Box, letter: str, meant: str, *, italic: bool = False
    ) -> None:
        """A letter, and below the board what it stands for."""
        self.legend[letter] = meant
        length, width = box[2:]
        hangs = 2 * FALL if BELOW.intersection(letter) else 0
        if min(length, width) < self.line * (RISE + hangs):
            # It would stand on the lines beside it.
            self.unlettered.append(letter)
            return
        # In the middle, else as near to it as may be, the long way of the piece.
        farthest = max(0, max(length, width) - self.line // 2) // self.line
        offs = [
            way * n * self.line // 2 for n in range(farthest + 1) for way in (1, -1)
        ]
        middle = self._middle(box)
        along = [Point(middle.x + off, middle.y) for off in offs]
        across = [Point(middle.x, middle.y + off) for off in offs]
        places = along if length >= width else across
        if not self.text.put(places, letter, italic=italic):
            self.unlettered.append(letter)

    def _places(self, cut: Cut) -> Iterator[Point]:
        """Where a cut's number may stand on its line: outside the board first."""
        box, line = self._box(cut.of), self.line
        across = cut.direction is Direction.CROSSCUT
        middle = cut.at.nm + cut.kerf.nm // 2
        middle = self.margin + middle * (1 if across else self.times)
        start, long = (box[1], box[3]) if across else (box[0], box[2])
        end, edge = trims(self.stock, self.plan.job.saw)
        if start - self.margin <= (edge * self.times if across else end):
            outside = self.margin - line * 2 // 3
            for place in (outside, outside - line * 5 // 4):
                yield Point(middle, place) if across else Point(place, middle)
        for place in range(start + line * 2 // 3, start + long, max(line // 3, 1)):
            yield Point(middle, place) if across else Point(place, middle)

    def _on_edge(self, at: Point, wide: int) -> bool:
        """Whether a number there would stand on the board's outline."""
        x, y = at.x - self.margin, at.y - self.margin
        half, up = wide // 2, self.line // 2
        beside = -up < y < self.high + up
        within = -half < x < self.length + half
        ends = min(abs(x), abs(x - self.length)) < half
        edges = min(abs(y), abs(y - self.high)) < up
        return (beside and ends) or (within and edges)

    def _grain(self) -> tuple[Line, ...]:
        """An arrow below the board, the way the grain runs."""
        y = self.margin + self.high + self.line
        start, end = self.margin + self.line, self.margin + 5 * self.line
        tip, half = self.line // 2, self.line // 4
        self.text.put([Point(end + self.line, y)], "grain", anchor="start")
        return (
            Line(Point(start, y), Point(end, y), Pen.GRAIN),
            Line(Point(end - tip, y - half), Point(end, y), Pen.GRAIN),
            Line(Point(end - tip, y + half), Point(end, y), Pen.GRAIN),
        )

    def _foot(self) -> int:
        """Write what the letters mean below the board; where the drawing ends."""
        y = self.margin + self.high + 4 * self.line
        for words, italic in self._told():
            for row in wrap(words, int((PAGE_LINES - 2) / LETTER)):
                at = Point(self.line, y)
                self.text.put([at], row, italic=italic, anchor="start")
                y += self.line * 5 // 4
        return y - self.line // 2

    def _told(self) -> Iterator[tuple[str, bool]]:
        """What has to be said in words, and whether in italics, as offcuts are."""
        for letter, meant in sorted(self.legend.items()):
            yield f"{letter}: {meant}", letter.islower()
        if self.times > 1:
            yield f"Widths are drawn {self.times} times as large as lengths.", False
        if self.unlettered:
            which = ", ".join(sorted(set(self.unlettered)))
            yield f"Some pieces are too small for their letter: {which}.", False
        if self.unnumbered:
            which = spans(self.unnumbered)
            yield f"Cuts without room for a number: {which}.", False

    def _measures(self) -> tuple[Measure, ...]:
        left, top = self.margin, self.margin
        right, below = left + self.length, top + self.high
        long = self._text(self.length)
        off = Length(2 * self.line)
        found = [Measure(Point(right, below), Point(left, below), long, off)]
        if self.width:
            start, end = Point(right, top), Point(right, below)
            wide = self._text(self.width)
            found.append(Measure(start, end, wide, Length(self._beside(wide))))
        return tuple(found)

    def _beside(self, text: str) -> int:
        """How far from the board its width stands, to keep clear of it."""
        # A short dimension line has its text beside it, not on it.
        short = self.high < 5 * self.line // 2
        return 3 * self.line // 2 + (0 if short else self.text.wide(text) // 4)

    def _description(self) -> str:
        what = self._size(Area(Length(0), Length(0), self.stock.length, self._wide()))
        kept = sum(one.keep and not one.used_in for one in self.layout.leftovers)
        offcuts = {0: "no offcut", 1: "one offcut"}.get(kept, f"{kept} offcuts")
        species = f" of {self.stock.species}" if self.stock.species else ""
        return (
            f"A piece{species}, {what}, cut into {len(self.layout.pieces)} blanks "
            f"with {len(self.layout.cuts)} cuts; {offcuts} left over.{self._spoilt()}"
        )

    def _spoilt(self) -> str:
        found = len(self.stock.defects)
        if not found:
            return ""
        return f" {found} defect{'' if found == 1 else 's'} cut around."

    def _wide(self) -> Length:
        return self.stock.width or Length(0)

    def _box(self, area: Area) -> Box:
        wide = area.width.nm * self.times if self.width else self.high
        x, y = area.x.nm + self.margin, area.y.nm * self.times + self.margin
        return (x, y, area.length.nm, wide)

    def _corners(self, box: Box) -> tuple[Point, ...]:
        x, y, length, width = box
        ends = (x + length, y + width)
        return (Point(x, y), Point(ends[0], y), Point(*ends), Point(x, ends[1]))

    def _middle(self, box: Box) -> Point:
        return Point(box[0] + box[2] // 2, box[1] + box[3] // 2)

    def _own(self, blank: Blank) -> str:
        """A blank's size as in the cut list, however it lies on the board."""
        none = Length(0)
        return self._size(Area(none, none, blank.length, blank.width or none))

    def _size(self, area: Area) -> str:
        """Width and length in the order of every list; no width where there is none."""
        length = self._text(area.length.nm)
        return f"{self._text(area.width.nm)} × {length}" if area.width else length

    def _text(self, nm: int) -> str:
        plain = Display(
            self.plan.job.display.unit,
            self.plan.job.display.denominator,
            self.plan.job.display.decimal,
        )
        return show(Length(nm), plain).figure
