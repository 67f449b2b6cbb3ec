"""A plan as drawings: each layout to scale, to take to the saw."""

from __future__ import annotations

from dataclasses import dataclass, field

from app.core.cutting.job import Blank, Stock
from app.core.cutting.plan import Area, Cut, Direction, Layout, Plan
from app.core.drawing import Drawing, Label, Line, Measure, Pen, Point, Shape
from app.core.length import Display, Length, show

# Text is sized by the picture's longer side; these are its share of it.
LINE_SHARE = 60  # one line of text is a sixtieth high
LETTERS_A_LINE = 2  # two letters are about one line wide
STICK_SHARE = 24  # how wide a stick without a width is drawn


def diagrams(plan: Plan) -> tuple[Drawing, ...]:
    """One drawing for each layout, in sawing order: ``layout-1`` and so on."""
    stock = {one.id: one for one in plan.job.stock}
    return tuple(
        _Sheet(plan, layout, stock[layout.stock], number).drawing()
        for number, layout in enumerate(plan.layouts, 1)
    )


@dataclass
class _Sheet:
    plan: Plan
    layout: Layout
    stock: Stock
    number: int
    shapes: list[Shape] = field(default_factory=list)
    labels: list[Label] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.length = self.stock.length.nm
        self.width = self.stock.width.nm if self.stock.width else 0
        self.high = self.width or self.length // STICK_SHARE
        self.line = max(self.length, self.high) // LINE_SHARE
        self.margin = 3 * self.line
        self.numbers = {one.id: n for n, one in enumerate(self.plan.job.blanks, 1)}

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
            width=Length(self.length + 2 * self.margin),
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
            self.shapes.append(Shape(self._corners(box), species=species, title=title))
            self._name(box, name, size, blank)

    def _leftovers(self) -> None:
        for left in self.layout.leftovers:
            box = self._box(left.area)
            size = self._size(left.area)
            word = "offcut" if left.keep else "scrap"
            corners = self._corners(box)
            self.shapes.append(
                Shape(corners, scrap=not left.keep, title=f"{word}, {size}")
            )
            if left.keep:
                self._offcut(box, size)

    def _offcut(self, box: tuple[int, int, int, int], size: str) -> None:
        middle = self._middle(box)
        if self._room(box, ["offcut " + size]):
            self.labels.append(Label(middle, "offcut " + size, italic=True))
        elif self._room(box, ["offcut", size]):
            self._two(middle, "offcut", size, italic=True)
        elif self._room(box, ["offcut"]):
            self.labels.append(Label(middle, "offcut", italic=True))

    def _name(
        self, box: tuple[int, int, int, int], name: str, size: str, blank: Blank
    ) -> None:
        """Name and size where there is room; else its number in the cut list."""
        middle = self._middle(box)
        if self._room(box, [name, size]):
            self._two(middle, name, size)
        elif self._room(box, [f"{name} {size}"]):
            self.labels.append(Label(middle, f"{name} {size}"))
        elif self._room(box, [size]):
            self.labels.append(Label(middle, size, quiet=True))
        elif self._room(box, ["0"]):
            number = str(self.numbers[blank.id])
            self.labels.append(Label(middle, number, quiet=True))

    def _two(self, at: Point, name: str, size: str, *, italic: bool = False) -> None:
        up = self.line * 2 // 3
        self.labels.append(Label(Point(at.x, at.y - up), name, italic=italic))
        down = Point(at.x, at.y + up)
        self.labels.append(Label(down, size, italic=italic, quiet=True))

    def _room(self, box: tuple[int, int, int, int], lines: list[str]) -> bool:
        longest = max(len(line) for line in lines)
        wide = (longest + 1) * self.line // LETTERS_A_LINE
        return wide <= box[2] and len(lines) * self.line * 4 // 3 <= box[3]

    def _cut(self, number: int, cut: Cut) -> None:
        """The cut's number where the blade enters: outside, if that is outside."""
        box = self._box(cut.of)
        inward = self.line * 2 // 3
        if cut.direction is Direction.CROSSCUT:
            x = self.margin + cut.at.nm + cut.kerf.nm // 2
            outside = box[1] == self.margin
            at = Point(x, box[1] + (-inward if outside else inward))
        else:
            y = self.margin + cut.at.nm + cut.kerf.nm // 2
            outside = box[0] == self.margin
            at = Point(box[0] + (-inward if outside else inward), y)
        self.labels.append(Label(at, f"{number}", quiet=True))

    def _grain(self) -> tuple[Line, ...]:
        """An arrow below the board, the way the grain runs."""
        y = self.margin + self.high + self.line
        start, end = self.margin, self.margin + self.length // 8
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
                Point(right, below), Point(left, below), self._text(self.length), -off
            )
        ]
        if self.width:
            found.append(
                Measure(
                    Point(right, top), Point(right, below), self._text(self.width), off
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


__all__ = ["diagrams"]
