"""Machine set-ups that many builds share, kept within the machines' limits.

Never two stops: where the mitre gauge or a sled guides a through cut, the length
comes from a stop block or a mark, not from the fence. A setting beyond the
workspace's limits names the jig that makes the cut, or refuses the design.
The know-how is common practice, no source.
"""

from __future__ import annotations

from app.core.angle import Angle
from app.core.forms._bench import shop_text
from app.core.inputs import refuse
from app.core.length import Length
from app.core.part import GlueUp
from app.core.setup import SetUp
from app.core.shop import Shop

RIP = (
    "table-saw.kickback",
    "table-saw.kickback-path",
    "table-saw.hands-near-blade",
    "table-saw.contact-with-blade",
)
CROSSCUT = (
    "table-saw.fence-as-stop",
    "table-saw.crosscut-contact",
    "crosscut-sled.blade-leaves-the-sled",
    "crosscut-sled.short-piece",
)
MITRE = ("mitre-gauge.trapped-offcut", *CROSSCUT[:2])
SQUARE = Angle.of(0)
# A sheet has no jointed edge, and the blade splinters the face it leaves by.
SHEET_DOWN = "the face that shows less, a straight edge of the sheet on the fence"
NO_TRAP = (
    "The stop stands clear of the blade, or the piece between stop and blade is "
    "never trapped."
)


def rip(key: str, cuts: str, width: Length, shop: Shop) -> SetUp:
    """Ripping pieces of one width; a thin one falls on the blade's far side."""
    text = shop_text(width, shop)
    check = f"The first one is {text} wide at both ends."
    if width >= shop.narrowest_rip:
        thin = ("table-saw.thin-strip",) if width.nm < 75e6 else ()
        face = "a planed face, a jointed edge on the fence"
        return SetUp(
            key, "table saw", cuts, SQUARE, None, width, None, face, check, RIP + thin
        )
    return SetUp(
        key=key,
        machine="table saw",
        cuts=f"{cuts} Narrower than {shop_text(shop.narrowest_rip, shop)}: keep the "
        "wide board on the fence and let the strip fall on the far side. Clamp a block "
        f"before the blade, {text} outside its far face, push the board against it, "
        "and set the fence anew for every strip.",
        tilt=SQUARE,
        face_down="a planed face, the board's jointed edge on the block",
        check=check,
        cautions=(*RIP, "table-saw.thin-strip"),
    )


def while_long(length: Length, shop: Shop) -> str:
    """How what is too short to run along the fence is ripped: before it is cut."""
    if length >= shop.shortest_jointed:
        return ""
    return (
        f" Rip them out of lengths of {shop_text(shop.shortest_jointed, shop)} or more "
        "and crosscut after: what is shorter turns at the fence."
    )


def rip_strips(glue_up: GlueUp, shop: Shop) -> SetUp:
    """The strips of one glue-up, all of one rough width."""
    strip = glue_up.strips[0].blank
    count = sum(one.quantity for one in glue_up.strips) * glue_up.quantity
    width = shop_text(strip.width, shop)
    cuts = f"Rip {count} strips for the {glue_up.name.lower()}, {width} wide."
    cuts += while_long(strip.length, shop)
    return rip(f"rip-{glue_up.key.replace('_', '-')}", cuts, strip.width, shop)


def crosscut(
    key: str,
    cuts: str,
    stop: Length,
    shop: Shop,
    *,
    face_down: str = "outside face",
    check: str = "Stack the first and the last one: their ends are flush.",
) -> SetUp:
    """Square cuts to one length against a stop, one end squared before."""
    if stop > shop.longest_crosscut:
        return SetUp(
            key=key,
            machine="hand saw",
            cuts=f"{cuts} Longer than the {shop_text(shop.longest_crosscut, shop)} "
            "that your sled takes: mark both ends from one story stick, saw along a "
            "guide clamped square, and true the ends on a shooting board.",
            stop=stop,
            face_down=face_down,
            check=check,
            cautions=("hand-saw.start-slip", "hand-saw.work-slips"),
        )
    return SetUp(
        key=key,
        machine="crosscut sled",
        cuts=cuts,
        tilt=SQUARE,
        gauge=SQUARE,
        stop=stop,
        face_down=face_down,
        check=check,
        cautions=CROSSCUT,
    )


def mitre(
    key: str,
    cuts: str,
    gauge: Angle,
    stop: Length,
    shop: Shop,
    *,
    face_down: str,
    check: str,
    tilt: Angle = SQUARE,
    carried: Length | None = None,
) -> SetUp:
    """Cuts on the mitre gauge; beyond its limit a sled with a fixed fence.

    What is longer than the longest crosscut is sawn by hand, to a line; ``carried``
    is how long the piece is that rides along, where that is more than ``stop``.
    """
    if max(stop, carried or stop) > shop.longest_crosscut:
        return SetUp(
            key=key,
            machine="hand saw",
            cuts=f"{cuts} Longer than the {shop_text(shop.longest_crosscut, shop)} "
            f"that your sled takes: mark every cut with a bevel gauge set to {gauge} "
            f"from square{_leaning(tilt)}, saw along a guide clamped on the line, and "
            "plane to it.",
            face_down=face_down,
            check=check,
            cautions=("hand-saw.start-slip", "hand-saw.work-slips"),
        )
    machine = "mitre gauge"
    if gauge > shop.most_gauge:
        machine = "crosscut sled"
        rest = Angle(90 - gauge.degrees)
        cuts += (
            f" The gauge turns only to {shop.most_gauge} and {gauge} is needed: make a "
            f"jig of a sled, a fence screwed to it at {rest} to the blade's line, the "
            "rest of a right angle."
        )
    narrow = ("table-saw.narrow-bevel",) if tilt > SQUARE else ()
    return SetUp(
        key=key,
        machine=machine,
        cuts=cuts,
        tilt=tilt,
        gauge=gauge,
        stop=stop,
        face_down=face_down,
        check=check,
        cautions=MITRE + narrow,
    )


def _leaning(tilt: Angle) -> str:
    """What else is marked where the blade would have been tilted."""
    return f", and down the edge {tilt} off square" if tilt > SQUARE else ""


def end_bevel(
    key: str,
    what: str,
    bevel: Angle,
    stop: Length,
    shop: Shop,
    *,
    check: str,
    input: str,
    nearest: str = "",
) -> SetUp:
    """A bevel across both ends of ``what`` (``6 walls``), the blade tilted.

    Beyond the blade's tilt the piece stands on its end in a tall jig and the blade
    takes the rest of a right angle. Raises WorkshopError naming ``input`` where
    even that is too much. What is longer than the longest crosscut is planed.
    """
    creep = (
        "Creep up until the blade just reaches the outer corner: the outside keeps "
        "its length."
    )
    if stop > shop.longest_crosscut:
        return _planed_bevel(key, what, bevel, stop, shop, check)
    if bevel <= shop.most_tilt:
        return SetUp(
            key=key,
            machine="mitre gauge",
            cuts=f"Bevel both ends of {what} at {bevel}. {creep}",
            tilt=bevel,
            gauge=SQUARE,
            stop=stop,
            face_down="outside face",
            check=check,
            cautions=(*MITRE, "table-saw.narrow-bevel"),
        )
    rest = Angle(90 - bevel.degrees)
    if rest > shop.most_tilt:
        raise refuse(
            input,
            f"This needs a bevel of {bevel}. The blade tilts to {shop.most_tilt}, and "
            f"in a jig it would still have to tilt {rest}. More sides need less.",
            nearest,
        )
    return SetUp(
        key=key,
        machine="table saw",
        cuts=f"Bevel both ends of {what} at {bevel}, which is more than the blade "
        "tilts. Build a tall jig that slides along the fence and clamps the piece "
        f"upright on its end, and tilt the blade to {rest}, the rest of a right angle. "
        f"{creep}",
        tilt=rest,
        face_down="the end being cut, clamped upright in the jig, outside face to "
        "the jig",
        check=check,
        cautions=(*RIP[1:], "table-saw.cradle", "table-saw.blade-tilts-to-fence"),
    )


def _planed_bevel(
    key: str, what: str, bevel: Angle, stop: Length, shop: Shop, check: str
) -> SetUp:
    """A bevel across ends that no sled carries."""
    return SetUp(
        key=key,
        machine="hand plane",
        cuts=f"Bevel both ends of {what} at {bevel}. Longer than the "
        f"{shop_text(shop.longest_crosscut, shop)} that your sled takes: build a "
        f"shooting board whose bed leans {bevel}, saw off most of the waste by hand, "
        "and plane until the bevel just reaches the outer corner: the outside keeps "
        "its length.",
        stop=stop,
        face_down="inside face, on the leaning bed",
        check=check,
        cautions=("hand-plane.cut-hand", "hand-saw.work-slips"),
    )


def groove(
    key: str,
    name: str,
    what: str,
    up: Length,
    wide: Length,
    deep: Length,
    kerf: Length,
    shop: Shop,
    *,
    face: str = "inside face",
    edge: str = "lower edge",
) -> SetUp:
    """A groove or rebate (``name``) along ``what``, ``up`` from its edge.

    ``face`` lies on the table and ``edge`` against the fence.

    Says where the fence stands for the first pass and, the kerf taken off, for
    the last one.
    """
    passes = "One pass does it."
    if wide > kerf:
        last = up + wide - kerf
        passes = (
            "Move the fence out a little less than a kerf for each next pass; at the "
            f"last one it stands {shop_text(last, shop)} from the blade. Try the fit "
            "before it."
        )
    # At the piece's own edge the blade stands against the fence.
    faced = "" if up else "Clamp a wooden face to the fence first. "
    size = f"{shop_text(deep, shop)} deep, {shop_text(wide, shop)} wide"
    on = edge if edge.startswith("each") else f"the {edge}"
    return SetUp(
        key=key,
        machine="table saw",
        cuts=f"{faced}{name} along {what}: {size}, {on} on the fence. {passes}",
        tilt=SQUARE,
        fence=up,
        face_down=f"{face}, {edge} on the fence",
        check=f"A test cut in scrap is {shop_text(deep, shop)} deep and takes its "
        "piece without force.",
        cautions=(
            *(() if up else ("table-saw.fence-face",)),
            "table-saw.guard-off",
            *RIP[1:3],
        ),
    )
