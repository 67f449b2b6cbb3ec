"""For the maker alone: what the build cost."""

from decimal import Decimal

from app.publish.sheet import Sheet
from app.publish.table import csv_bytes

TITLE = "Costs (private)"
FILE = "private/costs.csv"
HEADER = ("item", "quantity", "cost", "currency")


def render(sheet: Sheet) -> bytes:
    """One row an item, the sum last."""
    rows = [(c.name, c.quantity, _money(c.minor), sheet.currency) for c in sheet.costs]
    whole = sum(line.minor for line in sheet.costs)
    return csv_bytes(HEADER, [*rows, ("all", "", _money(whole), sheet.currency)])


def _money(minor: int) -> Decimal:
    return Decimal(minor).scaleb(-2)
