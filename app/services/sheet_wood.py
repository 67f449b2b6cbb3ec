"""The wood of an episode and where it came from, for its sheet."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from sqlalchemy.orm import Session

from app.core.cutting.job import Stock
from app.core.cutting.outcome import balance
from app.core.cutting.plan import Plan
from app.core.cutting.resawn import pieces, whole
from app.core.cutting.written import read_plan
from app.core.errors import NotFound
from app.core.length import Display, Length
from app.core.movement import PieceKind
from app.core.part import Dimensions
from app.publish.sheet import (
    Box,
    CostLine,
    LeftLine,
    Measured,
    Part,
    WentLine,
    WoodLine,
)
from app.store import plans, rack
from app.store.edits import get
from app.store.left_over import LeftOver, Went, left_over, went
from app.store.rack import Pile, WoodUsed
from app.store.schema import Episode, PlanRow


def box(size: Dimensions, display: Display) -> Box:
    """A piece as read in both systems."""
    sides = (size.thickness, size.width, size.length)
    return Box(*(Measured.of(side, display) for side in sides))


@dataclass(frozen=True, slots=True)
class Wood:
    """The wood of a sheet: its lines, where it went, what it cost."""

    lines: tuple[WoodLine, ...] = ()
    went: tuple[WentLine, ...] = ()
    costs: tuple[CostLine, ...] = ()


def wood(work: Session, episode_id: int, display: Display) -> Wood:
    """What the recorded cuts took; before the first one, what the plan names."""
    used = rack.wood_used(work, episode_id)
    if used:
        left = left_over(work, episode_id)
        return Wood(
            tuple(_used(work, item, left, display) for item in used),
            _went(went(work, episode_id)),
            tuple(_cost(item, left) for item in used),
        )
    plan = plans.latest(work, episode_id)
    return Wood() if plan is None else _planned(work, plan, display)


def _went(found: Went) -> tuple[WentLine, ...]:
    return (
        WentLine("parts", found.parts),
        WentLine("kerf", found.kerf),
        WentLine("chips", found.chips),
        WentLine("scrap", found.scrap),
        WentLine("waiting to be built", found.waiting),
        WentLine("lost or thrown out", found.gone),
    )


def _used(
    work: Session, item: WoodUsed, left: tuple[LeftOver, ...], display: Display
) -> WoodLine:
    of_it = [one for one in left if one.of_stock_id == item.stock_id]
    pieces = [(one.piece.kind.value, one.piece.size, one.quantity) for one in of_it]
    return WoodLine(
        item.piece.species,
        item.piece.kind.value,
        item.quantity,
        box(item.piece.size, display),
        item.label,
        _origin(work, item.origin_id),
        left=_left(pieces, display),
    )


def _left(
    pieces: Iterable[tuple[str, Dimensions, int]], display: Display
) -> tuple[LeftLine, ...]:
    """Leftovers for reading, equal ones together, the largest first."""
    found: Counter[tuple[str, Dimensions]] = Counter()
    for what, size, quantity in pieces:
        found[what, size] += quantity
    largest = sorted(found.items(), key=lambda item: -item[0][1].volume)
    return tuple(
        LeftLine(what, quantity, box(size, display))
        for (what, size), quantity in largest
    )


def _cost(item: WoodUsed, left: tuple[LeftOver, ...]) -> CostLine:
    name = f"{item.piece.species} {item.piece.kind.value} {item.label}".strip()
    carried = sum(one.cost for one in left if one.of_stock_id == item.stock_id)
    return CostLine(name, str(item.quantity), item.cost, carried)


def _origin(work: Session, episode_id: int | None) -> Part | None:
    if episode_id is None:
        return None
    row = get(work, Episode, episode_id, "Episode")
    return part(row)


def part(row: Episode) -> Part:
    """An episode to point at."""
    due = row.due_on.isoformat() if row.due_on else ""
    return Part(row.series.title, row.number, row.title, row.video_url, due)


def _planned(work: Session, plan: PlanRow, display: Display) -> Wood:
    made = read_plan(plan.job, plan.answer)
    wanted = pieces(made)
    stock = {item.id: item for item in made.job.stock}
    # Stock of the rack goes by its label; what is to buy has a price instead.
    piles = {i: _pile(work, i) for i in wanted if stock[i].cost is None}
    heaps = balance(made)
    return Wood(
        tuple(
            replace(
                _plan_line(work, stock[name], count, piles.get(name), display),
                left=_left(_to_leave(made, stock[name]), display),
            )
            for name, count in wanted.items()
        ),
        tuple(
            WentLine(heap, heaps[heap]) for heap in ("blanks", "kerf", "chips", "scrap")
        ),
    )


def _to_leave(plan: Plan, stock: Stock) -> Iterator[tuple[str, Dimensions, int]]:
    """The offcuts that a plan leaves of one stock, layout by layout."""
    thick = {one.id: one.thickness or Length(0) for one in plan.job.stock}
    for layout in plan.layouts:
        for item in layout.leftovers if whole(layout.stock) == stock.id else ():
            if item.keep:
                sides = item.area.length, item.area.width, thick[layout.stock]
                yield PieceKind.OFFCUT.value, Dimensions(*sides), layout.copies


def _pile(work: Session, label: str) -> Pile | None:
    # A plan may outlive its pile: the movement that made it can be reversed.
    try:
        return rack.pile(work, label)
    except NotFound:
        return None


def _plan_line(
    work: Session, stock: Stock, count: int, pile: Pile | None, display: Display
) -> WoodLine:
    if pile is not None:
        size, what = pile.piece.size, pile.piece.kind.value
        species, origin = pile.piece.species, _origin(work, pile.episode_id)
    else:
        size = Dimensions(
            stock.length, stock.width or Length(0), stock.thickness or Length(0)
        )
        what = (PieceKind.OFFCUT if stock.offcut else PieceKind.BOARD).value
        species, origin = stock.species, None
    label = pile.label if pile else ""
    return WoodLine(species, what, count, box(size, display), label, origin, True)
