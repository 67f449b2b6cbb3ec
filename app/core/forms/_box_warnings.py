"""What the maker of a box is told before the wood is cut; common practice."""

from __future__ import annotations

from app.core.forms._bench import shop_text
from app.core.forms._box import Box, Groove
from app.core.forms._box_inputs import Inputs
from app.core.forms._box_refuse import up
from app.core.forms._box_work import fingers_named
from app.core.forms._patterned import pattern_warnings
from app.core.forms._spline_steps import spline_warnings
from app.core.length import NM_PER_INCH, Length, Unit, mm
from app.core.shop import Shop

# As high as a piece stands on its end in a jig before it wobbles.
TALLEST = mm(600)


def warnings(box: Box, inputs: Inputs, shop: Shop) -> tuple[str, ...]:
    """Sentences on what can go wrong, the most particular first."""
    found = [
        *_fingers(box, shop),
        *_grooves(box, shop),
        *_lid(box, shop),
        *_base(box, shop),
        *_dividers(box, shop),
        *_machines(box, shop),
        *pattern_warnings(inputs, box.pattern),
    ]
    if box.joint == "mitre":
        found += spline_warnings(box.splines, box.kerf, shop)
    return tuple(found)


def _fingers(box: Box, shop: Shop) -> list[str]:
    fingers = box.fingers
    if not fingers:
        return []
    found = []
    groove = box.base_groove
    if groove and box.base == "groove":
        met = fingers.met(groove.low, groove.high)
        if len(met) > 1:
            found.append(_straddles(box, groove, met, shop))
    if max(box.length, box.width) > TALLEST:
        tall = shop_text(max(box.length, box.width), shop)
        found.append(
            f"A piece {tall} long stands on its end while its fingers are cut: give "
            "the jig a fence as high as you can and clamp it, or cut these by hand."
        )
    return found


def _straddles(box: Box, groove: Groove, met: tuple[int, ...], shop: Shop) -> str:
    start = (
        f"The base's groove runs into {fingers_named(met)} from below, so it must be "
        "stopped in the sides and in the ends."
    )
    fingers = box.fingers
    assert fingers
    thick = groove.high - groove.low
    # On a mark of the tape that is not below the finger's own.
    low = up(Length(fingers.marks[met[-1]]), shop, _shown(shop))
    if (low + thick).nm <= fingers.marks[met[-1] + 1]:
        at = shop_text(low, shop)
        return f"{start} With its lower side {at} up it stays in one finger."
    return f"{start} It is wider than a finger: wider fingers would hold it."


def _shown(shop: Shop) -> Length:
    """The finest mark that the display shows."""
    if shop.display.unit is Unit.MILLIMETRE:
        return mm("0.1")
    return Length(NM_PER_INCH // shop.display.denominator)


def _grooves(box: Box, shop: Shop) -> list[str]:
    found = []
    grooved = box.base_groove or box.lid_groove
    if grooved and box.groove_depth * 3 > box.wall * 2:
        found.append(
            f"The grooves take {shop_text(box.groove_depth, shop)} of walls "
            f"{shop_text(box.wall, shop)} thick. About half the wall is usual."
        )
    if box.joint == "rebate" and box.rebate_depth * 4 > box.wall * 3:
        lip = shop_text(box.wall - box.rebate_depth, shop)
        found.append(f"The lip left by the corner rebates is only {lip} thick.")
    narrow = {"base": box.base_size.thickness} if box.base_groove else {}
    if box.lid and box.lid.groove:
        narrow["sliding lid"] = box.lid.size.thickness
    found += [
        f"The {name}, {shop_text(thick, shop)} thick, would be loose in a sawn groove: "
        f"one pass of the blade is {shop_text(box.kerf, shop)} wide. Use a thinner "
        "blade or a router bit."
        for name, thick in narrow.items()
        if thick < box.kerf
    ]
    return found


def _lid(box: Box, shop: Shop) -> list[str]:
    lid, found = box.lid, list[str]()
    if not lid:
        return found
    groove = lid.groove
    if not groove:
        if lid.kind == "rebated" and lid.size.width > mm(250):
            found.append(
                "A lid of solid wood this wide cups in dry air. Battens across its "
                "underside hold it flat."
            )
        return found
    if box.fingers and box.shows(0, groove):
        met = [i for i in box.fingers.met(groove.low, groove.high) if i % 2 == 0]
        found.append(
            "Beside the lowered end the lid's grooves show in the ends of the sides, "
            f"in {fingers_named(met)} from below: the lid goes in there."
        )
    above = box.wall_height - groove.high
    if above < mm(3):
        found.append(
            f"Only {shop_text(above, shop)} of wood hold the sliding lid down; it "
            "splits off easily."
        )
    if lid.size.width > lid.size.length:
        found.append(
            "The lid is wider than it is long, and jams like a short, wide drawer: "
            "let it slide the long way."
        )
    return found


def _base(box: Box, shop: Shop) -> list[str]:
    if box.plywood or box.base == "groove":
        return []
    where = "under the walls" if box.base == "under" else "in a rebate"
    return [
        (
            f"A solid base glued all round {where} cannot move across its grain: it "
            "splits, or opens the corners. Fix it with screws in slots, or make it of "
            "plywood."
        )
    ]


def _dividers(box: Box, shop: Shop) -> list[str]:
    dividers, found = box.dividers, list[str]()
    if not dividers:
        return found
    if dividers.dado * 3 > box.wall:
        found.append(
            f"Dados {shop_text(dividers.dado, shop)} deep weaken walls "
            f"{shop_text(box.wall, shop)} thick: a quarter of the wall holds a divider."
        )
    if dividers.dado and dividers.thickness < box.kerf:
        found.append(
            f"Dividers {shop_text(dividers.thickness, shop)} thick would be loose in "
            f"dados one pass of the blade wide, {shop_text(box.kerf, shop)}."
        )
    return found


def _machines(box: Box, shop: Shop) -> list[str]:
    if min(box.cut_length(0), box.cut_length(1)) >= mm(300):
        return []
    return [
        (
            "Some walls are shorter than 300 mm (12 in), too short to hold by hand at "
            "most machines: clamp them to the sled or the jig."
        )
    ]
