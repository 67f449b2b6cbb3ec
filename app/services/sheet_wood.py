"""The wood of an episode and where it came from, for its sheet."""

from __future__ import annotations

from collections import Counter

from sqlalchemy.orm import Session

from app.core.cutting.job import Stock
from app.core.cutting.written import read_plan
from app.core.errors import NotFound
from app.core.length import Display, Length
from app.core.movement import PieceKind
from app.core.part import Dimensions
from app.publish.sheet import Box, CostLine, Measured, Part, WoodLine
from app.store import publishing as store
from app.store import rack
from app.store.edits import get
from app.store.rack import Pile, WoodUsed
from app.store.schema import Episode, PlanRow


def box(size: Dimensions, display: Display) -> Box:
    """A piece as read in both systems."""
    sides = (size.thickness, size.width, size.length)
    return Box(*(Measured.of(side, display) for side in sides))


def wood(
    work: Session, episode_id: int, display: Display
) -> tuple[tuple[WoodLine, ...], tuple[CostLine, ...]]:
    """What the recorded cuts took; before the first one, what the plan names."""
    used = rack.wood_used(work, episode_id)
    if used:
        lines = tuple(_used(work, item, display) for item in used)
        return lines, tuple(_cost(item) for item in used)
    plan = store.latest_plan(work, episode_id)
    return (() if plan is None else _planned(work, plan, display)), ()


def _used(work: Session, item: WoodUsed, display: Display) -> WoodLine:
    return WoodLine(
        item.piece.species,
        item.piece.kind.value,
        item.quantity,
        box(item.piece.size, display),
        item.label,
        _origin(work, item.origin_id),
    )


def _cost(item: WoodUsed) -> CostLine:
    name = f"{item.piece.species} {item.piece.kind.value} {item.label}".strip()
    return CostLine(name, str(item.quantity), item.cost)


def _origin(work: Session, episode_id: int | None) -> Part | None:
    if episode_id is None:
        return None
    row = get(work, Episode, episode_id, "Episode")
    return part(row)


def part(row: Episode) -> Part:
    """An episode to point at."""
    due = row.due_on.isoformat() if row.due_on else ""
    return Part(row.series.title, row.number, row.title, row.video_url, due)


def _planned(work: Session, plan: PlanRow, display: Display) -> tuple[WoodLine, ...]:
    made = read_plan(plan.job, plan.answer)
    wanted: Counter[str] = Counter()
    for layout in made.layouts:
        wanted[layout.stock] += layout.copies
    stock = {item.id: item for item in made.job.stock}
    # Stock of the rack goes by its label; what is to buy has a price instead.
    piles = {i: _pile(work, i) for i in wanted if stock[i].cost is None}
    return tuple(
        _plan_line(work, stock[name], count, piles.get(name), display)
        for name, count in wanted.items()
    )


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
