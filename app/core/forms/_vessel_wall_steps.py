"""From a planed panel to walls that close: the straight vessel's own bench work."""

from __future__ import annotations

from app.core import geometry
from app.core.forms import _bench as bench
from app.core.forms._bench import shop_text
from app.core.forms._vessel import Vessel
from app.core.shop import Shop
from app.core.step import Step


def wall_steps(vessel: Vessel, shop: Shop) -> list[Step]:
    """Groove, square cuts, bevels, and the dry fit that proves them."""
    found = [] if vessel.glued else [_rip_walls()]
    if vessel.housed:
        found.append(_groove(vessel, shop))
    return [*found, _cut_walls(vessel), _bevel(vessel), _dry_fit(vessel)]


def _rip_walls() -> Step:
    return Step(
        key="rip-walls",
        name="Rip the wall stock to the height of the walls",
        tool="table saw",
        detail="A shaving off the sawn edge afterwards: it is the upper one. By hand: "
        "saw along a line and plane to it.",
        set_up="rip-walls",
        bench_minutes=12,
    )


def _groove(vessel: Vessel, shop: Shop) -> Step:
    depth, wall = vessel.groove_depth, vessel.wall
    half = " about half the wall" if abs(depth * 2 - wall) * 5 <= wall else ""
    length = (
        "while the walls are still one length"
        if vessel.glued
        else "while the board is still long, before it is cut into walls"
    )
    return Step(
        key="groove",
        name=f"Cut the {vessel.base} for the base",
        tool="table saw",
        detail=f"Along the inside face, {length}: {shop_text(depth, shop)} deep,"
        f"{half or ' as drawn'}. By hand: a plough plane against its fence, both "
        "lines knifed first.",
        set_up="groove",
        bench_minutes=20,
    )


def _cut_walls(vessel: Vessel) -> Step:
    order = "Number the walls as they come off."
    if vessel.panel_count == 1:
        order = (
            "Number the walls as they come off: in that order the grain runs on round "
            "the corners."
        )
    elif not vessel.alike:
        order = "Write each wall's panel and number on its inside face."
    spare = " The spare is cut with them." if vessel.cut.spares else ""
    return Step(
        key="cut-walls",
        name=f"Cut {vessel.sides} walls square",
        tool="crosscut sled",
        detail=f"Square one end first. {order}{spare} By hand: knife the lines, saw "
        "outside them, and true the ends on a shooting board.",
        set_up="cut-walls",
        bench_minutes=10 + 2 * vessel.sides,
    )


def _bevel(vessel: Vessel) -> Step:
    angle = geometry.edge_bevel(vessel.sides)
    first = (
        "The spare wall, sawn in two, first: its bevelled ends held together"
        if vessel.cut.spares
        else "Two scraps of wall stock first: held together they"
    )
    return Step(
        key="bevel",
        name=f"Bevel both ends of every wall at {angle}",
        tool="mitre gauge",
        detail=f"{first} make the corner. Then creep up on "
        "each end until the blade just reaches the outer corner. By hand: a shooting "
        f"board whose bed leans {angle}.",
        set_up="bevel",
        bench_minutes=20 + 3 * vessel.sides,
    )


def _dry_fit(vessel: Vessel) -> Step:
    return Step(
        key="dry-fit",
        name="Tape the walls and close them dry",
        tool="clamps",
        detail="Outside up against a straight edge, tape over every joint, turn over "
        "and roll closed. Mend the bevel now if a joint gapes: open outside, "
        "tilt the blade a little more; open inside, a little less.",
        bench_minutes=10,
        cautions=("clamps.strap-under-load",),
        supplies=(bench.TAPE,),
    )
