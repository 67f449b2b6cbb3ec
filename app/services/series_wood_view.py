"""What the page of a series' wood shows of its plan."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from app.core.cutting import proof
from app.core.cutting.parts_wood import (
    Kept,
    Opened,
    Saving,
    kept,
    left_by_period,
    opened,
    saving,
    taken_by_period,
)
from app.core.cutting.plan import Plan
from app.core.length import Length
from app.services import plan_view
from app.services.plan_view import PlanView
from app.store.rack import Pile


@dataclass(frozen=True, slots=True)
class TakenLine:
    """Equal pieces a part opens. ``cost`` None: on the rack, else what to pay.

    ``serves`` are the other parts that get blanks from them, in words.
    """

    quantity: int
    name: str
    length: Length
    width: Length | None
    thickness: Length | None
    cost: int | None
    serves: str


@dataclass(frozen=True, slots=True)
class OffcutLine:
    """Equal offcuts. ``other`` is the part they come from or are meant for."""

    quantity: int
    name: str
    length: Length
    width: Length | None
    other: str


@dataclass(frozen=True, slots=True)
class PartWood:
    """What one part buys, takes from the rack, cuts up again and leaves.

    ``on_rack`` is how many offcuts of this plan lie there when it is cut.
    """

    name: str
    title: str
    buys: tuple[TakenLine, ...]
    takes: tuple[TakenLine, ...]
    cuts_up: tuple[OffcutLine, ...]
    keep: tuple[OffcutLine, ...]
    stays: tuple[OffcutLine, ...]
    on_rack: int

    @property
    def cost(self) -> int:
        """What it buys, minor units."""
        return sum(one.cost or 0 for one in self.buys)


@dataclass(frozen=True, slots=True)
class SeriesPlanView:
    """A plan for all parts. ``stale`` is why it no longer holds, or empty."""

    made_at: datetime
    stale: str
    parts: tuple[PartWood, ...]
    saving: Saving
    proof: str
    whole: PlanView

    @property
    def cost(self) -> int:
        """What all parts buy, minor units."""
        return sum(part.cost for part in self.parts)

    @property
    def now(self) -> PartWood | None:
        """The part whose boards are to be bought now: the first that needs any."""
        return next((part for part in self.parts if part.buys), None)


def view(
    made_at: datetime,
    version: int,
    stale: str,
    plan: Plan,
    apart: Plan,
    piles: Mapping[str, Pile],
    titles: Mapping[str, str],
) -> SeriesPlanView:
    """The page's facts; ``titles`` are the parts' by what the plan calls them."""
    whole = plan_view.view(0, version, made_at, None, stale, plan, piles)
    numbered = _with_parts(whole, plan)
    return SeriesPlanView(
        made_at,
        stale,
        tuple(_part(plan, name, titles.get(name, "")) for name in plan.job.periods),
        saving(plan, apart),
        proof.in_words(plan),
        numbered,
    )


def _with_parts(whole: PlanView, plan: Plan) -> PlanView:
    """The plan's view with the part that takes each board beside where it is."""
    names = [one.period for one in plan.layouts]
    layouts = tuple(
        replace(one, from_where=f"{one.from_where}; {name} takes it")
        for one, name in zip(whole.layouts, names, strict=True)
    )
    return replace(whole, layouts=layouts)


def _part(plan: Plan, name: str, title: str) -> PartWood:
    mine = [one for one in opened(plan) if one.period == name]
    left = [one for one in kept(plan) if one.since == name]
    return PartWood(
        name,
        title,
        tuple(_taken(one, name) for one in mine if one.cost is not None),
        tuple(_taken(one, name) for one in mine if one.cost is None),
        tuple(_offcut(one, one.since) for one in taken_by_period(plan)[name]),
        tuple(_offcut(one, one.used_in) for one in left if one.used_in),
        tuple(_offcut(one, "") for one in left if not one.used_in),
        sum(one.quantity for one in left_by_period(plan)[name]),
    )


def _taken(one: Opened, part: str) -> TakenLine:
    stock = one.stock
    return TakenLine(
        one.quantity,
        stock.name or stock.id,
        stock.length,
        stock.width,
        stock.thickness,
        one.cost,
        _listed([name for name in one.serves if name != part]),
    )


def _offcut(one: Kept, other: str) -> OffcutLine:
    return OffcutLine(
        one.quantity, one.name, one.area.length, one.area.width or None, other
    )


def _listed(names: Sequence[str]) -> str:
    if not names:
        return ""
    *first, last = names
    return f"{', '.join(first)} and {last}" if first else last
