"""The box's machine set-ups in the order of work; common practice, no source.

The joints are cut before the grooves: a test joint shows where a groove would come
out, and every groove is cut from the edge that the joints were cut from.
"""

from __future__ import annotations

from dataclasses import replace

from app.core.forms._bench import shop_text
from app.core.forms._box import Box, Groove
from app.core.forms._box_inner_setups import (
    base_works,
    dados_works,
    dividers_works,
    lid_works,
)
from app.core.forms._box_joint_setups import joints
from app.core.forms._box_work import Work, fingers_named, walls_named
from app.core.forms._set_ups import (
    crosscut,
    groove,
    rip,
    rip_strips,
)
from app.core.forms._spline_work import spline_set_up
from app.core.forms._strip_panels import rip_panels
from app.core.length import Length
from app.core.part import GlueUp
from app.core.setup import SetUp
from app.core.shop import Shop

ROUTED = (
    *("router-table.stopped-cut", "router-table.feed-direction"),
    "router-table.small-part",
)


def panel_set_ups(panels: tuple[GlueUp, ...], shop: Shop) -> list[SetUp]:
    """The rips of all strips; their steps come with the panels'."""
    walls = [one for one in panels if one.key.startswith("wall_panel")]
    others = [one for one in panels if one not in walls]
    found = [rip_panels(walls, shop)] if walls else []
    return found + [rip_strips(one, shop) for one in others]


def works(box: Box, shop: Shop) -> list[Work]:
    """Every other setting with its step, up to the dry fit."""
    found = [*_walls(box, shop), *joints(box, shop)]
    for kind in ("base", "lid"):
        found += _grooves(box, kind, shop)
    if box.dividers and box.dividers.dado:
        found += dados_works(box, box.dividers, shop)
    found += base_works(box, shop)
    if box.lid:
        found += lid_works(box, box.lid, shop)
    if box.dividers:
        found += dividers_works(box, box.dividers, shop)
    return found


def spline_set_ups(box: Box, shop: Shop) -> list[SetUp]:
    """The slots for splines, cut when the box is glued."""
    return [spline_set_up(box.splines, box.kerf, shop, "box")] if box.splines else []


def _walls(box: Box, shop: Shop) -> list[Work]:
    high = shop_text(box.wall_height, shop)
    stock = "wall panels" if len(box.rows) > 1 else "boards for the walls"
    found = [
        Work(
            rip("rip-walls", f"Rip the {stock} to {high}.", box.wall_height, shop),
            f"Rip the walls to {high}",
            10,
            "All of them at one setting: the joints go by their width.",
        )
    ]
    if box.lid_groove:
        found += _lowered(box, box.lid_groove, shop)
    return [*found, _cut(box, "sides", 0, shop), _cut(box, "ends", 1, shop)]


def _lowered(box: Box, lid: Groove, shop: Shop) -> list[Work]:
    """The lowered end and the strip that stands on the lid make one whole end."""
    strip = box.wall_height - lid.low
    low, high = shop_text(lid.low, shop), shop_text(strip, shop)
    return [
        Work(
            rip("rip-lowered-end", f"Rip one end to {low}.", lid.low, shop),
            f"Rip the lowered end to {low}",
            5,
        ),
        Work(
            rip("rip-lid-strip", f"Rip a strip of {high} for the lid.", strip, shop),
            f"Rip the strip for the lid to {high}",
            5,
            "From wood of its own, so that the saw's kerf is not missing: lowered end "
            "and strip together are as high as the other end. Tape them edge to edge "
            "and cut them as one from here on.",
        ),
    ]


def _cut(box: Box, what: str, number: int, shop: Shop) -> Work:
    long = box.sawn_length(number)
    count = 2 + (box.spares if number else 0)
    size = shop_text(long, shop)
    more = ", the spares included" if number and box.spares else ""
    strip = " and the strip for the lid" if number and box.lid_groove else ""
    proud = ""
    if box.fingers:
        proud = (
            f" That is {shop_text(box.whisker, shop)} more at either end than they "
            "will be, for the fingers to stand proud until they are sanded flush."
        )
    set_up = crosscut(
        f"cut-{what}",
        f"Square one end, then cut {count} {what}{strip} {size} long against the "
        f"stop{more}, in their order round the box.{proud}",
        long,
        shop,
        check=f"Stood side by side the {what} are flush at both ends.",
    )
    return Work(
        set_up,
        f"Cut the {what} square to {size}",
        10 + 2 * count,
        "Number the walls round the box as they come off, and mark on each the outside "
        "and the lower edge: every later cut goes by these marks. Without the "
        "machine: a hand saw along a guide, and a shooting board.",
    )


def _grooves(box: Box, kind: str, shop: Shop) -> list[Work]:
    """Through grooves at the saw, those that would show stopped at the router."""
    one = box.base_groove if kind == "base" else box.lid_groove
    if one is None:
        return []
    shown = [number for number in range(4) if box.shows(number, one)]
    through = [number for number in range(4) if number not in shown]
    found = []
    if through:
        found.append(_through(box, kind, one, through, shop))
    if shown:
        found.append(_stopped(box, kind, one, shown, shop))
    return found


def _edge(box: Box, kind: str, one: Groove) -> tuple[str, Length]:
    """Which edge runs along the fence, and how far off it the groove begins."""
    if kind == "base":
        return "lower edge", one.low
    return "upper edge", box.wall_height - one.high


def _named(box: Box, kind: str) -> str:
    return "Rebate" if kind == "base" and box.base == "rebate" else "Groove"


def _through(box: Box, kind: str, one: Groove, walls: list[int], shop: Shop) -> Work:
    edge, up = _edge(box, kind, one)
    name, what = _named(box, kind), walls_named(box, walls, kind == "lid")
    wide = one.high - one.low
    set_up = groove(
        f"{kind}-groove",
        name,
        f"the inside of {what}",
        up,
        wide,
        box.groove_depth,
        box.kerf,
        shop,
        edge=edge,
    )
    set_up = replace(
        set_up,
        cuts=set_up.cuts + _hair(box, kind),
        check=f"{set_up.check[:-1]}; {_where(box, one, shop)}.",
    )
    thing = "base" if kind == "base" else "sliding lid"
    return Work(
        set_up,
        f"Cut the {name.lower()} for the {thing} in {what}",
        20,
        f"{_outcome(box, one)} Without the machine: a plough plane, or a router with "
        "an edge guide.",
    )


def _where(box: Box, one: Groove, shop: Shop) -> str:
    low, high = shop_text(one.low, shop), shop_text(one.high, shop)
    return f"on the walls it runs from {low} to {high} up from the lower edge"


def _outcome(box: Box, one: Groove) -> str:
    """Where the ends of a through groove are hidden."""
    if box.fingers:
        met = fingers_named(box.fingers.met(one.low, one.high))
        return (
            "It comes out in a notch, which the other wall fills: counted from below "
            f"with {met}."
        )
    if box.joint == "mitre":
        return "It may run out at the mitres: it meets its neighbour inside the corner."
    return "It may run out at the ends: the corner rebates hide it."


def _hair(box: Box, kind: str) -> str:
    """A base as wide as its grooves reach needs a little more of them."""
    if kind != "base" or box.base != "groove" or box.clearance.nm:
        return ""
    return (
        " Go a hair deeper than that: a base that meets the groove's bottom holds the "
        "corners open."
    )


def _stopped(box: Box, kind: str, one: Groove, walls: list[int], shop: Shop) -> Work:
    edge, up = _edge(box, kind, one)
    name, what = _named(box, kind).lower(), walls_named(box, walls, kind == "lid")
    wide, deep = (
        shop_text(one.high - one.low, shop),
        shop_text(box.groove_depth, shop),
    )
    open_end = ""
    if kind == "lid" and 0 in walls:
        open_end = (
            " In the sides it runs out at the lowered end, where the lid goes in: mark "
            "the sides as a pair, left and right."
        )
    set_up = SetUp(
        key=f"{kind}-groove-stopped",
        machine="router table",
        cuts=f"A straight bit no wider than {wide}. The {edge} along the fence: a "
        f"{name} {deep} deep, {wide} wide along the inside of {what}, from "
        f"{shop_text(box.groove_end + box.whisker, shop)} off one end of the wall "
        "to as far off the other, in several passes of depth. Clamp a stop block to "
        "the fence for either end; lower the piece against the rear one onto the bit, "
        "feed it to the other, and switch off before you lift it."
        f"{open_end} Square the ends with a chisel.{_hair(box, kind)}",
        tilt=None,
        fence=up,
        face_down=f"inside face, {edge} along the fence",
        check="On scrap its piece slides in by hand, and nothing shows at the end; "
        f"{_where(box, one, shop)}.",
        cautions=ROUTED,
    )
    thing = "base" if kind == "base" else "sliding lid"
    return Work(
        set_up,
        f"Cut the stopped {name} for the {thing} in {what}",
        30,
        f"{_why_stopped(box, one)} Or cut it through and glue a plug, its grain along "
        "the wall, into each hole that shows.",
    )


def _why_stopped(box: Box, one: Groove) -> str:
    if box.fingers:
        met = fingers_named(box.fingers.met(one.low, one.high))
        return f"Run through, it would leave a hole in {met}, counted from below."
    return "Deeper than the corner rebates, it would leave a hole in the lip."
