"""Materials as a table: one row for each line of wood, supply and tool."""

from app.core.length import NM_PER_INCH, NM_PER_MM
from app.core.measure import BOARD_FOOT_NM3, LITRE_NM3
from app.publish import wording
from app.publish.sheet import Sheet, UsedLine, WoodLine
from app.publish.table import Cell, csv_bytes, decimal

TITLE = "Materials (table)"
FILE = "materials.csv"
HEADER = (
    *("kind", "name", "quantity", "size"),
    *("thickness_in", "width_in", "length_in"),
    *("thickness_mm", "width_mm", "length_mm"),
    *("from", "link", "given", "planned"),
    # Taken less left over: the sum by species is what is really in the build.
    *("left_over", "board_feet_in_build", "litres_in_build"),
)


def render(sheet: Sheet) -> bytes:
    """Wood, then supplies, then tools."""
    rows = [_wood(line, sheet) for line in sheet.wood]
    rows += [_used("supply", line) for line in sheet.supplies]
    rows += [_used("tool", line) for line in sheet.tools]
    return csv_bytes(HEADER, rows)


def _wood(line: WoodLine, sheet: Sheet) -> tuple[Cell, ...]:
    sides = (line.box.thickness, line.box.width, line.box.length)
    return (
        *("wood", f"{line.species} {line.what}", line.quantity),
        line.box.text(sheet.unit),
        *(decimal(side.nm, NM_PER_INCH, 4) for side in sides),
        *(decimal(side.nm, NM_PER_MM, 2) for side in sides),
        wording.source(line, sheet.series),
        line.origin.url if line.origin else "",
        *("", "yes" if line.planned else ""),
        "; ".join(wording.leftover(left, sheet.unit) for left in line.left),
        decimal(line.in_build, BOARD_FOOT_NM3, 4),
        decimal(line.in_build, LITRE_NM3, 4),
    )


def _used(kind: str, line: UsedLine) -> tuple[Cell, ...]:
    given = "yes" if line.given else ""
    return (kind, line.name, line.quantity, *[""] * 7, "", line.url, given, *[""] * 4)
