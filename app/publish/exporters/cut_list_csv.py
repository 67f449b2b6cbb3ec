"""The cut list as a table: every blank to saw, at its rough size."""

from app.core.length import NM_PER_INCH, NM_PER_MM
from app.publish.sheet import CutLine, Sheet
from app.publish.table import Cell, csv_bytes, decimal

TITLE = "Cut list (table)"
FILE = "cut_list.csv"
HEADER = (
    *("blank", "quantity", "species", "size"),
    *("thickness_in", "width_in", "length_in"),
    *("thickness_mm", "width_mm", "length_mm", "glued_into"),
)


def render(sheet: Sheet) -> bytes:
    """In the order of the design."""
    return csv_bytes(HEADER, [_row(line, sheet.unit) for line in sheet.cut_list])


def _row(line: CutLine, unit: str) -> tuple[Cell, ...]:
    sides = (line.box.thickness, line.box.width, line.box.length)
    return (
        *(line.name, line.quantity, line.species, line.box.text(unit)),
        *(decimal(side.nm, NM_PER_INCH, 4) for side in sides),
        *(decimal(side.nm, NM_PER_MM, 2) for side in sides),
        line.into,
    )
