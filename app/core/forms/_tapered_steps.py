"""The tapered vessel's steps in bench order.

Times at the bench and the order are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from app.core.angle import Angle
from app.core.forms import _bench as bench
from app.core.forms._bench import shop_text
from app.core.forms._strip_panels import panel_steps
from app.core.forms._tapered import Tapered
from app.core.forms._tapered_assembly import assembly, inside, outside
from app.core.forms._tapered_inputs import Inputs
from app.core.forms._tapered_parts import BASE_PANEL
from app.core.geometry import edge_bevel
from app.core.part import Dimensions, GlueUp
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.step import Step


def steps(
    vessel: Tapered,
    inputs: Inputs,
    glue_ups: tuple[GlueUp, ...],
    set_ups: tuple[SetUp, ...],
    shop: Shop,
) -> tuple[Step, ...]:
    """Every operation, from rough boards to the last coat."""
    found = [
        *_stock(vessel, shop),
        *_panels(vessel, glue_ups, shop),
        *_walls(vessel, set_ups, shop),
        *_dry_fit(vessel, shop),
        *_base(vessel),
        *inside(vessel, inputs),
        *assembly(vessel, shop),
        *outside(vessel, inputs),
    ]
    known = {set_up.key: set_up for set_up in set_ups}
    return tuple(_with_set_up(step, known) for step in found)


def _with_set_up(step: Step, known: dict[str, SetUp]) -> Step:
    """A step is done on its set-up's machine and carries its cautions."""
    if step.set_up not in known:
        return replace(step, set_up="")
    made = known[step.set_up]
    keys = tuple(dict.fromkeys((*step.cautions, *made.cautions)))
    return replace(step, tool=made.machine, cautions=keys)


def _stock(vessel: Tapered, shop: Shop) -> list[Step]:
    over = vessel.allowed.of("wall").thickness
    rough = shop_text(vessel.wall + over, shop)
    spare = " Cut the spares along: test cuts use them up." if vessel.spares else ""
    detail = (
        f"Leave the wall stock at {rough}: over size by {shop_text(over, shop)}, which "
        f"the last planing takes.{spare}"
    )
    count = len(vessel.pattern.rows)
    return [
        bench.joint_stock(
            10 + 3 * count,
            "Every board, before any rip. Without a jointer a dealer surfaces it for a "
            "fee, or use a hand plane and winding sticks.",
        ),
        bench.plane_stock(10 + 2 * count, detail),
    ]


def _panels(
    vessel: Tapered, glue_ups: tuple[GlueUp, ...], shop: Shop
) -> Iterable[Step]:
    walls = [one for one in glue_ups if one.key != BASE_PANEL]
    if walls:
        for step in panel_steps(walls, shop):
            yield _to_size(step, vessel, shop)
    else:
        finished = Dimensions(vessel.face_long, vessel.across, vessel.wall)
        yield bench.planed("plane-wall", "wall stock", finished, shop)
    yield from _base_stock(vessel, shop)


def _to_size(step: Step, vessel: Tapered, shop: Shop) -> Step:
    """The panels are planed to the wall, whatever they measured when glued."""
    if step.key != "plane-wall-panel":
        return step
    long = vessel.panels[0].length
    panel = Dimensions(long, vessel.across, vessel.wall)
    name = "wall panels" if vessel.ways[0].count > 1 else "wall panel"
    return bench.planed(step.key, name, panel, shop, glued=True)


def _base_stock(vessel: Tapered, shop: Shop) -> list[Step]:
    if not vessel.has_base:
        return []
    blank = vessel.base_blank
    size = Dimensions(blank, blank, vessel.base_thickness)
    if vessel.base_strip_count == 1:
        return [bench.planed("plane-base", "base stock", size, shop)]
    order = "Turn the strips until the grain runs one way."
    count = vessel.base_strip_count
    return bench.glued_panel("base-panel", "base panel", count, order, shop, size)


def _walls(vessel: Tapered, set_ups: tuple[SetUp, ...], shop: Shop) -> Iterable[Step]:
    keys = {one.key: one.machine for one in set_ups}
    count = vessel.sides + vessel.spares
    if "edges" in keys:
        slope = f"bevelled {vessel.slope}" if vessel.bevelled else "square"
        whole = vessel.glued and vessel.bevelled
        yield Step(
            key="edges",
            name=f"{_edge_work(keys['edges'])} both long edges of the walls, {slope}",
            tool="table saw",
            detail="While the panel is whole."
            if whole
            else "While the stock is long: a piece shorter than 300 mm (12 in) is too "
            "short to rip.",
            set_up="edges",
            cautions=() if whole else ("powered-machine.short-stock",),
            bench_minutes=15 + (0 if whole else count),
        )
    if "cut-walls" in keys:
        yield Step(
            key="cut-walls",
            name=f"Cut {count} walls square, as long as their longer edge",
            tool="crosscut sled",
            detail="Square one end first. Number the walls as they come off, and mark "
            f"the outer face and the upper edge of each.{_turned(vessel)}",
            set_up="cut-walls",
            bench_minutes=10 + 2 * count,
        )
    yield from _mitres(vessel, keys, count, shop)


def _mitres(
    vessel: Tapered, keys: Mapping[str, str], count: int, shop: Shop
) -> Iterable[Step]:
    at = f"tilt {vessel.tilt}, gauge {vessel.gauge}"
    names = {
        "mitres": f"Mitre both ends of every wall: {at}",
        "first-mitres": f"Mitre one end of every wall: {at}",
        "second-mitres": f"Mitre the other end of every wall: {at}",
    }
    for key, name in names.items():
        if key in keys:
            yield Step(
                key=key,
                name=name,
                tool="mitre gauge",
                detail=_mitre_detail(vessel, key, shop),
                set_up=key,
                bench_minutes=15 + 3 * count,
            )


def _turned(vessel: Tapered) -> str:
    """Which walls are rolled over, so that their strips read the other way."""
    sides = sorted(side for panel in vessel.panels for side in panel.turned)
    if not sides:
        return ""
    named = ", ".join(str(side + 1) for side in sides)
    return (
        f" Roll over about their length, inside out: {named}; their strips then read "
        "from the other edge."
    )


def _edge_work(machine: str) -> str:
    return "Plane" if machine == "hand plane" else "Rip"


def _mitre_detail(vessel: Tapered, key: str, shop: Shop) -> str:
    if key == "second-mitres":
        return "Try the first two against each other before you cut the rest."
    hand = (
        f"By hand: prop the wall at its slope in a mitre box and saw "
        f"{edge_bevel(vessel.sides)} from square, the saw upright, or plane to a bevel "
        f"gauge at {Angle(90 - vessel.tilt.degrees)} off the outer face."
    )
    if vessel.head_to_tail and not vessel.glued:
        walls = vessel.sides + vessel.spares
        long = shop_text(vessel.run(walls), shop)
        hand = (
            f"Leave the board whole: {long} holds all {walls} walls. Every second wall "
            f"comes off upside down: choose the faces first. {hand}"
        )
    return f"Mark inside and outside on every wall; prove it on scrap. {hand}"


def _dry_fit(vessel: Tapered, shop: Shop) -> list[Step]:
    line = "in a fan, tip to tip" if vessel.gauge.degrees else "against a straight edge"
    long = shop_text(vessel.face_long, shop)
    how = "across the flats" if vessel.sides % 2 == 0 else "twice from middle to flat"
    top, bottom = (
        shop_text(one, shop) for one in (vessel.inside_top, vessel.inside_bottom)
    )
    measures = f"Inside, {how}, it measures {top} at the top, {bottom} at the bottom"
    return [
        Step(
            key="dry-fit",
            name="Tape the walls and close them dry",
            tool="clamps",
            detail=f"Outside up, {line}, the edges of {long} all on one side. Tape "
            "over every joint, turn the lot over and roll it closed. A joint open "
            "inside wants less tilt, one open outside more; open at one end only, look "
            f"at the gauge. Mend it now. {measures}.",
            bench_minutes=15,
            cautions=("clamps.strap-under-load",),
            supplies=(bench.TAPE,),
        )
    ]


def _base(vessel: Tapered) -> list[Step]:
    if not vessel.has_base:
        return []
    fit = "Measure the dry fit first and cut to it, not to the drawing."
    if vessel.inside_base:
        end = "above" if vessel.out else "below"
        fit += f" Try it in from {end}: it stops where the walls are as wide as it is."
    return [
        Step(
            key="base",
            name=f"Cut the base to {vessel.sides} sides",
            tool="mitre gauge",
            detail=fit,
            set_up="base",
            bench_minutes=15 + 2 * vessel.sides,
        )
    ]
