"""A drawing as a value: what a pen would do, in nanometres.

x runs right, y runs down the page. Exporters scale it; they decide nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.core.length import Length

# A drawing is laid out for a page this wide; text this high is then readable on
# a phone, and whoever lays out knows how much room it takes. Millimetres.
PAGE_MM = 120
TEXT_MM = 3.8
QUIET_TEXT_MM = 3.2
# What is drawn at its true size fits A4 and US letter, inside printers' margins.
TRUE_WIDE_MM, TRUE_HIGH_MM = 190, 250
NM_PER_MM = 1_000_000
# A letter's width for its height, on average, in the face the app ships.
LETTER = 0.54


def text_width(text: str, height: float = TEXT_MM) -> float:
    """How wide a text stands on the page, millimetres, near enough."""
    return len(text) * height * LETTER


class Pen(StrEnum):
    """What a line means; its weight follows from it."""

    OUTLINE = "outline"
    HIDDEN = "hidden"
    CUT = "cut"
    GRAIN = "grain"


@dataclass(frozen=True, slots=True)
class Point:
    """A place on the drawing, nanometres."""

    x: int
    y: int


@dataclass(frozen=True, slots=True)
class Shape:
    """A closed outline; ``species`` fills and hatches it, ``scrap`` crosses it out.

    ``tone`` is how much ink lies over the species, percent: faces turned away from
    the light are darker. ``edges`` gives each edge, from its point to the next, a
    pen of its own, None for no line; left empty, ``pen`` goes all round.
    """

    points: tuple[Point, ...]
    pen: Pen = Pen.OUTLINE
    species: str = ""
    scrap: bool = False
    title: str = ""
    tone: int = 0
    edges: tuple[Pen | None, ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """A straight stroke."""

    start: Point
    end: Point
    pen: Pen = Pen.OUTLINE


@dataclass(frozen=True, slots=True)
class Measure:
    """A dimension line with short slashes for ends and upright text.

    ``offset`` moves it off the measured points: positive is to the left of
    the way from start to end.
    """

    start: Point
    end: Point
    text: str
    offset: Length = Length(0)


@dataclass(frozen=True, slots=True)
class Label:
    """Upright text at a place. ``quiet`` is smaller, ``italic`` names offcuts."""

    at: Point
    text: str
    italic: bool = False
    quiet: bool = False
    anchor: str = "middle"


@dataclass(frozen=True, slots=True)
class Drawing:
    """One picture with a title and the words a reader hears instead of it.

    ``true_size``: for paper, a millimetre of the build a millimetre of the page; all
    else is scaled so that its width is the page's.
    """

    key: str
    title: str
    description: str
    width: Length
    height: Length
    shapes: tuple[Shape, ...] = ()
    lines: tuple[Line, ...] = ()
    measures: tuple[Measure, ...] = ()
    labels: tuple[Label, ...] = ()
    true_size: bool = False

    @property
    def scale(self) -> float:
        """Nanometres to the page's millimetre."""
        return NM_PER_MM if self.true_size else max(self.width.nm, 1) / PAGE_MM
