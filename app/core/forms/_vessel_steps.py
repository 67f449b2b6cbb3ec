"""The straight vessel's steps in bench order.

Times at the bench and the order are common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

from app.core import geometry
from app.core.forms import _bench as bench
from app.core.forms._bench import shop_text
from app.core.forms._vessel import Vessel
from app.core.length import Length
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.step import Step, Supply


def steps(vessel: Vessel, set_ups: tuple[SetUp, ...], shop: Shop) -> tuple[Step, ...]:
    """Every operation, from rough boards to the last coat."""
    found = [
        *_stock(vessel, shop),
        *_panels(vessel, shop),
        *_walls(vessel),
        *_base(vessel),
        *_assembly(vessel),
        *_splines(vessel),
        *_outside(vessel),
    ]
    known = {set_up.key: set_up for set_up in set_ups}
    return tuple(_with_cautions(step, known) for step in found)


def _with_cautions(step: Step, known: dict[str, SetUp]) -> Step:
    """A step carries the cautions of its set-up to the bench."""
    if step.set_up not in known:
        return replace(step, set_up="")
    keys = (*step.cautions, *known[step.set_up].cautions)
    return replace(
        step, tool=known[step.set_up].machine, cautions=tuple(dict.fromkeys(keys))
    )


def _stock(vessel: Vessel, shop: Shop) -> list[Step]:
    rough = shop_text(vessel.wall + shop.over_thickness, shop)
    detail = f"Leave the wall stock at {rough}; it is planed to its size when glued up."
    return [
        bench.joint_stock(10 + 3 * len(vessel.rows), "Every board, before any rip."),
        bench.plane_stock(10 + 2 * len(vessel.rows), detail),
    ]


def _panels(vessel: Vessel, shop: Shop) -> list[Step]:
    found = []
    if len(vessel.rows) > 1:
        found += _glued_panel(
            "wall-panel",
            "wall panel",
            len(vessel.rows) * vessel.panels,
            f"From the bottom up: {', '.join(name for name, _ in vessel.rows)}.",
            shop_text(vessel.wall, shop),
        )
    else:
        found.append(_planed("wall", "wall stock", vessel.wall, shop))
    if vessel.has_base and vessel.base_strip_count > 1:
        found += _glued_panel(
            "base-panel",
            "base panel",
            vessel.base_strip_count,
            "Turn the strips until the grain runs one way.",
            shop_text(vessel.base_thickness, shop),
        )
    elif vessel.has_base:
        found.append(_planed("base", "base stock", vessel.base_thickness, shop))
    return found


def _planed(key: str, name: str, thickness: Length, shop: Shop) -> Step:
    return Step(
        key=f"plane-{key}",
        name=f"Plane the {name} to {shop_text(thickness, shop)}",
        tool="thickness planer",
        bench_minutes=10,
        cautions=bench.PLANER,
    )


def _glued_panel(
    key: str, name: str, strips: int, order: str, thickness: str
) -> list[Step]:
    return [
        Step(
            key=f"rip-{key}",
            name=f"Rip the strips for the {name}",
            tool="table saw",
            set_up=f"rip-{key}",
            bench_minutes=8 + 3 * strips,
        ),
        Step(
            key=f"joint-{key}",
            name=f"Joint the edges of the strips for the {name}",
            tool="jointer",
            detail="Both edges down to the finished width; joints shut without clamps.",
            bench_minutes=5 + 2 * strips,
            cautions=("jointer.hands-over-cutter", "jointer.guard-missing"),
        ),
        Step(
            key=f"glue-{key}",
            name=f"Glue up the {name}",
            tool="clamps",
            detail=f"{order} Clean off the squeeze-out before it is hard.",
            bench_minutes=15 + 2 * strips,
            waits=(bench.UNCLAMP, bench.BEFORE_PLANING),
            cautions=bench.GLUE_CAUTIONS,
            supplies=(bench.GLUE,),
        ),
        Step(
            key=f"plane-{key}",
            name=f"Plane the {name} to {thickness}",
            tool="thickness planer",
            detail="Scrape off any glue first: it dulls the knives. Take both faces.",
            bench_minutes=15,
            cautions=bench.PLANER,
        ),
    ]


def _walls(vessel: Vessel) -> list[Step]:
    bevel, sides = geometry.edge_bevel(vessel.sides), vessel.sides
    groove = Step(
        key="groove",
        name=f"Cut the {vessel.base} for the base",
        tool="table saw",
        detail="Along the inside face"
        + (", while the walls are still one length." if len(vessel.rows) > 1 else "."),
        set_up="groove",
        bench_minutes=20,
    )
    plain = [
        Step(
            key="cut-walls",
            name=f"Cut {sides} walls square",
            tool="crosscut sled",
            detail="Square one end first. Number the walls as they come off.",
            set_up="cut-walls",
            bench_minutes=10 + 2 * sides,
        ),
        Step(
            key="bevel",
            name=f"Bevel both ends of every wall at {bevel}",
            tool="mitre gauge",
            detail="Two scraps held together first; then creep up to the corner.",
            set_up="bevel",
            bench_minutes=20 + 3 * sides,
        ),
        Step(
            key="dry-fit",
            name="Tape the walls and close them dry",
            tool="clamps",
            detail="Outside up against a straight edge, tape over every joint, roll "
            "closed. Mend the bevel now if the last joint gapes.",
            bench_minutes=10,
            cautions=("clamps.strap-under-load",),
            supplies=(bench.TAPE,),
        ),
    ]
    return [groove, *plain] if vessel.housed else plain


def _base(vessel: Vessel) -> list[Step]:
    if not vessel.has_base:
        return []
    return [
        Step(
            key="base",
            name=f"Cut the base to {vessel.sides} sides",
            tool="mitre gauge",
            detail="Measure the dry fit first and cut to it, not to the drawing.",
            set_up="base",
            bench_minutes=15 + 2 * vessel.sides,
        )
    ]


def _assembly(vessel: Vessel) -> list[Step]:
    inside = "the inside faces and the base" if vessel.has_base else "the inside faces"
    loose = {
        "groove": "Slide the base in dry: it must stay free to move. ",
        "rebate": "",
        "under": "",
        "none": "",
    }[vessel.base]
    found = [
        bench.sand(
            "sand-inside", f"Sand {inside}", 10 + 3 * vessel.sides, "Not the bevels."
        ),
        bench.finish(
            "finish-inside",
            f"Finish {inside}",
            15,
            "Tape the bevels: glue does not hold on finish.",
            bench.RECOAT,
        ),
        Step(
            key="assemble",
            name="Glue the walls together",
            tool="clamps",
            detail=f"{loose}Glue on every bevel, roll closed, band clamps top and "
            "bottom, then compare the distances across.",
            bench_minutes=25,
            waits=(bench.UNCLAMP, bench.BEFORE_PLANING),
            cautions=(*bench.GLUE_CAUTIONS, "clamps.strap-under-load"),
            supplies=(bench.GLUE, bench.TAPE),
        ),
    ]
    return found + _base_last(vessel)


def _base_last(vessel: Vessel) -> list[Step]:
    if vessel.base not in ("rebate", "under"):
        return []
    return [
        Step(
            key="fix-base",
            name="Fix the base",
            tool="clamps",
            detail="With screws in slotted holes, or glue only along a short middle "
            "piece, so that it can move across its grain.",
            bench_minutes=15,
            supplies=(Supply("screws"),),
        )
    ]


def _splines(vessel: Vessel) -> list[Step]:
    if not vessel.splines:
        return []
    count = vessel.sides * vessel.splines
    return [
        Step(
            key="spline-slots",
            name="Saw the slots for the splines",
            tool="table saw",
            detail="Only when the glue has its full strength.",
            set_up="splines",
            bench_minutes=20 + count,
        ),
        Step(
            key="spline-stock",
            name=f"Cut {count} splines",
            tool="hand saw",
            detail="Plane a strip until it slides in by hand, then cut triangles with "
            "the grain along the long edge, a little over size.",
            bench_minutes=15 + count,
            cautions=("hand-saw.work-slips",),
        ),
        Step(
            key="glue-splines",
            name="Glue in the splines",
            tool="clamps",
            bench_minutes=10 + count,
            waits=(bench.UNCLAMP,),
            supplies=(bench.GLUE,),
        ),
        Step(
            key="trim-splines",
            name="Trim the splines flush",
            tool="hand plane",
            detail="Saw off most, then plane from the corner inwards.",
            bench_minutes=10 + count,
            cautions=("hand-plane.cut-hand",),
        ),
    ]


def _outside(vessel: Vessel) -> list[Step]:
    return [
        bench.sand(
            "sand-outside",
            "Sand the outside and ease the edges",
            15 + 3 * vessel.sides,
            "Keep the corners crisp: a few strokes with a block.",
        ),
        bench.finish(
            "finish-1", "First coat outside", 15, "Thin, along the grain.", bench.RECOAT
        ),
        bench.finish(
            "finish-2",
            "Second coat outside",
            20,
            "Scuff lightly with P320 first, and wipe off the dust.",
            bench.BEFORE_USE,
        ),
    ]
