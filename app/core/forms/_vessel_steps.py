"""The straight vessel's steps in bench order.

Times at the bench and the order are common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

from app.core.forms import _bench as bench
from app.core.forms._bench import shop_text
from app.core.forms._common import Common
from app.core.forms._spline_steps import spline_steps
from app.core.forms._strip_panels import panel_steps
from app.core.forms._vessel import Vessel
from app.core.forms._vessel_assembly import assembly_steps, base_last, splined_first
from app.core.forms._vessel_plate import Plate
from app.core.forms._vessel_wall_steps import wall_steps
from app.core.part import Dimensions, GlueUp
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.step import Step


def steps(
    vessel: Vessel,
    inputs: Common,
    panels: tuple[GlueUp, ...],
    set_ups: tuple[SetUp, ...],
    shop: Shop,
) -> tuple[Step, ...]:
    """Every operation, from rough boards to the last coat."""
    found = [
        *_stock(vessel, shop),
        *_panels(vessel, panels, shop),
        *wall_steps(vessel, shop),
        *_plates(vessel),
        *assembly_steps(vessel, inputs),
        *(spline_steps(vessel.splines, shop) if vessel.splines else []),
        *(base_last(vessel) if splined_first(vessel) else []),
        *_outside(vessel, inputs),
    ]
    known = {set_up.key: set_up for set_up in set_ups}
    return tuple(_with_cautions(step, known) for step in found)


def _with_cautions(step: Step, known: dict[str, SetUp]) -> Step:
    """A step carries the tool and the cautions of its set-up to the bench."""
    if step.set_up not in known:
        return replace(step, set_up="")
    keys = (*step.cautions, *known[step.set_up].cautions)
    return replace(
        step, tool=known[step.set_up].machine, cautions=tuple(dict.fromkeys(keys))
    )


def _stock(vessel: Vessel, shop: Shop) -> list[Step]:
    rough = shop_text(vessel.cut.thickness, shop)
    rows = len(vessel.widths)
    detail = (
        f"Leave the wall stock at {rough}; it is planed to its size when glued up. A "
        "dealer surfaces boards for a fee, where you have no machine for it."
    )
    return [
        bench.joint_stock(10 + 3 * rows, "Every board, before any rip."),
        bench.plane_stock(10 + 2 * rows, detail),
    ]


def _panels(vessel: Vessel, panels: tuple[GlueUp, ...], shop: Shop) -> list[Step]:
    walls = [one for one in panels if one.key.startswith("wall_panel")]
    if walls:
        found = panel_steps(walls, shop, thickness=vessel.wall)
    else:
        stock = Dimensions(vessel.each_panel_length, vessel.height, vessel.wall)
        found = [bench.planed("plane-wall", "wall stock", stock, shop)]
    for plate in vessel.plates:
        found += _plate_stock(plate, shop)
    return found


def _plate_stock(plate: Plate, shop: Shop) -> list[Step]:
    name = plate.name.lower()
    size = Dimensions(plate.blank, plate.blank, plate.thickness)
    if not plate.panel_key:
        return [bench.planed(f"plane-{plate.key}", f"{name} stock", size, shop)]
    return bench.glued_panel(
        f"{plate.key}-panel",
        f"{name} panel",
        plate.strip_count,
        "Turn the strips until the grain runs one way.",
        shop,
        replace(size, length=plate.blank + plate.over.length),
    )


def _plates(vessel: Vessel) -> list[Step]:
    found = [_cut_plate(plate) for plate in vessel.plates]
    if vessel.lid.kind == "rebate":
        found.append(
            Step(
                key="lid-rebate",
                name="Rebate the underside of the lid",
                tool="table saw",
                set_up="lid-rebate",
                detail="A push block with a heel keeps the lid flat on the table. Stop "
                "a little short, try the lid in the dry fit, and take the rest.",
                bench_minutes=15 + 2 * vessel.sides,
                cautions=("table-saw.guard-off",),
            )
        )
    if vessel.lid.kind == "plug":
        found.append(_glue_plug())
    return found


def _cut_plate(plate: Plate) -> Step:
    details = {
        "base": "Measure the dry fit first and cut to it, not to the drawing; then "
        "close the walls round it dry once more. By hand: saw outside the lines of the "
        "template and plane to them, across the grain first.",
        "lid": "Its grain runs along side 1. Try it on the dry fit.",
        "plug": "Measure the opening of the dry fit. Its grain runs along side 1, as "
        "the lid's does.",
    }
    return Step(
        key=plate.key,
        name=f"Cut the {plate.name.lower()} to {plate.sides} sides",
        tool="mitre gauge",
        detail=details[plate.key],
        set_up=plate.key,
        bench_minutes=15 + 2 * plate.sides,
    )


def _glue_plug() -> Step:
    return Step(
        key="glue-plug",
        name="Glue the plug under the lid",
        tool="clamps",
        detail="Grain along grain, so that both move as one. Centre it by the same "
        "distance to every side; two brads with their heads nipped off keep it from "
        "creeping. Clean off the squeeze-out in the corner.",
        bench_minutes=15,
        waits=(bench.UNCLAMP,),
        cautions=bench.GLUE_CAUTIONS,
        supplies=(bench.GLUE,),
    )


def _outside(vessel: Vessel, inputs: Common) -> list[Step]:
    where = "the outside and the lid" if vessel.has_lid else "the outside"
    return [
        bench.sand(
            "sand-outside",
            f"Sand {where} and ease the edges",
            15 + 3 * vessel.sides,
            "Keep the corners crisp: a few strokes with a block.",
        ),
        *bench.finishing(inputs, where, 15),
    ]
