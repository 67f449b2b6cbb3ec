"""What the dealer sells, as the maker types it: one kind of wood a line."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from app.core.cutting.job import Blank, Saw, Stock
from app.core.cutting.pile import representative
from app.core.cutting.random_widths import RandomWidths
from app.core.errors import WorkshopError
from app.core.length import Unit, show
from app.core.measure import dressed
from app.core.movement import Piece, PieceKind
from app.core.part import Dimensions
from app.core.receiving import Per, tally
from app.core.shop import Shop
from app.core.wood import species_or_plain
from app.services.dealer_cells import (
    FIELD,
    RANDOM_LIKE,
    RANGE,
    Price,
    read_price,
    read_range,
    read_size,
    read_thickness,
)

ORDER = "species, thickness, width, length, price of one board"
MOST = 60
LONGEST_SPECIES = 80
LONGEST_CELL = 80
BOARD_LIKE = "walnut, 13/16, 6, 96, 48.00"
STICK_LIKE = "pine, 1 x 4, 96, 7.50 a stick"
METRIC_LIKE = "oak, 27, 120 to 240 wide, 2000 to 3000 long, 2900 per m3"
# What is sold, and how a line of it is written; invented prices.
EXAMPLES = {
    Unit.INCH: (
        ("Boards of one size", BOARD_LIKE),
        ("Boards of random width", RANDOM_LIKE),
        ("Sheets", "birch plywood, 1/2, 48, 96, 62.00 a sheet"),
        ("Softwood by its nominal size", STICK_LIKE),
    ),
    Unit.MILLIMETRE: (
        ("Boards of one size", "oak, 21, 150, 2400, 38.00"),
        ("Boards of random width", METRIC_LIKE),
        ("The same by the face", "oak, 27, 120 to 240 wide, 2500 long, 78 per m2"),
        ("Sheets", "birch plywood, 12, 1220, 2440, 62.00 a sheet"),
    ),
}

_NOMINAL = re.compile(r"(\d{1,2}(?:/4)?) ?[x×] ?(\d{1,2})")


@dataclass(frozen=True, slots=True)
class Offer:
    """One line that sells pieces of one fixed size."""

    stock: Stock
    kind: PieceKind


def read(
    typed: str,
    shop: Shop,
    blanks: Sequence[Blank] = (),
) -> tuple[Stock, ...]:
    """What can be bought: pieces of fixed size, as many as wanted of each.

    Of random-width boards, those that may come of a pile for ``blanks``. Raises
    WorkshopError that names the line at fault.
    """
    saw = Saw(shop.kerf, shop.end_trim, shop.edge_trim)
    # One wood may go by two names: the pile goes by the blanks'.
    called = {_wood(blank.species): blank.species for blank in blanks}
    found: list[Stock] = []
    for one in offers(typed, shop):
        if isinstance(one, Offer):
            found.append(one.stock)
        else:
            line = replace(one, species=called.get(_wood(one.species), one.species))
            found += representative(line, blanks, saw, shop.plane_most)
    return tuple(found)


def _wood(name: str) -> str:
    return species_or_plain(name).name if name else ""


def offers(typed: str, shop: Shop) -> tuple[Offer | RandomWidths, ...]:
    """The lines as understood, in order. Raises WorkshopError naming the line."""
    lines = [line.strip() for line in typed.splitlines()]
    filled = [(number, line) for number, line in enumerate(lines, 1) if line]
    if len(filled) > MOST:
        raise WorkshopError(
            f"{len(filled)} lines of boards are too many to compare; {MOST} will do.",
            input=FIELD,
        )
    return tuple(_line(number, line, shop) for number, line in filled)


def random_lines(typed: str, shop: Shop) -> tuple[RandomWidths, ...]:
    """The lines that sell random-width boards."""
    return tuple(one for one in offers(typed, shop) if isinstance(one, RandomWidths))


def line_of(stock_id: str) -> str:
    """The line that a board to buy comes from; its own id where it is all of it."""
    return "-".join(stock_id.partition(" ")[0].split("-")[:2])


def is_random(stock_id: str) -> bool:
    """Whether it is one of a pile of random-width boards, which nobody has seen."""
    return re.fullmatch(r"dealer-\d+-\d+.*", stock_id) is not None


def _line(number: int, line: str, shop: Shop) -> Offer | RandomWidths:
    cells = [cell.strip() for cell in line.split(",")]
    is_stick = len(cells) == 4 and _NOMINAL.fullmatch(cells[1][:LONGEST_CELL])
    if not all(cells) or not (is_stick or len(cells) == 5):
        raise _not_understood(number)
    species = cells[0]
    if len(species) > LONGEST_SPECIES:
        raise WorkshopError(
            f"Line {number}: “{species[:40]}…” is too long for a wood; "
            f"{LONGEST_SPECIES} letters will do.",
            input=FIELD,
        )
    if max(map(len, cells[1:])) > LONGEST_CELL:
        raise _not_understood(number)
    try:
        price = read_price(cells[-1], shop)
        if is_stick:
            return _stick(number, cells, price, shop)
        ranges = RANGE.fullmatch(cells[2]), RANGE.fullmatch(cells[3])
        if any(ranges):
            return _random(number, cells, price, shop)
        return _board(number, cells, price, shop)
    except WorkshopError as fault:
        raise WorkshopError(f"Line {number}: {fault}", input=FIELD) from fault


def _not_understood(number: int) -> WorkshopError:
    return WorkshopError(
        f"Line {number} of what the dealer sells has not its five parts: {ORDER}. "
        f"Write it like: {BOARD_LIKE}. Boards of random width: {RANDOM_LIKE}.",
        input=FIELD,
    )


def _board(number: int, cells: list[str], price: Price, shop: Shop) -> Offer:
    """A board or sheet of one size, priced by the piece or by how much it is."""
    thick = read_thickness(cells[1], shop)
    width, length = (read_size(cell, shop) for cell in cells[2:4])
    size = Dimensions(length, width, thick.charged)
    units = tally(price.per, Piece(PieceKind.BOARD, cells[0], size), 1)
    figures = (thick.name, *(show(x, shop.display).figure for x in (width, length)))
    return _offer(
        number,
        cells[0],
        Dimensions(length, width, thick.actual),
        " × ".join(figures),
        round(price.minor * units),
        PieceKind.SHEET if price.word == "sheet" else PieceKind.BOARD,
    )


def _stick(number: int, cells: list[str], price: Price, shop: Shop) -> Offer:
    """Softwood by its nominal size: what it measures dry is looked up."""
    found = _NOMINAL.fullmatch(cells[1])
    if not found or price.per is not Per.PIECE:
        raise WorkshopError(
            f"With four parts it sells sticks by their nominal size, like {STICK_LIKE}."
            f" With five: {ORDER}, like {BOARD_LIKE}."
        )
    length = read_size(cells[2], shop)
    thickness = dressed(found[1], "thickness").dry
    width = dressed(found[2], "width").dry
    name = f"{found[1]} × {found[2]} × {show(length, shop.display).figure}"
    size = Dimensions(length, width, thickness)
    return _offer(number, cells[0], size, name, price.minor, PieceKind.BOARD)


def _offer(
    number: int,
    species: str,
    size: Dimensions,
    name: str,
    cost: int,
    kind: PieceKind,
) -> Offer:
    stock = Stock(
        f"{FIELD}-{number}",
        size.length,
        size.width,
        size.thickness,
        quantity=None,
        cost=cost,
        species=species,
        name=f"{species} {name}",
    )
    return Offer(stock, kind)


def _random(number: int, cells: list[str], price: Price, shop: Shop) -> RandomWidths:
    if price.per is Per.PIECE:
        raise WorkshopError(
            "boards of random width have no price by the piece. Say what it is for, "
            f"like {RANDOM_LIKE}."
        )
    thick = read_thickness(cells[1], shop)
    metric = shop.unit is Unit.MILLIMETRE
    return RandomWidths(
        id=f"{FIELD}-{number}",
        species=cells[0],
        thickness=thick.actual,
        charged=thick.charged,
        widths=read_range(cells[2], "wide", shop),
        lengths=read_range(cells[3], "long", shop),
        rate=price.minor,
        per=price.per,
        name=f"{cells[0]} {thick.name}",
        metric=metric,
    )
