"""A plan parted in two: boards that are sawn already, and the rest of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace

from app.core.cutting.job import Blank
from app.core.cutting.order import in_order
from app.core.cutting.plan import Layout, Plan
from app.core.cutting.resawn import piece_of
from app.core.errors import WorkshopError


def split(plan: Plan, chosen: Mapping[int, int]) -> tuple[Plan, Plan]:
    """The layouts chosen as a plan of their own, and what is left to saw.

    ``chosen`` gives copies by the layout's place in the plan, from 0. The first
    plan's job wants just the blanks it gives; the rest keeps the job as it was.
    Raises WorkshopError where nothing is chosen, a layout is not there so often, or
    boards that are sawn out of one are parted.
    """
    counts = {at: copies for at, copies in chosen.items() if copies}
    if not counts:
        raise WorkshopError(
            "Tick the boards that you cut; nothing was marked.", input="layout"
        )
    for at, copies in counts.items():
        if not 0 <= at < len(plan.layouts) or copies > plan.layouts[at].copies:
            raise WorkshopError(
                "A board that was ticked is not in this plan any more. Open the page "
                "again; nothing was marked as cut.",
                input="layout",
            )
    done, rest = _parted(plan.layouts, counts)
    _refuse_halves(done, rest)
    wanted = replace(plan.job, blanks=_given(plan, done))
    return (
        in_order(replace(plan, job=wanted, layouts=done, unplaced=(), bounds=())),
        in_order(replace(plan, layouts=rest, bounds=())),
    )


def joined(plans: Sequence[Plan]) -> Plan:
    """Plans cut one after another as one, to be told of and drawn together.

    A blank or stock of one id is the same in each of them. The last one's job says
    how the saw cuts. ``plans`` are at least one.
    """
    if len(plans) == 1:
        return plans[0]
    last = plans[-1]
    stock = {one.id: one for plan in plans for one in plan.job.stock}
    blanks: dict[str, Blank] = {}
    for one in (one for plan in plans for one in plan.job.blanks):
        much = blanks[one.id].quantity if one.id in blanks else 0
        blanks[one.id] = replace(one, quantity=one.quantity + much)
    job = replace(last.job, stock=tuple(stock.values()), blanks=tuple(blanks.values()))
    layouts = tuple(one for plan in plans for one in plan.layouts)
    return in_order(Plan(job, layouts, last.unplaced))


def _parted(
    layouts: tuple[Layout, ...], counts: Mapping[int, int]
) -> tuple[tuple[Layout, ...], tuple[Layout, ...]]:
    done, rest = [], []
    for at, layout in enumerate(layouts):
        sawn = counts.get(at, 0)
        if sawn:
            done.append(replace(layout, copies=sawn))
        if sawn < layout.copies:
            rest.append(replace(layout, copies=layout.copies - sawn))
    return tuple(done), tuple(rest)


def _refuse_halves(done: tuple[Layout, ...], rest: tuple[Layout, ...]) -> None:
    """Boards that one is resawn into come about together."""
    halves = {piece[0] for one in done if (piece := piece_of(one.stock))}
    others = {piece[0] for one in rest if (piece := piece_of(one.stock))}
    for stock in sorted(halves & others):
        raise WorkshopError(
            f"{stock} is resawn into several boards. Tick all of them together; "
            "nothing was marked as cut.",
            input="layout",
        )


def _given(plan: Plan, layouts: tuple[Layout, ...]) -> tuple[Blank, ...]:
    count: Counter[str] = Counter()
    for layout in layouts:
        for piece in layout.pieces:
            count[piece.blank] += layout.copies
    return tuple(
        replace(one, quantity=count[one.id]) for one in plan.job.blanks if count[one.id]
    )
