"""Parts and main sizes in both systems, for viewers on either side of the sea."""

from __future__ import annotations

from dataclasses import dataclass

from app.core.design import Design
from app.core.length import Display, Length, Unit, show
from app.core.shop import Shop
from app.core.size import Group


@dataclass(frozen=True, slots=True)
class ViewerRow:
    """One line: what it is, as an inch tape and as a metric tape shows it."""

    name: str
    inch: str
    metric: str


def viewer_rows(design: Design, shop: Shop) -> tuple[ViewerRow, ...]:
    """The finished parts, then the lengths of the build.

    Inches in fractions down to the shop's finest, millimetres to a tenth.
    """
    parts = tuple(
        _row(
            f"{part.quantity} × {part.name}, {part.species}",
            (part.finished.thickness, part.finished.width, part.finished.length),
            shop,
        )
        for part in design.parts
        if not part.spare
    )
    sizes = tuple(
        _row(size.label, (size.value,), shop)
        for size in design.sizes
        if size.group is Group.BUILD and isinstance(size.value, Length)
    )
    return parts + sizes


def as_text(rows: tuple[ViewerRow, ...]) -> str:
    """The table to paste: a line a row, its columns set apart by tabs."""
    lines = [("What", "Inches", "Millimetres")]
    lines += [(row.name, row.inch, row.metric) for row in rows]
    return "\n".join("\t".join(line) for line in lines)


def _row(name: str, lengths: tuple[Length, ...], shop: Shop) -> ViewerRow:
    inch = Display(Unit.INCH, shop.display.denominator)
    return ViewerRow(
        name, _across(lengths, inch), _across(lengths, Display(Unit.MILLIMETRE))
    )


def _across(lengths: tuple[Length, ...], display: Display) -> str:
    """Bare figures: the column's heading names the unit."""
    return " × ".join(show(length, display).figure for length in lengths)
