"""From what was typed to a box that can be built, or the reason it cannot."""

from __future__ import annotations

from dataclasses import replace

from app.core.corner_splines import Room
from app.core.forms._bench import shop_text
from app.core.forms._box import NONE, WIDEST_STRIP, Box, Groove, Lid
from app.core.forms._box_fingers import LEAST, MOST, Fingers, most_fingers, whisker
from app.core.forms._box_inputs import Inputs
from app.core.forms._box_refuse import down, near, up
from app.core.forms._box_within import dividers_of
from app.core.forms._patterned import read_pattern
from app.core.forms._splined import Corners, read_splines
from app.core.inputs import refuse
from app.core.length import Length, inches
from app.core.part import Dimensions
from app.core.shop import Shop

# Room for a solid base at each edge: common practice, no source.
SWELLS = inches("1/16")


def resolve(inputs: Inputs, shop: Shop) -> Box:
    """Inputs to a box that can be built, or the refusal that says why not."""
    _prove_walls(inputs, shop)
    pattern = read_pattern(inputs, 4, inputs.strip_rows)
    height = _wall_height(inputs, shop)
    depth = inputs.groove_depth or inputs.wall / 2
    first, last = pattern.rows[0][0], pattern.rows[-1][0]
    box = Box(
        length=inputs.length,
        width=inputs.width,
        height=inputs.height,
        wall=inputs.wall,
        joint=inputs.joint,
        fingers=_fingers(inputs, height, shop) if inputs.joint == "finger" else None,
        cutter=inputs.cutter,
        whisker=whisker(shop.unit) if inputs.joint == "finger" else NONE,
        rebate_depth=inputs.rebate_depth or inputs.wall / 2,
        rebate_on=inputs.rebate_on,
        base=inputs.base,
        base_size=_base_size(inputs, depth),
        base_up=inputs.groove_up if inputs.base == "groove" else NONE,
        groove_depth=depth,
        clearance=clearance(inputs),
        plywood=inputs.base_material == "plywood",
        base_species=_base_species(inputs, first),
        base_strips=_base_strips(inputs, depth),
        pattern=pattern,
        kerf=inputs.kerf or shop.kerf,
        lid=_lid(inputs, height, depth, last),
        dividers=None,
        splines=None,
        spline_share=inputs.spline_depth_share,
        sawn=inputs.sawn,
        spares=inputs.spares,
        coats=inputs.coats,
        finish=inputs.finish,
    )
    _prove_grooves(box, shop)
    _prove_heights(box, shop)
    return _with_more(box, inputs, shop)


def _with_more(box: Box, inputs: Inputs, shop: Shop) -> Box:
    """Dividers and splines, which go by what the box already is."""
    box = replace(box, dividers=dividers_of(box, inputs, shop))
    if box.joint != "mitre":
        if inputs.splines_per_corner:
            message = (
                "Splines go across mitred corners; "
                f"{box.joint} joints hold without them."
            )
            raise refuse("splines_per_corner", message, "0")
        return box
    return replace(box, splines=read_splines(inputs, _corners(box), shop))


def _corners(box: Box) -> Corners:
    """What splines must know; a lid's strip slides away above them."""
    taken = box.base_groove
    high = box.lid_groove.low if box.lid_groove else box.wall_height
    return Corners(
        sides=4,
        wall=box.wall,
        side=min(box.length, box.width),
        room=Room(NONE, high, ((taken.low, taken.high),) if taken else ()),
        species=box.pattern.rows[-1][0],
        widths=box.rows if len(box.rows) > 1 else (),
    )


def _prove_walls(inputs: Inputs, shop: Shop) -> None:
    across = min(inputs.length, inputs.width)
    if across <= inputs.wall * 3:
        message = (
            f"Walls {shop_text(inputs.wall, shop)} thick leave no room in a box "
            f"{shop_text(across, shop)} across."
        )
        raise refuse("wall", message, near(down(across / 6, shop), shop))
    rebated = inputs.joint == "rebate" and inputs.rebate_depth
    if rebated and rebated >= inputs.wall:
        message = (
            f"A rebate {shop_text(rebated, shop)} deep cuts the wall "
            f"through; it is {shop_text(inputs.wall, shop)} thick."
        )
        raise refuse("rebate_depth", message, near(inputs.wall / 2, shop))
    used = inputs.base != "under" or inputs.lid == "sliding"
    if used and inputs.groove_depth and inputs.groove_depth >= inputs.wall:
        message = (
            f"A groove {shop_text(inputs.groove_depth, shop)} deep cuts the wall "
            f"through; it is {shop_text(inputs.wall, shop)} thick."
        )
        raise refuse("groove_depth", message, near(inputs.wall / 2, shop))


def _wall_height(inputs: Inputs, shop: Shop) -> Length:
    if inputs.base != "under":
        return inputs.height
    height = inputs.height - inputs.base_thickness
    if height * 2 <= inputs.height:
        message = (
            f"A base {shop_text(inputs.base_thickness, shop)} thick under the walls "
            f"leaves little of a height of {shop_text(inputs.height, shop)}."
        )
        raise refuse(
            "base_thickness", message, near(down(inputs.height / 8, shop), shop)
        )
    return height


def _fingers(inputs: Inputs, height: Length, shop: Shop) -> Fingers:
    """The layout: the largest odd count whose fingers are no narrower than asked."""
    least = inputs.cutter * inputs.finger_passes
    count = most_fingers(height, least)
    high = shop_text(height, shop)
    if count < LEAST:
        wide = shop_text(least, shop)
        message = (
            f"Fingers {wide} wide do not go three times into walls {high} high, and "
            "fewer make no joint."
        )
        passes = height.nm // (inputs.cutter.nm * LEAST)
        if inputs.finger_passes > 1 and passes:
            raise refuse("finger_passes", message, str(passes))
        fits = down(Length(height.nm // (LEAST * inputs.finger_passes)), shop)
        raise refuse("cutter", message, near(fits, shop))
    if count > MOST:
        message = (
            f"A cutter of {shop_text(inputs.cutter, shop)} makes {count} fingers in "
            f"walls {high} high; more than {MOST} are past all patience."
        )
        fits = up(height / (MOST * inputs.finger_passes), shop)
        raise refuse("cutter", message, near(fits, shop))
    return Fingers(height, inputs.cutter, least, count)


def clearance(inputs: Inputs) -> Length:
    """What the base may grow at each edge: plywood hardly does."""
    if inputs.base_clearance is not None:
        return inputs.base_clearance
    return NONE if inputs.base_material == "plywood" else SWELLS


def _base_size(inputs: Inputs, depth: Length) -> Dimensions:
    thick = inputs.base_thickness
    if inputs.base == "under":
        return Dimensions(inputs.length, inputs.width, thick)
    out = inputs.wall - depth + clearance(inputs)
    return Dimensions(inputs.length - out * 2, inputs.width - out * 2, thick)


def _base_species(inputs: Inputs, first: str) -> str:
    if inputs.base_species and len(inputs.base_species) > 1:
        message = f"The base is of one wood, not {len(inputs.base_species)}."
        raise refuse("base_species", message, inputs.base_species[0])
    if inputs.base_species:
        return inputs.base_species[0]
    return "plywood" if inputs.base_material == "plywood" else first


def _base_strips(inputs: Inputs, depth: Length) -> int:
    if inputs.base_material == "plywood":
        return 1
    return inputs.base_strips or _strips(_base_size(inputs, depth).width)


def _strips(width: Length) -> int:
    return -(-width.nm // WIDEST_STRIP.nm)


def _lid(inputs: Inputs, height: Length, depth: Length, last: str) -> Lid | None:
    if inputs.lid == "none":
        return None
    if inputs.lid_species and len(inputs.lid_species) > 1:
        message = f"The lid is of one wood, not {len(inputs.lid_species)}."
        raise refuse("lid_species", message, inputs.lid_species[0])
    thick, room = inputs.lid_thickness, inputs.lid_room
    inside = [one - inputs.wall * 2 for one in (inputs.length, inputs.width)]
    size, groove, lip = Dimensions(inputs.length, inputs.width, thick), None, NONE
    if inputs.lid == "sliding":
        high = height - inputs.lid_down
        groove = Groove(high - thick, high)
        out = inputs.wall - depth
        # From the far groove's floor to that of the strip at the lowered end.
        size = Dimensions(
            inputs.length - out * 2, inputs.width - (out + room) * 2, thick
        )
    else:
        lip = inputs.lid_lip or thick / 2
    return Lid(
        kind=inputs.lid,
        size=size,
        lip=lip,
        room=room,
        plug=(inside[0] - room * 2, inside[1] - room * 2),
        species=inputs.lid_species[0] if inputs.lid_species else last,
        strips=inputs.lid_strips or _strips(size.width),
        groove=groove,
    )


def _prove_grooves(box: Box, shop: Shop) -> None:
    """The base reaches into its groove, the lid into its own."""
    depth = shop_text(box.groove_depth, shop)
    if box.base != "under" and box.clearance >= box.groove_depth:
        message = (
            f"With {shop_text(box.clearance, shop)} of room at each edge the base "
            f"falls out of a {box.base} {depth} deep."
        )
        raise refuse("base_clearance", message, near(box.groove_depth / 4, shop))
    lid = box.lid
    if not lid:
        return
    if lid.groove and lid.room >= box.groove_depth:
        message = (
            f"With {shop_text(lid.room, shop)} of room at each edge the lid falls out "
            f"of a groove {depth} deep."
        )
        raise refuse("lid_room", message, near(box.groove_depth / 4, shop))
    if min(lid.plug) * 2 <= min(box.inside_length, box.inside_width):
        message = "So much room at its edges leaves nothing of the lid inside the box."
        least = min(box.inside_length, box.inside_width)
        raise refuse("lid_room", message, near(down(least / 16, shop), shop))
    if lid.kind == "rebated" and lid.lip >= lid.size.thickness:
        message = (
            f"A rebate {shop_text(lid.lip, shop)} deep cuts the lid through; it is "
            f"{shop_text(lid.size.thickness, shop)} thick."
        )
        raise refuse("lid_lip", message, near(lid.size.thickness / 2, shop))


def _prove_heights(box: Box, shop: Shop) -> None:
    """Something is left between base and lid, and above a sliding lid's groove."""
    least = box.wall_height / 8
    if box.inside_height >= least:
        return
    room = box.wall_height - least
    groove = box.lid_groove
    if groove and box.wall_height - groove.low > box.wall_height / 2:
        message = (
            "The lid and the wood above its groove take "
            f"{shop_text(box.wall_height - groove.low, shop)} of walls "
            f"{shop_text(box.wall_height, shop)} high."
        )
        thick = box.lid.size.thickness if box.lid else NONE
        free = room - box.base_top
        key = (
            "lid_thickness" if thick * 2 >= box.wall_height - groove.low else "lid_down"
        )
        other = box.wall_height - groove.low - thick
        fits = free - (other if key == "lid_thickness" else thick)
        raise refuse(key, message, _some(fits, shop))
    if box.lid and box.lid.lip * 2 > box.wall_height:
        message = (
            f"A lid that reaches {shop_text(box.lid.lip, shop)} into walls "
            f"{shop_text(box.wall_height, shop)} high meets the base."
        )
        raise refuse("lid_lip", message, _some(room - box.base_top, shop))
    message = (
        f"With its upper face {shop_text(box.base_top, shop)} up the base leaves no "
        f"room inside; above it only {shop_text(box.ceiling, shop)} are free."
    )
    thick = box.base_size.thickness
    key = "base_thickness" if thick >= box.base_up else "groove_up"
    other = box.base_up if key == "base_thickness" else thick
    raise refuse(key, message, _some(box.ceiling - least - other, shop))


def _some(length: Length, shop: Shop) -> str:
    """A length to try instead, as typed; empty where there is none."""
    fits = down(length, shop)
    return near(fits, shop) if fits > NONE else ""
