"""What a plan has to buy: whole pieces of fixed size, and the plan after it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from app.core.cutting.job import Job, Stock
from app.core.cutting.open_ways import Choice, choice_of
from app.core.cutting.outcome import to_buy
from app.core.cutting.plan import Plan
from app.core.cutting.resawn import piece_of, whole
from app.core.movement import Made, Movement, MovementKind, Piece, PieceKind
from app.core.part import Dimensions
from app.core.shop import Shop
from app.services import dealer


def pieces(plan: Plan) -> dict[str, int]:
    """How many pieces of fixed size to buy, by what the dealer's line is called.

    What is resawn is bought whole. Boards of random width are none of them: the
    real ones are chosen first (see ``bought_boards``).
    """
    found: dict[str, int] = {}
    for key, count in to_buy(plan).items():
        if not dealer.is_random(key):
            found[whole(key)] = max(found.get(whole(key), 0), count)
    return found


def random_lines(plan: Plan) -> tuple[str, ...]:
    """The dealer's lines of random-width boards that the plan draws on."""
    found = (dealer.line_of(key) for key in to_buy(plan) if dealer.is_random(key))
    return tuple(dict.fromkeys(found))


def purchase(plan: Plan, typed: str, shop: Shop) -> Movement:
    """The purchase of exactly those pieces; ``typed`` is what the dealer sells."""
    kinds = {
        one.stock.id: one.kind
        for one in dealer.offers(typed, shop)
        if isinstance(one, dealer.Offer)
    }
    stock = {one.id: one for one in plan.job.stock}
    made = tuple(
        _bought(stock[key], count, kinds.get(key, PieceKind.BOARD))
        for key, count in pieces(plan).items()
    )
    return Movement(
        MovementKind.BOUGHT,
        made=made,
        from_outside=sum(line.volume for line in made),
        paid=sum(line.cost for line in made),
    )


def _bought(stock: Stock, count: int, kind: PieceKind) -> Made:
    # The dealer's lines always give all three sizes.
    assert stock.width is not None
    assert stock.thickness is not None
    size = Dimensions(stock.length, stock.width, stock.thickness)
    piece = Piece(kind, stock.species, size)
    return Made(piece, count, (stock.cost or 0) * count)


def with_bought(plan: Plan, job: Job, bought: Mapping[str, str]) -> Plan:
    """The same layouts, cut from the pieces that were bought for them.

    ``job`` is as the rack has it now; ``bought`` gives the label of what each of
    the dealer's lines became.
    """
    before = choice_of(plan.job)
    sawn = {bought.get(key, key): boards for key, boards in before.resawn.items()}
    layouts = tuple(
        replace(layout, stock=_renamed(layout.stock, bought)) for layout in plan.layouts
    )
    return replace(plan, job=Choice(before.glued, sawn).on(job), layouts=layouts)


def _renamed(stock_id: str, bought: Mapping[str, str]) -> str:
    made = piece_of(stock_id)
    if made:
        piece, number, boards = made
        return f"{bought.get(piece, piece)} resawn {number}/{boards}"
    return bought.get(stock_id, stock_id)
