"""A plan as drawings: each layout to scale, to take to the saw."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from string import ascii_uppercase

from app.core.cutting.fit import trims
from app.core.cutting.job import Blank, Stock
from app.core.cutting.plan import Area, Cut, Direction, Layout, Plan
from app.core.drawing import (
    LETTER,
    PAGE_MM,
    TEXT_MM,
    Drawing,
    Label,
    Line,
    Measure,
    Pen,
    Point,
    Shape,
)
from app.core.length import Display, Length, show

STICK_SHARE = 24  # how wide a stick without a width is drawn
MARGIN_LINES = 3  # lines of text around the board, for cut numbers and measures
RIGHT_LINES = 6  # and beside it, where a narrow board's width stands
# Thin, so that a kerf shows as a gap even where a long board is drawn small.
FINE = Pen.GRAIN


def diagrams(plan: Plan) -> tuple[Drawing, ...]:
    """One drawing for each layout, in sawing order: ``layout-1`` and so on."""
    stock = {one.id: one for one in plan.job.stock}
    return tuple(
        _Sheet(plan, layout, stock[layout.stock], number).drawing()
        for number, layout in enumerate(plan.layouts, 1)
    )


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
    shapes: list[Shape] = field(default_factory=list)
    labels: list[Label] = field(default_factory=list)
    taken: list[tuple[int, int, int, int]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.length = self.stock.length.nm
        self.width = self.stock.width.nm if self.stock.width else 0
        self.high = self.width or self.length // STICK_SHARE
        # The page's width holds the board and its margins, in lines of text.
        lines = int(PAGE_MM / TEXT_MM) - MARGIN_LINES - RIGHT_LINES
        self.line = max(self.length // lines, 1)
        self.margin = MARGIN_LINES * self.line
        self.letters = {
            one.id: letters(n) for n, one in enumerate(self.plan.job.blanks)
        }

    def drawing(self) -> Drawing:
        """The whole picture."""
        self._pieces()
        self._leftovers()
        for number, cut in enumerate(self.layout.cuts, 1):
            self._cut(number, cut)
        name = self.stock.name or self.stock.id
        times = f", {self.layout.copies} times" if self.layout.copies > 1 else ""
        return Drawing(
            key=f"layout-{self.number}",
            title=f"{name}{times}",
            description=self._description(),
            width=Length(self.length + self.margin + RIGHT_LINES * self.line),
            height=Length(self.high + 2 * self.margin),
            shapes=(self._board(), *self.shapes),
            lines=self._grain(),
            measures=self._measures(),
            labels=tuple(self.labels),
        )

    def _board(self) -> Shape:
        whole = (self.margin, self.margin, self.length, self.high)
        return Shape(self._corners(whole), title="the board")

    def _pieces(self) -> None:
        blanks = {one.id: one for one in self.plan.job.blanks}
        for piece in self.layout.pieces:
            blank = blanks[piece.blank]
            box = self._box(piece.area)
            size = self._size(piece.area)
            name = blank.name or blank.id
            # Without a species it still is wood, and is drawn as such.
            species = self.stock.species or blank.species or "wood"
            title = f"{name}, {size}" + (", turned" if piece.turned else "")
            self.shapes.append(Shape(self._corners(box), FINE, species, title=title))
            self._name(box, name, size, blank)

    def _leftovers(self) -> None:
        for left in self.layout.leftovers:
            box = self._box(left.area)
            size = self._size(left.area)
            word = "offcut" if left.keep else "scrap"
            corners = self._corners(box)
            self.shapes.append(
                Shape(corners, FINE, scrap=not left.keep, title=f"{word}, {size}")
            )
            if left.keep:
                self._offcut(box, size)

    def _offcut(self, box: tuple[int, int, int, int], size: str) -> None:
        middle = self._middle(box)
        if self._room(box, ["offcut " + size]):
            self._label(Label(middle, "offcut " + size, italic=True))
        elif self._room(box, ["offcut", size]):
            self._two(middle, "offcut", size, italic=True)
        elif self._room(box, ["offcut"]):
            self._label(Label(middle, "offcut", italic=True))

    def _name(
        self, box: tuple[int, int, int, int], name: str, size: str, blank: Blank
    ) -> None:
        """Name and size where there is room; else its letter in the cut list."""
        middle = self._middle(box)
        if self._room(box, [name, size]):
            self._two(middle, name, size)
        elif self._room(box, [f"{name} {size}"]):
            self._label(Label(middle, f"{name} {size}"))
        elif self._room(box, [""]):
            self._label(Label(middle, self.letters[blank.id], quiet=True))

    def _two(self, at: Point, name: str, size: str, *, italic: bool = False) -> None:
        up = self.line * 2 // 3
        self._label(Label(Point(at.x, at.y - up), name, italic=italic))
        down = Point(at.x, at.y + up)
        self._label(Label(down, size, italic=italic, quiet=True))

    def _room(self, box: tuple[int, int, int, int], lines: list[str]) -> bool:
        longest = max(len(line) for line in lines)
        wide = int((longest + 1) * self.line * LETTER)
        return wide <= box[2] and (len(lines) * 5 - 1) * self.line // 4 <= box[3]

    def _cut(self, number: int, cut: Cut) -> None:
        """The cut's number on its line: outside the board first, then further in."""
        text = str(number)
        places = list(self._places(cut))
        clear = (at for at in places if self._is_clear(at, text))
        self._label(Label(next(clear, places[0]), text, quiet=True))

    def _places(self, cut: Cut) -> Iterator[Point]:
        box, line = self._box(cut.of), self.line
        across = cut.direction is Direction.CROSSCUT
        middle = self.margin + cut.at.nm + cut.kerf.nm // 2
        start, long = (box[1], box[3]) if across else (box[0], box[2])
        end, edge = trims(self.stock, self.plan.job.saw)
        steps = [line * 2 // 3 + n * line for n in range(max(long // line, 1))]
        places = [start + step for step in steps]
        if start - self.margin <= (edge if across else end):
            outside = self.margin - line * 2 // 3
            places = [outside, outside - line * 5 // 4, *places]
        for place in places:
            yield Point(middle, place) if across else Point(place, middle)

    def _label(self, label: Label) -> None:
        self.labels.append(label)
        self.taken.append(self._ground(label.at, label.text))

    def _ground(self, at: Point, text: str) -> tuple[int, int, int, int]:
        """Where a text stands: left, top, right, bottom."""
        half = int(len(text) * self.line * LETTER) // 2
        return (at.x - half, at.y - self.line // 2, at.x + half, at.y + self.line // 2)

    def _is_clear(self, at: Point, text: str) -> bool:
        left, top, right, bottom = self._ground(at, text)
        return all(
            right <= one[0] or one[2] <= left or bottom <= one[1] or one[3] <= top
            for one in self.taken
        )

    def _grain(self) -> tuple[Line, ...]:
        """An arrow below the board, the way the grain runs."""
        y = self.margin + self.high + self.line
        start, end = self.margin + self.line, self.margin + 5 * self.line
        tip, half = self.line // 2, self.line // 4
        self.labels.append(
            Label(Point(end + self.line, y), "grain", quiet=True, anchor="start")
        )
        return (
            Line(Point(start, y), Point(end, y), Pen.GRAIN),
            Line(Point(end - tip, y - half), Point(end, y), Pen.GRAIN),
            Line(Point(end - tip, y + half), Point(end, y), Pen.GRAIN),
        )

    def _measures(self) -> tuple[Measure, ...]:
        left, top = self.margin, self.margin
        right, below = left + self.length, top + self.high
        off = Length(2 * self.line)
        found = [
            Measure(
                Point(right, below), Point(left, below), self._text(self.length), off
            )
        ]
        if self.width:
            found.append(
                Measure(
                    Point(right, top),
                    Point(right, below),
                    self._text(self.width),
                    Length(self.line * 3 // 2),
                )
            )
        return tuple(found)

    def _description(self) -> str:
        what = self._size(Area(Length(0), Length(0), self.stock.length, self._wide()))
        kept = sum(one.keep for one in self.layout.leftovers)
        offcuts = {0: "no offcut", 1: "one offcut"}.get(kept, f"{kept} offcuts")
        species = f" of {self.stock.species}" if self.stock.species else ""
        return (
            f"A piece{species}, {what}, cut into {len(self.layout.pieces)} blanks "
            f"with {len(self.layout.cuts)} cuts; {offcuts} left over."
        )

    def _wide(self) -> Length:
        return self.stock.width or Length(0)

    def _box(self, area: Area) -> tuple[int, int, int, int]:
        wide = area.width.nm if self.width else self.high
        x, y = area.x.nm + self.margin, area.y.nm + self.margin
        return (x, y, area.length.nm, wide)

    def _corners(self, box: tuple[int, int, int, int]) -> tuple[Point, ...]:
        x, y, length, width = box
        ends = (x + length, y + width)
        return (Point(x, y), Point(ends[0], y), Point(*ends), Point(x, ends[1]))

    def _middle(self, box: tuple[int, int, int, int]) -> Point:
        return Point(box[0] + box[2] // 2, box[1] + box[3] // 2)

    def _size(self, area: Area) -> str:
        length = self._text(area.length.nm)
        return f"{length} × {self._text(area.width.nm)}" if area.width else length

    def _text(self, nm: int) -> str:
        plain = Display(
            self.plan.job.display.unit,
            self.plan.job.display.denominator,
            self.plan.job.display.decimal,
        )
        return show(Length(nm), plain).figure
