"""What the dealer sells, as the maker types it: one board a line."""

from __future__ import annotations

from app.core.cutting.job import Stock
from app.core.errors import WorkshopError
from app.core.length import Length, Unit, show
from app.core.money import Money
from app.core.shop import Shop

FIELD = "dealer"
ORDER = "species, thickness, width, length, price of one board"
MOST = 60
LONGEST_SPECIES = 80


def read(typed: str, shop: Shop) -> tuple[Stock, ...]:
    """Boards that can be bought, as many as wanted of each.

    Raises WorkshopError that names the line at fault.
    """
    lines = [line.strip() for line in typed.splitlines()]
    filled = [(number, line) for number, line in enumerate(lines, 1) if line]
    if len(filled) > MOST:
        raise WorkshopError(
            f"{len(filled)} lines of boards are too many to compare; {MOST} will do.",
            input=FIELD,
        )
    return tuple(_line(number, line, shop) for number, line in filled)


def _line(number: int, line: str, shop: Shop) -> Stock:
    cells = [cell.strip() for cell in line.split(",")]
    if len(cells) != 5 or not all(cells):
        raise WorkshopError(
            f"Line {number} of what the dealer sells has not its five parts: {ORDER}. "
            "Write it like: walnut, 13/16, 6, 96, 48.00",
            input=FIELD,
        )
    species = cells[0]
    if len(species) > LONGEST_SPECIES:
        raise WorkshopError(
            f"Line {number}: “{species[:40]}…” is too long for a wood; "
            f"{LONGEST_SPECIES} letters will do.",
            input=FIELD,
        )
    try:
        thickness, width, length = (_size(cell, shop.unit) for cell in cells[1:4])
        price = Money.read(cells[4], shop.currency, input=FIELD)
    except WorkshopError as fault:
        raise WorkshopError(f"Line {number}: {fault}", input=FIELD) from fault
    size = " × ".join(
        show(one, shop.display).figure for one in (thickness, width, length)
    )
    return Stock(
        f"dealer-{number}",
        length,
        width,
        thickness,
        quantity=None,
        cost=price.minor,
        species=species,
        name=f"{species} {size}",
    )


def _size(typed: str, unit: Unit) -> Length:
    found = Length.read(typed, unit, input=FIELD)
    if not found:
        raise WorkshopError(f"“{typed}” is no size for a board.", input=FIELD)
    return found
