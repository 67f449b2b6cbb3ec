"""The staves' machine set-ups, in the order they are made.

Every stave lies on its inner face and the blade tilts away from the fence: the
sharp tip stands up along the fence, where it cannot creep under, and the waste falls
free on the far side. Common practice, no source.
"""

from __future__ import annotations

from app.core.angle import Angle
from app.core.forms import _turned_bottom as under
from app.core.forms._bench import shop_text
from app.core.forms._set_ups import RIP, crosscut, rip
from app.core.forms._stave import Cylinder
from app.core.inputs import refuse
from app.core.length import Length
from app.core.setup import SetUp
from app.core.shop import Shop

BEVEL = (*RIP, "table-saw.narrow-bevel", "table-saw.blade-tilts-to-fence")


def set_ups(made: Cylinder, shop: Shop) -> tuple[SetUp, ...]:
    """Rip, bevel one edge, bevel the other, cut to length; the bottom's strips."""
    found = [
        _rip(made, shop),
        _bevel(made, shop, "first"),
        _bevel(made, shop, "second"),
        _length(made, shop),
    ]
    if made.bottom is not None:
        found += under.set_ups(made.bottom, made.allowances, shop)
    return tuple(found)


def counted(made: Cylinder) -> str:
    """``6 of walnut and 6 of maple``, spares told apart."""
    told = " and ".join(f"{count} of {wood}" for wood, count in made.kinds.items())
    return f"{told}, {made.spares} spare" if made.spares else told


def _lengths(made: Cylinder, shop: Shop) -> str:
    """In what lengths staves are ripped: none so short that it tips."""
    many = made.in_one(shop.shortest_jointed)
    if many == 1:
        return ""
    least = shop_text(shop.shortest_jointed, shop)
    told = f"In lengths of {many} staves: none shorter than {least} at the saw."
    return f" {told}"


def _rip(made: Cylinder, shop: Shop) -> SetUp:
    width = shop_text(made.blank_width, shop)
    cuts = f"Rip the staves square to {width}: {counted(made)}.{_lengths(made, shop)}"
    return rip("rip-staves", cuts, made.blank_width, shop)


def _bevel(made: Cylinder, shop: Shop, which: str) -> SetUp:
    if made.bevel > shop.most_tilt:
        return _in_a_jig(made, shop, which)
    second = which == "second"
    fence = made.second_fence if second else made.first_fence
    how = (
        "Turn each end for end, the tip of its bevelled edge on the fence."
        if second
        else "Creep up until the blade just reaches the edge of the outer face."
    )
    width = shop_text(made.width, shop)
    closes = (
        _closes(made)
        if second
        else ("The bevel runs out at the outer face without taking from its width.")
    )
    checked = f"The outer face is {width} wide at both ends. {closes}"
    return SetUp(
        key=f"bevel-{which}",
        machine="table saw",
        cuts=f"Bevel the {which} edge of every stave at {made.bevel}, the blade tilted "
        f"away from the fence. {how} A feather board holds it to the fence, a push "
        "block carries it past.",
        tilt=made.bevel,
        fence=fence,
        face_down="inner face, outer face up",
        check=checked if second else closes,
        cautions=BEVEL,
    )


def _closes(made: Cylinder) -> str:
    count = made.staves
    dry = f"{count} test slices taped outside up roll closed without a gap"
    if count % 2 == 0:
        dry += f"; {count // 2} of them stand with both ends on one straightedge"
    return f"{dry}."


def _in_a_jig(made: Cylinder, shop: Shop, which: str) -> SetUp:
    """Beyond the blade's tilt: on edge against a tall fence, the rest of 90°."""
    rest = Angle(90 - made.bevel.degrees)
    if rest > shop.most_tilt:
        enough = -(-180 // shop.most_tilt.degrees) if shop.most_tilt.degrees else 99
        raise refuse(
            "staves",
            f"{made.staves} staves need a bevel of {made.bevel}. The blade tilts to "
            f"{shop.most_tilt}, and in a jig it would still have to tilt {rest}. More "
            "staves need less.",
            str(int(enough)) if enough <= 24 else "",
        )
    again = (
        _closes(made)
        if which == "second"
        else "The bevel runs out at the outer face without taking from its width."
    )
    return SetUp(
        key=f"bevel-{which}",
        machine="table saw",
        cuts=f"Bevel the {which} edge of every stave at {made.bevel}, more than the "
        "blade tilts. Build a tall jig that slides along the fence and clamps the "
        f"stave upright along its length, and tilt the blade to {rest}, the rest of a "
        "right angle. Creep up until the blade just reaches the outer face.",
        tilt=rest,
        face_down="the edge being cut, clamped upright in the jig, outer face to it",
        check=again,
        cautions=(*RIP[1:], "table-saw.cradle", "table-saw.blade-tilts-to-fence"),
    )


def _length(made: Cylinder, shop: Shop) -> SetUp:
    height: Length = made.height
    cuts = f"Square one end, then cut every stave {shop_text(height, shop)} long"
    # What no sled takes meets no stop either.
    stop = height <= shop.longest_crosscut
    return crosscut(
        "cut-staves",
        f"{cuts} to a flip stop; swing it away before the cut." if stop else f"{cuts}.",
        height,
        shop,
        face_down="outer face",
    )
