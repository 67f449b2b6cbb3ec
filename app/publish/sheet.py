"""The sheet: everything a publish pack says, finished and frozen.

Every text is as it will be read and every length is shown already in both
systems, so a sheet that was kept renders the same bytes for ever, whatever
becomes of the designs and the rack behind it.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from app.core.document import from_plain, to_plain
from app.core.drawing import Drawing
from app.core.errors import WorkshopError
from app.core.length import Display, Length, Unit, show

FORMAT = "stockthread sheet"
VERSION = 1


@dataclass(frozen=True, slots=True)
class Measured:
    """One length: whole nanometres, and the bare figure in each system."""

    nm: int
    inch: str
    mm: str

    @classmethod
    def of(cls, length: Length, display: Display = Display()) -> Measured:
        """A length as the workspace shows it, rounded once."""
        inch = Display(Unit.INCH, display.denominator, display.decimal)
        metric = Display(Unit.MILLIMETRE)
        return cls(length.nm, show(length, inch).figure, show(length, metric).figure)


@dataclass(frozen=True, slots=True)
class Box:
    """Thickness, width and length (along the grain) of one piece."""

    thickness: Measured
    width: Measured
    length: Measured

    @property
    def volume(self) -> int:
        """One piece, cubic nanometres."""
        return self.thickness.nm * self.width.nm * self.length.nm

    def text(self, unit: str) -> str:
        """``1/2 x 1 1/4 x 9 in``: thickness, width, length, as the trade says it."""
        sides = (self.thickness, self.width, self.length)
        figures = [side.inch if unit == "in" else side.mm for side in sides]
        return f"{' x '.join(figures)} {unit}"


@dataclass(frozen=True, slots=True)
class SizeLine:
    """One size of the design as read in each system, with its working.

    ``group`` is the title under which it is read.
    """

    key: str
    label: str
    inch: str
    mm: str
    working: str = ""
    source: str = ""
    group: str = ""


@dataclass(frozen=True, slots=True)
class PartLine:
    """Equal finished parts."""

    name: str
    quantity: int
    species: str
    box: Box


@dataclass(frozen=True, slots=True)
class CutLine:
    """Equal blanks to saw; ``into`` names the panel they are glued into."""

    name: str
    quantity: int
    species: str
    box: Box
    into: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a series, to point at. ``due`` is a date, ISO, or empty."""

    series: str
    number: int
    title: str
    url: str = ""
    due: str = ""


@dataclass(frozen=True, slots=True)
class LeftLine:
    """Equal pieces that went back onto the rack for later parts."""

    what: str
    quantity: int
    box: Box

    @property
    def volume(self) -> int:
        """All of them, cubic nanometres."""
        return self.quantity * self.box.volume


@dataclass(frozen=True, slots=True)
class WoodLine:
    """Equal pieces of wood, where they came from, and what is left of them.

    ``what`` is board, strip, panel, offcut…; ``origin`` the episode that left
    it over. ``planned``: the plan names it, but it has not been cut yet. ``left``
    is what all of them together leave, the largest first.
    """

    species: str
    what: str
    quantity: int
    box: Box
    label: str = ""
    origin: Part | None = None
    planned: bool = False
    left: tuple[LeftLine, ...] = ()

    @property
    def in_build(self) -> int:
        """What was taken less what is left of it, cubic nanometres."""
        taken = self.quantity * self.box.volume
        return taken - sum(line.volume for line in self.left)


@dataclass(frozen=True, slots=True)
class WentLine:
    """Where some of the wood in the build went: parts, kerf, chips… in nm³."""

    name: str
    volume: int


@dataclass(frozen=True, slots=True)
class UsedLine:
    """A supply or a tool. ``given``: it was not paid for in full."""

    name: str
    quantity: str = ""
    url: str = ""
    given: bool = False


@dataclass(frozen=True, slots=True)
class ChapterLine:
    """A named point in the final cut, milliseconds from its start."""

    start_ms: int
    title: str


@dataclass(frozen=True, slots=True)
class PromiseLine:
    """Something told to viewers, with the other episode concerned."""

    text: str
    video_ms: int | None
    other: Part
    how: str = ""


@dataclass(frozen=True, slots=True)
class CautionLine:
    """One caution with where it is from. ``about`` is the tool or material."""

    key: str
    about: str
    text: str
    source: str = ""


@dataclass(frozen=True, slots=True)
class StepLine:
    """One operation; ``waits`` are sentences; ``set_up`` names its setting."""

    name: str
    tool: str
    detail: str = ""
    set_up: str = ""
    bench_minutes: int = 0
    waits: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SetUpLine:
    """One machine setting; ``settings`` are read off the machine, in order."""

    key: str
    machine: str
    cuts: str
    settings: tuple[str, ...] = ()
    face_down: str = ""
    check: str = ""


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing or a cutting diagram, drawn already.

    One at true size has its size on paper, nanometres; all others none.
    """

    title: str
    description: str
    svg: str
    key: str = ""
    true_wide: int = 0
    true_high: int = 0

    @classmethod
    def of(cls, drawing: Drawing, svg: str) -> Picture:
        """What was drawn, as ``svg``."""
        size = (drawing.width.nm, drawing.height.nm) if drawing.true_size else (0, 0)
        return cls(drawing.title, drawing.description, svg, drawing.key, *size)

    @property
    def true_size(self) -> bool:
        """Whether it is for paper, a millimetre for a millimetre."""
        return self.true_wide > 0


@dataclass(frozen=True, slots=True)
class TableLine:
    """A table of worked numbers; the first column names the row."""

    key: str
    title: str
    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    working: str = ""
    source: str = ""
    group: str = ""


@dataclass(frozen=True, slots=True)
class SizeGroup:
    """Sizes and tables that are read for one purpose."""

    title: str
    sizes: tuple[SizeLine, ...]
    tables: tuple[TableLine, ...]


@dataclass(frozen=True, slots=True)
class PhotoLine:
    """A photo that goes out; ``sha256`` is its cleaned copy, ``file`` its name."""

    file: str
    sha256: str
    alt: str = ""
    caption: str = ""
    cover: bool = False


@dataclass(frozen=True, slots=True)
class Block:
    """One block of the description."""

    key: str
    title: str
    text: str


@dataclass(frozen=True, slots=True)
class CheckLine:
    """Something missing or wrong: where on the episode's page, and what."""

    where: str
    text: str


@dataclass(frozen=True, slots=True)
class CostLine:
    """What one thing cost, in minor units; ``left`` is carried on by leftovers."""

    name: str
    quantity: str
    minor: int
    left: int = 0


@dataclass(frozen=True, slots=True)
class Sheet:
    """An episode's publish pack as one value. ``revision`` 0 is a draft.

    ``unit`` is the maker's own, shown first. ``date`` is ISO or empty.
    """

    series: str
    series_slug: str
    number: int
    of: int
    title: str
    slug: str
    date: str = ""
    revision: int = 0
    unit: str = "in"
    currency: str = "USD"
    opening: str = ""
    introduces: str = ""
    video_url: str = ""
    length_ms: int | None = None
    build: str = ""
    disclosure: str = ""
    blocks: tuple[Block, ...] = ()
    sizes: tuple[SizeLine, ...] = ()
    parts: tuple[PartLine, ...] = ()
    cut_list: tuple[CutLine, ...] = ()
    wood: tuple[WoodLine, ...] = ()
    went: tuple[WentLine, ...] = ()
    supplies: tuple[UsedLine, ...] = ()
    tools: tuple[UsedLine, ...] = ()
    chapters: tuple[ChapterLine, ...] = ()
    neighbours: tuple[Part, ...] = ()
    keeps: tuple[PromiseLine, ...] = ()
    kept: tuple[PromiseLine, ...] = ()
    open: tuple[PromiseLine, ...] = ()
    cautions: tuple[CautionLine, ...] = ()
    set_ups: tuple[SetUpLine, ...] = ()
    steps: tuple[StepLine, ...] = ()
    drawings: tuple[Picture, ...] = ()
    diagrams: tuple[Picture, ...] = ()
    sawing: tuple[TableLine, ...] = ()
    photos: tuple[PhotoLine, ...] = ()
    checks: tuple[CheckLine, ...] = ()
    costs: tuple[CostLine, ...] = field(default=())
    tables: tuple[TableLine, ...] = ()

    @property
    def description(self) -> str:
        """The whole description: its blocks, one empty line between them."""
        return "\n\n".join(block.text for block in self.blocks if block.text)

    @property
    def size_groups(self) -> tuple[SizeGroup, ...]:
        """Sizes with their tables, in the order of the titles they stand under."""
        titles = dict.fromkeys(line.group for line in self.sizes)
        titles |= dict.fromkeys(line.group for line in self.tables)
        return tuple(
            SizeGroup(
                title or "Sizes",
                tuple(line for line in self.sizes if line.group == title),
                tuple(line for line in self.tables if line.group == title),
            )
            for title in titles
        )

    @property
    def given(self) -> tuple[UsedLine, ...]:
        """What was not paid for."""
        return tuple(item for item in (*self.supplies, *self.tools) if item.given)

    @property
    def cover(self) -> PhotoLine | None:
        """The cover photo, if one was chosen."""
        return next((photo for photo in self.photos if photo.cover), None)


def to_json(sheet: Sheet) -> dict[str, Any]:
    """The sheet as a document to keep."""
    return {"format": FORMAT, "version": VERSION, **to_plain(sheet)}


def from_json(document: dict[str, Any]) -> Sheet:
    """The sheet that was kept. Raises WorkshopError for anything else."""
    if document.get("format") != FORMAT:
        raise WorkshopError("This is not a sheet that Stockthread froze.")
    if document.get("version") != VERSION:
        raise WorkshopError(
            f"This sheet has version {document.get('version')}; this Stockthread "
            f"reads version {VERSION}. Open it with the one that wrote it."
        )
    facts = {k: v for k, v in document.items() if k not in {"format", "version"}}
    return from_plain(Sheet, facts)


def photo_digests(document: dict[str, Any]) -> frozenset[str]:
    """The content hashes of the photos that a kept sheet shows."""
    return frozenset(photo.sha256 for photo in from_json(document).photos)
