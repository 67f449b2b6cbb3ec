"""Set-ups for compound mitres, the blade tilted and the gauge swung at once.

With the same face down, one end wants the gauge swung to one side and the other end
to the other. A long piece that is rolled over about its length for every cut needs
it swung only once: each cut then is the mirror of the last. Beyond the limits of
gauge or blade a jig makes the cut; what no sled carries is sawn and planed by hand.
The know-how is common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from app.core.angle import Angle
from app.core.forms._bench import shop_text
from app.core.forms._set_ups import MITRE, RIP
from app.core.inputs import refuse
from app.core.length import Length
from app.core.setup import SetUp
from app.core.shop import Shop

CREEP = (
    "Creep up until the blade just reaches the outer corner: the outer face keeps its "
    "length."
)
HAND = ("hand-saw.start-slip", "hand-saw.work-slips", "hand-plane.cut-hand")


@dataclass(frozen=True, slots=True)
class Compound:
    """Equal pieces with a compound mitre at both ends.

    ``tilt`` and ``gauge`` with a face flat on the table; ``long`` is the longer edge
    of the outer face, ``what`` the pieces in words: ``6 walls``. ``key`` is the
    set-up's where there is one; ``check`` proves them, ``scraps`` the first ends alone.
    """

    what: str
    tilt: Angle
    gauge: Angle
    long: Length
    check: str
    scraps: str = ""
    rolled: bool = False
    key: str = "mitres"


def compound(cuts: Compound, shop: Shop, *, input: str, nearest: str) -> list[SetUp]:
    """One set-up, or two where the gauge is swung to either side.

    Raises WorkshopError naming ``input`` where the blade tilts too little even for
    a jig; ``nearest`` is what would work there.
    """
    if cuts.long > shop.longest_crosscut:
        return [_by_hand(cuts, shop)]
    if cuts.tilt > shop.most_tilt:
        return [_in_a_jig(cuts, shop, input, nearest)]
    if cuts.rolled:
        return [_rolled(cuts, shop)]
    if not cuts.gauge.degrees:
        return [_square_gauge(cuts, shop)]
    return [_first_ends(cuts, shop), _second_ends(cuts, shop)]


def _set_up(
    key: str, told: str, face: str, cuts: Compound, shop: Shop, stop: Length | None
) -> SetUp:
    machine = "mitre gauge"
    if cuts.gauge > shop.most_gauge:
        machine = "crosscut sled"
        rest = Angle(90 - cuts.gauge.degrees)
        told += (
            f" The gauge turns only to {shop.most_gauge}: make a jig of a sled, a "
            f"fence screwed to it at {rest} to the blade's line, the rest of a "
            "right angle, and a second fence that mirrors it."
        )
    sled = ("crosscut-sled.blade-leaves-the-sled",) if machine != "mitre gauge" else ()
    return SetUp(
        key=key,
        machine=machine,
        cuts=told,
        tilt=cuts.tilt,
        gauge=cuts.gauge,
        stop=stop,
        face_down=face,
        check=cuts.check,
        cautions=(
            *MITRE,
            *sled,
            "table-saw.narrow-bevel",
            "crosscut-sled.short-piece",
        ),
    )


def _rolled(cuts: Compound, shop: Shop) -> SetUp:
    long = shop_text(cuts.long, shop)
    told = (
        f"Cut {cuts.what} head to tail from the whole length, the blade at {cuts.tilt} "
        f"leaning over it and the gauge at {cuts.gauge}. Cut one end. Then, for every "
        "cut, roll the piece over about its length, so that the other edge comes to "
        f"the fence, and bring a mark {long} from the tip, on the longer edge of the "
        "face now up, to the far side of the blade: the kerf lies in the stock, and "
        "the wall comes off beyond the blade and lies free. "
        "For equal lengths clamp a block to the rip fence that ends well before the "
        "blade and let the tip touch it there; never a stop beside the blade."
    )
    face = "inner face of the wall that comes off"
    return _set_up(cuts.key, told, face, cuts, shop, None)


def _first_ends(cuts: Compound, shop: Shop) -> SetUp:
    told = (
        f"Cut one end of {cuts.what}: the blade at {cuts.tilt} leaning over the wall, "
        f"the longer edge on the gauge's fence, the gauge swung {cuts.gauge} from "
        "square so that this edge stays the longer one. Take off no more than it "
        "needs, and keep an offcut for a stop."
    )
    made = _set_up(f"first-{cuts.key}", told, "outer face", cuts, shop, None)
    return replace(made, check=cuts.scraps or cuts.check)


def _second_ends(cuts: Compound, shop: Shop) -> SetUp:
    long = shop_text(cuts.long, shop)
    told = (
        f"Cut the other end of {cuts.what}, the blade as it was. Swing the gauge "
        f"{cuts.gauge} past square to the other side and turn each wall end for end, "
        "the same face down: the longer edge is now away from the fence. An offcut of "
        "the first ends, screwed to the gauge's fence, is the stop: the cut end lies "
        f"against its slant. It stands so that the longer edge comes to {long}. {CREEP}"
    )
    return _set_up(f"second-{cuts.key}", told, "outer face", cuts, shop, cuts.long)


def _square_gauge(cuts: Compound, shop: Shop) -> SetUp:
    told = f"Bevel both ends of {cuts.what} at {cuts.tilt}, the gauge square. {CREEP}"
    return _set_up(cuts.key, told, "outer face", cuts, shop, cuts.long)


def _in_a_jig(cuts: Compound, shop: Shop, input: str, nearest: str) -> SetUp:
    rest = Angle(90 - cuts.tilt.degrees)
    if rest > shop.most_tilt:
        raise refuse(
            input,
            f"This needs a blade tilt of {cuts.tilt}. The blade tilts to "
            f"{shop.most_tilt}, and in a jig it would still have to tilt {rest}. More "
            "sides need less.",
            nearest,
        )
    lean = (
        f" leaning {cuts.gauge} in the jig's face, to one side for the first end and "
        "to the other for the second, a cleat for each"
        if cuts.gauge.degrees
        else ""
    )
    return SetUp(
        key=cuts.key,
        machine="table saw",
        cuts=f"Mitre both ends of {cuts.what}. {cuts.tilt} is more than the blade "
        "tilts. Build a tall jig that slides along the fence and clamps the wall "
        f"upright on its end,{lean or ' square to the table'}, and tilt the blade to "
        f"{rest}, the rest of a right angle. {CREEP}",
        tilt=rest,
        face_down="the end being cut, clamped upright in the jig, outer face to the "
        "jig",
        check=cuts.check,
        cautions=(*RIP[1:], "table-saw.cradle", "table-saw.blade-tilts-to-fence"),
    )


def _by_hand(cuts: Compound, shop: Shop) -> SetUp:
    bevel = Angle(90 - cuts.tilt.degrees)
    return SetUp(
        key=cuts.key,
        machine="hand saw",
        cuts=f"Mitre both ends of {cuts.what}. Longer than the "
        f"{shop_text(shop.longest_crosscut, shop)} that your sled takes: mark the ends "
        f"on the outer face with a bevel gauge set {cuts.gauge} from square, and down "
        f"the edges with one set to {bevel} off the outer face. Saw along a guide "
        "clamped on the line, the waste side proud, and plane to both lines.",
        stop=cuts.long,
        face_down="inner face, on the bench",
        check=cuts.check,
        cautions=HAND,
    )


def level_edges(
    what: str, slope: Angle, slant: Length, shop: Shop, *, check: str
) -> SetUp:
    """Both long edges of ``what`` bevelled alike, so that they lie level.

    The fence stands at the width of a face for either: the blade leans away from it,
    and the piece is turned over edge for edge in between.
    """
    if slope > shop.most_tilt or slant < shop.narrowest_rip:
        why = "More than the blade tilts"
        if slope <= shop.most_tilt:
            why = "Too narrow to rip at a tilt"
        return SetUp(
            key="edges",
            machine="hand plane",
            cuts=f"Bevel both long edges of {what} at {slope} from square, alike, so "
            f"that each face is left {shop_text(slant, shop)} wide. {why}: mark the "
            "bevels on the ends, and plane to the lines against a bevel gauge set to "
            f"{Angle(90 - slope.degrees)}.",
            face_down="in the vice, the edge up",
            check=check,
            cautions=("hand-plane.cut-hand",),
        )
    return SetUp(
        key="edges",
        machine="table saw",
        cuts=f"Bevel both long edges of {what} at {slope}, the blade leaning away from "
        "the fence. First with a jointed edge on the fence; then turn the piece over "
        "edge for edge, so that the new sharp edge lies on the table against the "
        "fence, and rip the other edge with the fence where it was. Clamp a wooden "
        "face to the fence, down on the table: a sharp edge creeps under a fence.",
        tilt=slope,
        gauge=None,
        fence=slant,
        face_down="a planed face, then the other one",
        check=check,
        cautions=(*RIP, "table-saw.blade-tilts-to-fence", "table-saw.narrow-bevel"),
    )


__all__ = ["Compound", "compound", "level_edges"]
