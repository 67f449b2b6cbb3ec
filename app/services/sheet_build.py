"""A design and its steps in a sheet's words: read in both systems, drawn once."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from app.core.cutting import diagram
from app.core.cutting.key import key
from app.core.cutting.plan import Direction, Plan
from app.core.cutting.set_up_list import Becomes, Off, SetUpCut, by_set_up
from app.core.design import Design
from app.core.drawing import Drawing
from app.core.length import Display, Unit, show
from app.core.setup import SetUp
from app.core.size import Size
from app.core.step import Until
from app.core.table import Table
from app.publish.sheet import (
    CutLine,
    Picture,
    SetUpLine,
    SizeLine,
    StepLine,
    TableLine,
)
from app.publish.svg import svg
from app.services import sheet_safety, sheet_ways, sheet_wood
from app.services.design_view import TITLES
from app.store.schema import StepRow

BEFORE = {
    Until.UNCLAMP: "the clamps come off",
    Until.MACHINE: "it is machined",
    Until.RECOAT: "the next coat",
    Until.USE: "it is used",
}


def cut_list(design: Design, display: Display) -> tuple[CutLine, ...]:
    """What goes to the saw: the strips of the glue-ups, the parts from none.

    Equal strips of one panel are one line, wherever in it they lie.
    """
    wanted: Counter[CutLine] = Counter()
    for panel in design.glue_ups:
        for strip in panel.strips:
            box = sheet_wood.box(strip.blank, display)
            line = CutLine(f"{strip.species} strip", 0, strip.species, box, panel.name)
            wanted[line] += strip.quantity * panel.quantity
    for part in design.parts:
        if not part.glue_up:
            box = sheet_wood.box(part.blank, display)
            wanted[CutLine(part.name, 0, part.species, box)] += part.quantity
    return tuple(replace(line, quantity=count) for line, count in wanted.items())


def size_line(size: Size, display: Display) -> SizeLine:
    """A size as read in each system; what rounding hid is said."""
    inch, metric = (
        size.text(_alone(unit, display)) for unit in (Unit.INCH, Unit.MILLIMETRE)
    )
    source = "" if size.source == "plane geometry" else size.source
    told = (size.key, size.label, inch, metric, size.working, source)
    return SizeLine(*told, TITLES[size.group])


def _alone(unit: Unit, display: Display) -> Display:
    return Display(unit, display.denominator, display.decimal)


def set_up_line(item: SetUp, display: Display) -> SetUpLine:
    both = replace(display, both=True)
    said = (
        ("tilt", None if item.tilt is None else str(item.tilt)),
        ("gauge", None if item.gauge is None else str(item.gauge)),
        ("fence", None if item.fence is None else str(show(item.fence, both))),
        ("stop", None if item.stop is None else str(show(item.stop, both))),
    )
    settings_read = tuple(f"{name} {text}" for name, text in said if text is not None)
    return SetUpLine(
        item.key, item.machine, item.cuts, settings_read, item.face_down, item.check
    )


def picture(drawing: Drawing) -> Picture:
    return Picture.of(drawing, svg(drawing, standalone=True))


def diagrams(plan: Plan) -> tuple[Picture, ...]:
    """A plan's cutting diagrams, and how they are read."""
    drawn = (*diagram.diagrams(plan), key(plan)) if plan.layouts else ()
    return tuple(picture(one) for one in drawn)


def sawing(plan: Plan) -> tuple[TableLine, ...]:
    """The cuts of a plan in order, one table for each setting of the saw.

    Before them what is resawn, after them what is glued up from its strips.
    """
    ways = {Direction.RIP: "along the grain", Direction.CROSSCUT: "across the grain"}
    cuts = tuple(
        TableLine(
            f"set-up-{group.number}",
            f"{group.number}. {group.words}, {ways[group.direction]}",
            ("cut", "board", "what bears", "what comes off"),
            tuple(_cut(one) for one in group.cuts),
        )
        for group in by_set_up(plan)
    )
    return (*sheet_ways.before(plan), *cuts, *sheet_ways.after(plan))


def _cut(one: SetUpCut) -> tuple[str, ...]:
    times = f", on each of {one.copies}" if one.copies > 1 else ""
    off = [_off(piece) for piece in one.off if piece.becomes is not Becomes.REST]
    on = len(one.off) - len(off)
    if on:
        off.append("the rest goes on" if on == 1 else "both go on")
    return (str(one.number), one.stock + times, one.against, "; ".join(off))


def _off(piece: Off) -> str:
    if piece.becomes is Becomes.OFFCUT:
        until = f" until {piece.used_in}" if piece.used_in else ""
        return f"offcut {piece.name}{until}"
    return piece.name or piece.becomes.value


def table_line(table: Table) -> TableLine:
    source = "" if table.source == "plane geometry" else table.source
    return TableLine(
        *(table.key, table.title, table.headings, table.rows),
        *(table.working, source, TITLES[table.group]),
    )


def step_line(row: StepRow) -> StepLine:
    waits = tuple(
        f"Wait {span(wait['minutes'])} before {BEFORE[Until(wait['until'])]}."
        for wait in row.waits
    )
    keys = sheet_safety.of_step(row)
    return StepLine(
        row.name, row.tool, row.detail, row.set_up, row.bench_minutes, waits, keys
    )


def span(minutes: int) -> str:
    """A time to wait: ``40 min``, ``1 h 30 min``, ``24 h``, ``3 days``."""
    if minutes >= 48 * 60 and minutes % (24 * 60) == 0:
        return f"{minutes // (24 * 60)} days"
    hours, rest = divmod(minutes, 60)
    said = [f"{hours} h"] if hours else []
    return " ".join([*said, f"{rest} min"] if rest or not hours else said)
