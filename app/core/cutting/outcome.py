"""A plan carried out: where the wood and the money went, to the last nm³."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field

from app.core.cutting.job import Blank, Stock
from app.core.cutting.plan import Layout, Plan
from app.core.cutting.totals import dust
from app.core.errors import WorkshopError
from app.core.length import Length
from app.core.movement import (
    Made,
    Movement,
    MovementKind,
    Piece,
    PieceKind,
    Taken,
    offcut_of,
)
from app.core.part import Dimensions
from app.core.volume import share


@dataclass(slots=True)
class _Tally:
    """What comes out, while it is being added up."""

    made: dict[tuple[Piece, str, str], list[int]] = field(
        default_factory=lambda: defaultdict(lambda: [0, 0])
    )
    kerf: int = 0
    chips: int = 0
    scrap: int = 0


def refusal(plan: Plan) -> WorkshopError | None:
    """Why the plan cannot be cut as it stands, with what would work."""
    if plan.unplaced:
        first = plan.unplaced[0]
        names = {blank.id: blank.name or blank.id for blank in plan.job.blanks}
        return WorkshopError(
            f"{first.quantity} × {names[first.blank]} has no place in this plan: "
            f"{first.why} Put wood for it on the rack, or change the design, and "
            "plan again; nothing was marked as cut."
        )
    if bought := to_buy(plan):
        count = sum(bought.values())
        boards = "board that is" if count == 1 else "boards that are"
        return WorkshopError(
            f"This plan needs {count} {boards} not on the rack yet. Record the "
            "purchase first; nothing was marked as cut."
        )
    if not plan.layouts:
        return WorkshopError("This plan cuts nothing, so there is nothing to mark.")
    return None


def used(plan: Plan) -> dict[str, int]:
    """How many pieces of each stock the plan cuts up."""
    found: dict[str, int] = defaultdict(int)
    for layout in plan.layouts:
        found[layout.stock] += layout.copies
    return dict(found)


def to_buy(plan: Plan) -> dict[str, int]:
    """How many of each stock are to be bought: what has a cost is not here yet."""
    priced = {one.id for one in plan.job.stock if one.cost is not None}
    return {key: count for key, count in used(plan).items() if key in priced}


def movement(
    plan: Plan, taken: Mapping[str, Taken], kinds: Mapping[str, PieceKind]
) -> Movement:
    """The movement that records the plan as cut.

    ``taken`` is what leaves the rack by the stock's id in the plan, with its
    money; ``kinds`` what each blank is once cut (BLANK unless named). Blanks
    lie there at their own thickness, offcuts at the stock's. The money of each
    stock goes with what was made of it, by volume; where only scrap came of it,
    it is written off. Of a series each part has a movement of its own, that of
    its ``by_period.of_period``.

    Raises WorkshopError where the plan cannot be cut as it stands.
    """
    if refused := refusal(plan):
        raise refused
    tally, written_off = _Tally(), 0
    for stock_id in used(plan):
        written_off += _cut_up(plan, stock_id, taken[stock_id], kinds, tally)
    names = {blank.id: blank.name for blank in plan.job.blanks}
    made = tuple(
        Made(piece, count, cost, names.get(key, name), part_key=key)
        for (piece, key, name), (count, cost) in tally.made.items()
    )
    lines = tuple(taken[stock_id] for stock_id in used(plan))
    return Movement(
        MovementKind.CUT,
        taken=lines,
        made=made,
        kerf=tally.kerf,
        chips=tally.chips,
        scrap=tally.scrap,
        written_off=written_off,
    )


def _cut_up(
    plan: Plan,
    stock_id: str,
    taken: Taken,
    kinds: Mapping[str, PieceKind],
    tally: _Tally,
) -> int:
    """Add one stock's layouts to the tally; gives what must be written off."""
    stock = next(one for one in plan.job.stock if one.id == stock_id)
    blanks = {blank.id: blank for blank in plan.job.blanks}
    out: dict[tuple[Piece, str, str], int] = defaultdict(int)
    for layout in plan.layouts:
        if layout.stock == stock_id:
            for key in _lines(layout, stock, taken.piece, blanks, kinds):
                out[key] += layout.copies
            _waste(layout, taken.piece, blanks, tally)
    costs = share(taken.cost, [key[0].volume * count for key, count in out.items()])
    for (key, count), cost in zip(out.items(), costs, strict=True):
        tally.made[key][0] += count
        tally.made[key][1] += cost
    return 0 if out else taken.cost


def _lines(
    layout: Layout,
    stock: Stock,
    piece: Piece,
    blanks: Mapping[str, Blank],
    kinds: Mapping[str, PieceKind],
) -> list[tuple[Piece, str, str]]:
    found = []
    for placed in layout.pieces:
        blank = blanks[placed.blank]
        size = Dimensions(
            placed.area.length, placed.area.width, _thickness(blank, piece)
        )
        kind = kinds.get(blank.id, PieceKind.BLANK)
        found.append((Piece(kind, piece.species, size), blank.id, ""))
    for leftover in layout.leftovers:
        # What a later period cuts up stands in what came of it.
        if leftover.keep and not leftover.used_in:
            area = leftover.area
            size = Dimensions(area.length, area.width, piece.size.thickness)
            offcut = Piece(PieceKind.OFFCUT, piece.species, size)
            found.append((offcut, "", offcut_of(stock.name or stock.id)))
    return found


def _thickness(blank: Blank, piece: Piece) -> Length:
    return piece.size.thickness if blank.thickness is None else blank.thickness


def _waste(
    layout: Layout, piece: Piece, blanks: Mapping[str, Blank], tally: _Tally
) -> None:
    thick, copies = piece.size.thickness.nm, layout.copies
    tally.kerf += copies * thick * sum(dust(cut) for cut in layout.cuts)
    for leftover in layout.leftovers:
        if not leftover.keep:
            face = leftover.area.length.nm * leftover.area.width.nm
            tally.scrap += copies * thick * face
    for placed in layout.pieces:
        planed = thick - _thickness(blanks[placed.blank], piece).nm
        face = placed.area.length.nm * placed.area.width.nm
        tally.chips += copies * planed * face


def balance(plan: Plan) -> dict[str, int]:
    """Where the wood of a plan goes, nm³, by name; ``stock`` is all the rest.

    Stock without a width or thickness counts for nothing here.
    """
    stock = {one.id: one for one in plan.job.stock}
    blanks = {blank.id: blank for blank in plan.job.blanks}
    found = dict.fromkeys(("stock", "blanks", "offcuts", "kerf", "chips", "scrap"), 0)
    for layout in plan.layouts:
        one = stock[layout.stock]
        if one.width is None or one.thickness is None:
            continue
        size = Dimensions(one.length, one.width, one.thickness)
        piece = Piece(PieceKind.BOARD, one.species, size)
        tally = _Tally()
        _waste(layout, piece, blanks, tally)
        lines = _lines(layout, one, piece, blanks, {})
        found["stock"] += layout.copies * piece.volume
        for made, key, _ in lines:
            found["blanks" if key else "offcuts"] += layout.copies * made.volume
        found["kerf"] += tally.kerf
        found["chips"] += tally.chips
        found["scrap"] += tally.scrap
    return found
