"""The carcass's steps in bench order.

Times at the bench, the order and the know-how are common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

from app.core.forms import _bench as bench
from app.core.forms._bench import shop_text
from app.core.forms._carcass import Carcass
from app.core.forms._carcass_assembly import together
from app.core.forms._carcass_inputs import Inputs
from app.core.part import GlueUp, Part
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.step import Step, Supply

NO_SAW = (
    "Without a table saw: a dealer cuts sheets to size for a fee, or a hand saw along "
    "a clamped guide and a plane on a shooting board."
)
NAMES = {
    "rip-sides": "Rip sides, top and bottom to width",
    "rip-shelves": "Rip the shelves to width",
    "rip-loose-shelves": "Rip the adjustable shelves to width",
    "cut-sides": "Cut the sides to length",
    "cut-shelves": "Cut top, bottom and shelves to length",
    "cut-loose-shelves": "Cut the adjustable shelves to length",
    "rebate-ends": "Rebate the ends of the sides",
    "dado": "Cut the dadoes",
    "rebate-back": "Rebate the back edges",
    "rip-back": "Rip the back to width",
    "cut-back": "Cut the back to height",
    "pins": "Drill the rows of holes for the pins",
    "rip-edges": "Rip the strips for the front edges",
}
DETAILS = {
    "rip-sides": f"One setting for all four. {NO_SAW}",
    "cut-sides": "Mark which is left and right, which face is inside, which end is up.",
    "dado": "Mark both sides from one story stick in one go, never from a rule twice. "
    "By hand: two saw cuts along a guide, and a chisel or a router plane between.",
    "rebate-back": "Sides, top and bottom alike, the full length.",
    "rip-back": "Measure the dry fit first and cut to it, not to the drawing.",
    "cut-back": "Square to a hair: the carcass goes by it.",
    "pins": "Before assembly, while the sides lie flat.",
    "rip-edges": "Of a board with a jointed face and edge, planed; a dealer surfaces "
    "one for a fee.",
}
# How the housings come to fit what they hold.
FITTED = {
    True: "Plane a shelf to the cutter rather than the cutter to a shelf.",
    False: "Sheets are thinner than their name: measure one, and take a cutter as "
    "wide, or a narrower one and two passes.",
}
GRAIN = {
    "side": "It stands upright in the sides, and lies from side to side in top and "
    "shelves: all swell and shrink in depth, together.",
    "top": "It lies from side to side.",
    "shelf": "It lies from side to side.",
    "loose_shelf": "It lies from side to side.",
    "back": "It stands upright, so that only the back's width moves.",
}
MINUTES = {"dado": 40, "rebate-ends": 20, "pins": 40, "rebate-back": 20}


def steps(
    carcass: Carcass,
    inputs: Inputs,
    made: tuple[Part, ...],
    glued: tuple[GlueUp, ...],
    set_ups: tuple[SetUp, ...],
    shop: Shop,
) -> tuple[Step, ...]:
    """Every operation, from rough boards to the last coat."""
    known = {one.key: one for one in set_ups}
    found = [
        *_stock(carcass, made, glued, shop),
        *_edging(carcass, known),
        *_cuts(carcass, known),
        *together(carcass, inputs, shop),
    ]
    return tuple(_with_pins(_with_set_up(step, known), carcass) for step in found)


def _with_set_up(step: Step, known: dict[str, SetUp]) -> Step:
    """A step carries the machine and the cautions of its set-up to the bench."""
    if step.set_up not in known:
        return replace(step, set_up="")
    keys = (*step.cautions, *known[step.set_up].cautions)
    return replace(
        step, tool=known[step.set_up].machine, cautions=tuple(dict.fromkeys(keys))
    )


def _with_pins(step: Step, carcass: Carcass) -> Step:
    """Four pins for each board that lies on them."""
    if step.key != "pins":
        return step
    many = f"{4 * carcass.loose}" if carcass.loose else "4 for each shelf"
    return replace(step, supplies=(*step.supplies, Supply("shelf pins", many)))


def _stock(
    carcass: Carcass, made: tuple[Part, ...], glued: tuple[GlueUp, ...], shop: Shop
) -> list[Step]:
    found = [] if carcass.solid else [_sheets(carcass)]
    if not (carcass.solid or carcass.solid_back):
        return found
    thick = carcass.thickness if carcass.solid else carcass.back_thickness
    over = carcass.allowances.of("side" if carcass.solid else "back").thickness
    rough = shop_text(thick + over, shop)
    found += [
        bench.joint_stock(
            20, "Every board, before any rip. Without a jointer, buy it surfaced."
        ),
        bench.plane_stock(
            20,
            f"The boards stay at {rough}, over size by {shop_text(over, shop)}, until "
            "they are glued up.",
        ),
    ]
    panels = {one.key: one for one in glued}
    for part in made:
        size = replace(part.blank, thickness=part.finished.thickness)
        if part.spare or part.key not in _boards(carcass):
            continue
        if part.glue_up in panels:
            found += _panel(panels[part.glue_up], part, shop)
        else:
            key = part.key.replace("_", "-")
            found.append(bench.planed(f"plane-{key}", part.name.lower(), size, shop))
    return found


def _boards(carcass: Carcass) -> tuple[str, ...]:
    """The parts that are planed, since they are of solid wood."""
    boards = ("side", "top", "shelf", "loose_shelf") if carcass.solid else ()
    return (*boards, "back") if carcass.solid_back else boards


def _panel(glue_up: GlueUp, part: Part, shop: Shop) -> list[Step]:
    strips = sum(one.quantity for one in glue_up.strips) * glue_up.quantity
    size = replace(glue_up.panel, thickness=part.finished.thickness)
    return bench.glued_panel(
        glue_up.key.replace("_", "-"),
        f"{part.name.lower()} panels" if glue_up.quantity > 1 else glue_up.name.lower(),
        strips,
        f"Grain along the length, rings up and down in turn. {GRAIN[part.key]}",
        shop,
        size,
    )


def _sheets(carcass: Carcass) -> Step:
    return Step(
        key="break-down",
        name="Break the sheets down to rough sizes",
        tool="hand saw",
        detail="On the floor, on strips of waste, along a clamped guide; each piece a "
        "little over size. Or have the dealer make the first cuts.",
        bench_minutes=40,
        cautions=("hand-saw.work-slips", "lifting.back-strain"),
    )


def _edging(carcass: Carcass, known: dict[str, SetUp]) -> list[Step]:
    if "rip-edges" not in known:
        return []
    return [
        _cut("rip-edges", 15),
        Step(
            key="trim-edges",
            name="Cut the strips to fit",
            tool="hand saw",
            detail="Those of the sides run from end to end, those of the shelves "
            "between them. They are glued on when the carcass stands.",
            bench_minutes=20,
            cautions=("hand-saw.start-slip", "hand-saw.work-slips"),
        ),
    ]


def _cut(key: str, minutes: int) -> Step:
    return Step(
        key=key,
        name=NAMES[key],
        tool="table saw",
        detail=DETAILS.get(key, ""),
        set_up=key,
        bench_minutes=minutes,
    )


def _cuts(carcass: Carcass, known: dict[str, SetUp]) -> list[Step]:
    """Widths and lengths, housings, then holes; the back to the dry fit."""
    last = ("rip-back", "cut-back")
    keys = [key for key in NAMES if key in known and key != "rip-edges"]
    found = [_cut(key, MINUTES.get(key, 15)) for key in keys if key not in last]
    found = [
        replace(step, detail=FITTED[carcass.solid])
        if step.key == "rebate-ends"
        else step
        for step in found
    ]
    seated = "Every board down to the floor of its dado or rebate"
    found.append(
        Step(
            key="dry-fit",
            name="Put the carcass together dry",
            tool="clamps",
            detail=f"{seated}; both diagonals of the front equal. Number each joint.",
            bench_minutes=20,
            cautions=("clamps.falling-or-pinch",),
        )
    )
    return found + [_cut(key, 10) for key in last if key in known]
