"""What a plan asks for before and after its cuts: resawing, glueing up, planing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.core.cutting.glued import Glued
from app.core.cutting.glued import told as glued_told
from app.core.cutting.job import Stock
from app.core.cutting.open_ways import was_open
from app.core.cutting.plan import Plan
from app.core.cutting.planing import planed
from app.core.cutting.resawn import piece_of
from app.core.cutting.resawn import told as resawn_told
from app.core.cutting.written import read_plan
from app.core.length import Length
from app.services import wood_hints
from app.store import plans as store
from app.store import rack
from app.store.rack import Pile
from app.store.workspace import Workspace


@dataclass(frozen=True, slots=True)
class ResawLine:
    """Stock to resaw: ``quantity`` pieces, ``before`` thick, into ``boards`` each.

    ``waste`` is what kerf and the flattening of the faces take of all of them, nm³.
    """

    name: str
    quantity: int
    before: Length
    boards: int
    after: Length
    waste: int


@dataclass(frozen=True, slots=True)
class PlaneLine:
    """What planing stock of one thickness down takes; nm³ and minor units."""

    name: str
    before: Length
    after: Length
    chips: int
    money: int


@dataclass(frozen=True, slots=True)
class BeforeSawing:
    """All of it, for one plan. ``tried``: other ways to glue up or resaw were open.

    ``hints`` are sentences: what would give a place to a blank that has none.
    """

    resawn: tuple[ResawLine, ...] = ()
    glued: tuple[Glued, ...] = ()
    planed: tuple[PlaneLine, ...] = ()
    tried: bool = False
    hints: tuple[str, ...] = ()

    @property
    def chips(self) -> int:
        """All that planing turns to chips, nm³."""
        return sum(line.chips for line in self.planed)

    @property
    def money(self) -> int:
        """What those chips cost, minor units."""
        return sum(line.money for line in self.planed)


def show_for(workspace: Workspace, episode_id: int) -> BeforeSawing:
    """What the plan that stands asks for; nothing where there is none."""
    with workspace.read() as work:
        row = store.latest(work, episode_id)
        if row is None:
            return BeforeSawing()
        plan = read_plan(row.job, row.answer)
        piles = {pile.label: pile for pile in rack.on_hand(work)}
        return told(plan, piles)


def told(plan: Plan, piles: Mapping[str, Pile]) -> BeforeSawing:
    """What a plan asks for; ``piles`` is what the rack holds, by label."""
    stock = {one.id: one for one in plan.job.stock}
    return BeforeSawing(
        _resawn(plan, stock),
        glued_told(plan.job),
        _planed(plan, piles),
        was_open(plan.job),
        tuple(wood_hints.hints(plan)),
    )


def _resawn(plan: Plan, stock: Mapping[str, Stock]) -> tuple[ResawLine, ...]:
    found = []
    for one in resawn_told(plan):
        whole = stock[one.stock]
        assert whole.thickness is not None
        assert whole.width is not None
        gone = whole.thickness.nm - one.boards * one.thickness.nm
        found.append(
            ResawLine(
                whole.name or whole.id,
                one.quantity,
                whole.thickness,
                one.boards,
                one.thickness,
                gone * whole.length.nm * whole.width.nm * one.quantity,
            )
        )
    return tuple(found)


def _planed(plan: Plan, piles: Mapping[str, Pile]) -> tuple[PlaneLine, ...]:
    carried = {one.id: _money(one, piles) for one in plan.job.stock}
    names = {one.id: one.name or one.id for one in plan.job.stock}
    sums: dict[tuple[str, Length, Length], list[int]] = {}
    for layout in plan.layouts:
        for line in planed(layout, plan, carried):
            key = (names[line.stock], line.thickness, line.blank)
            found = sums.setdefault(key, [0, 0])
            found[0] += line.chips
            found[1] += line.money
    return tuple(PlaneLine(*key, *found) for key, found in sums.items())


def _money(stock: Stock, piles: Mapping[str, Pile]) -> int:
    """What one piece costs or carries."""
    if stock.cost is not None:
        return stock.cost
    made = piece_of(stock.id)
    pile = piles.get(made[0] if made else stock.id)
    if pile is None or not pile.quantity:
        return 0
    return pile.cost // (pile.quantity * (made[2] if made else 1))
