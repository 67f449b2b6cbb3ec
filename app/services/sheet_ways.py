"""What stands around the cuts of a printed plan: resawing before, glueing up after."""

from __future__ import annotations

from dataclasses import replace

from app.core.cutting import glued, resawn
from app.core.cutting.plan import Plan
from app.core.length import Length, show
from app.core.safety import for_tool
from app.publish.sheet import TableLine


def before(plan: Plan) -> tuple[TableLine, ...]:
    """The boards to resaw before anything is cut from them."""
    stock = {one.id: one for one in plan.job.stock}
    rows = tuple(
        (
            str(one.quantity),
            stock[one.stock].name or one.stock,
            _size(stock[one.stock].thickness, plan),
            f"{one.boards} boards, flat on both faces {_size(one.thickness, plan)}",
        )
        for one in resawn.told(plan)
    )
    headings = ("how many", "board", "thick", "saw on edge into")
    return (TableLine("resaw", "Resaw first", headings, rows),) if rows else ()


def after(plan: Plan) -> tuple[TableLine, ...]:
    """The parts to glue up once their strips are cut."""
    rows = tuple(
        (
            str(one.quantity),
            one.name,
            f"{one.strips} strips of {_size(one.width, plan)}",
            f"{_size(one.joints, plan)} in all",
        )
        for one in glued.told(plan.job)
    )
    headings = ("how many", "part", "each of", "of which jointing takes")
    title = "Glue up from the strips"
    return (TableLine("glue-up", title, headings, rows),) if rows else ()


def cautions(plan: Plan | None) -> tuple[str, ...]:
    """Keys of the cautions that belong to resawing, where the plan asks for it."""
    resaws = plan is not None and resawn.told(plan)
    return for_tool("band saw", "resaw") if resaws else ()


def _size(length: Length | None, plan: Plan) -> str:
    display = replace(plan.job.display, both=True)
    return "" if length is None else show(length, display).text
