"""The set-ups of a box's corner joints; common practice, no source.

Every joint is proven on scrap of the walls' own thickness before the walls are cut.
"""

from __future__ import annotations

from app.core.angle import Angle
from app.core.forms._bench import shop_text
from app.core.forms._box import Box
from app.core.forms._box_fingers import Fingers
from app.core.forms._box_work import Work
from app.core.forms._set_ups import CROSSCUT, RIP, SQUARE, end_bevel
from app.core.length import Length
from app.core.setup import SetUp
from app.core.shop import Shop

MITRE = Angle.of(45)
BY_HAND = (
    "Without the machine: knife the lines from the story stick, saw on the waste side "
    "and chop out between with a chisel, half from either face."
)
PIN = (
    *("crosscut-sled.upright-piece", "table-saw.guard-off"),
    "crosscut-sled.blade-leaves-the-sled",
    *CROSSCUT[:2],
)


def joints(box: Box, shop: Shop) -> list[Work]:
    """The corner joint's settings in the order of work."""
    if box.fingers:
        return [
            _side_fingers(box, box.fingers, shop),
            _end_fingers(box, box.fingers, shop),
        ]
    if box.joint == "rebate":
        return [_rebates(box, shop)]
    return [_bevel(box, "sides", 0, shop), _bevel(box, "ends", 1, shop)]


def _side_fingers(box: Box, fingers: Fingers, shop: Shop) -> Work:
    wide, deep = shop_text(fingers.width, shop), shop_text(box.wall, shop)
    cuts = (
        f"Fix a fence to the sled with a hard pin in it, {wide} wide like the fingers "
        f"and standing {wide} from the cutter. Set the cutter {deep} high and "
        f"{shop_text(box.whisker, shop)} more, to sand off. Stand a side on its end, "
        "the marked lower edge against the pin, and cut the first notch; set that "
        f"notch over the pin and cut the next, until {fingers.count // 2} are cut, "
        f"each {wide} wide, and a finger is left at either edge. The same at every end "
        f"of both sides. {_passes(fingers, shop)}"
    )
    set_up = SetUp(
        key="fingers-sides",
        machine="crosscut sled",
        cuts=cuts.strip(),
        tilt=SQUARE,
        gauge=SQUARE,
        stop=fingers.width,
        face_down="an end, the piece upright against the jig's fence, marked lower "
        "edge to the pin",
        check="Two scraps of the walls' thickness, cut so, go together with the hand "
        "and hold. Too tight: move the pin towards the cutter by what is too much; "
        "too loose: away from it.",
        cautions=PIN,
    )
    notches = 4 * (fingers.count // 2)
    return Work(
        set_up,
        f"Cut {fingers.count // 2} notches in both ends of the sides",
        15 + notches * fingers.passes // 2,
        "Clamp each piece to the jig's fence, and keep the hands off where the cutter "
        f"comes out behind it. {BY_HAND}",
    )


def _passes(fingers: Fingers, shop: Shop) -> str:
    if fingers.passes == 1:
        return "The cutter makes each notch in one pass."
    cutter, shim = shop_text(fingers.cutter, shop), shop_text(fingers.shim, shop)
    overlap = "" if fingers.exact else ", which overlap"
    between = ""
    if fingers.passes > 2:
        between = (
            " For those between take thinner shims, each thicker by no more than the "
            "cutter is wide."
        )
    return (
        f"The cutter, {cutter} wide, takes {fingers.passes} passes for each{overlap}: "
        f"the first against the pin, the last with a shim {shim} thick between pin and "
        f"work.{between}"
    )


def _end_fingers(box: Box, fingers: Fingers, shop: Shop) -> Work:
    count = fingers.count // 2 + 1
    pieces = "an end"
    if box.lid_groove:
        pieces = "an end (the lowered end with its strip taped above it, as one piece)"
    again = ""
    if fingers.passes > 1:
        again = (
            f" Its last pass is again with the shim of {shop_text(fingers.shim, shop)}."
        )
    set_up = SetUp(
        key="fingers-ends",
        machine="crosscut sled",
        cuts="The same pin. Turn a finished side round and set its first notch over "
        f"the pin: its lowest finger fills the room up to the cutter. Stand {pieces} "
        "with its marked lower edge against that finger and cut: this notch runs out "
        f"at the edge.{again} Take the side away, push the open notch against the pin, "
        f"and go on until {count} are cut, the last one out at the upper edge.",
        tilt=SQUARE,
        gauge=SQUARE,
        stop=fingers.width,
        face_down="an end, the piece upright against the jig's fence, marked lower "
        "edge to the pin",
        check=f"End and side push together by hand: {fingers.count} fingers, lower and "
        "upper edges flush.",
        cautions=PIN,
    )
    return Work(
        set_up,
        f"Cut {count} notches in both ends of the ends",
        10 + 4 * count * fingers.passes // 2,
        f"Lower edges always to the pin, so that what is off adds up alike. {BY_HAND}",
    )


def _rebates(box: Box, shop: Shop) -> Work:
    wide, deep = shop_text(box.wall, shop), shop_text(box.rebate_depth, shop)
    what = box.rebate_on
    lip = shop_text(box.wall - box.rebate_depth, shop)
    taped = ""
    if what == "ends" and box.lid_groove:
        taped = " The lowered end has its strip taped above it."
    set_up = SetUp(
        key="corner-rebates",
        machine="table saw",
        cuts="Clamp a wooden face to the fence and let a wide cutter run into it. Push "
        f"the {what} across it inside face down, their ends along the wooden face, "
        f"with the mitre gauge behind them: {deep} deep, {wide} wide. Nothing is cut "
        f"off, so nothing is trapped.{taped} With a narrow cutter begin inside and "
        "move the fence in for each pass, the last one at the wooden face.",
        tilt=SQUARE,
        fence=Length(0),
        face_down="inside face, the end along the wooden face",
        check=f"A scrap of the walls fills the rebate flush, and the lip is {lip} "
        "thick at both ends.",
        cautions=("table-saw.fence-face", "table-saw.guard-off", *RIP[1:3]),
    )
    return Work(
        set_up,
        f"Cut the corner rebates in both ends of the {what}",
        25,
        "A scrap behind the piece keeps its far edge from splitting. Without the "
        "machine: knife the shoulder, saw it, and pare the rebate with a chisel.",
    )


def _bevel(box: Box, what: str, number: int, shop: Shop) -> Work:
    long = box.outer(number)
    count = 2 + (box.spares if number else 0)
    pieces = f"{count} {what}"
    set_up = end_bevel(
        f"bevel-{what}",
        pieces,
        MITRE,
        long,
        shop,
        check="Two scraps bevelled so stand square to each other. All four walls, "
        "taped outside up and rolled closed dry, shut inside and outside; both "
        f"{what} are {shop_text(long, shop)} long between the outer corners.",
        input="joint",
        nearest="rebate",
    )
    taped = "The lowered end has its strip taped above it. " if box.lid_groove else ""
    return Work(
        set_up,
        f"Bevel both ends of the {what} at {MITRE}",
        20,
        f"{taped if number else ''}The second of a pair against a stop, so that they "
        "are alike to a hair. Without the machine: saw to a knife line and plane on a "
        "mitre shooting board.",
    )
