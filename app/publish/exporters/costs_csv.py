"""For the maker alone: what the build cost."""

from decimal import Decimal

from app.publish.sheet import CostLine, Sheet
from app.publish.table import Cell, csv_bytes

TITLE = "Costs (private)"
FILE = "private/costs.csv"
HEADER = ("item", "quantity", "cost", "currency", "taken", "left_over")


def render(sheet: Sheet) -> bytes:
    """One row an item, the sum last.

    ``cost`` is what was taken less what leftovers carry on to later parts.
    """
    taken = sum(line.minor for line in sheet.costs)
    left = sum(line.left for line in sheet.costs)
    lines = [*sheet.costs, CostLine("all", "", taken, left)]
    return csv_bytes(HEADER, [_row(line, sheet.currency) for line in lines])


def _row(line: CostLine, currency: str) -> tuple[Cell, ...]:
    net = line.minor - line.left
    carried = (_money(line.minor), _money(line.left))
    return (line.name, line.quantity, _money(net), currency, *carried)


def _money(minor: int) -> Decimal:
    return Decimal(minor).scaleb(-2)
