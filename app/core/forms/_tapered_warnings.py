"""What the tapered vessel's maker is told before the wood is cut."""

from __future__ import annotations

from app.core import closing
from app.core.angle import Angle
from app.core.forms._bench import shop_text
from app.core.forms._patterned import pattern_warnings
from app.core.forms._tapered import Tapered
from app.core.forms._tapered_inputs import Inputs
from app.core.length import mm
from app.core.pattern import LONGEST
from app.core.shop import Shop

SHORT = mm(300)
# A sharper edge than this breaks off in use: common practice, no source.
FEATHER = Angle.of(45)


def warnings(vessel: Tapered, inputs: Inputs, shop: Shop) -> tuple[str, ...]:
    """Sentences on what can go wrong, the most particular first."""
    return (
        *_shape(vessel, shop),
        *_base(vessel),
        *_closing(vessel, inputs, shop),
        *_machines(vessel, shop),
        *pattern_warnings(inputs, vessel.pattern),
    )


def _shape(vessel: Tapered, shop: Shop) -> list[str]:
    found = []
    if vessel.bevelled and vessel.slope >= FEATHER:
        sharp = Angle(90 - vessel.slope.degrees)
        found.append(
            f"Level edges on sides that lean {vessel.slope} come to a point of {sharp} "
            "at the rim and break easily. Ease them well, or leave the edges square."
        )
    if not vessel.level and vessel.lean.degrees:
        lean = "outer" if vessel.out else "inner"
        found.append(
            f"With square edges the vessel stands on the {lean} edges of its walls "
            "alone: ease them with a plane until it stands firm."
        )
    if vessel.out and vessel.bottom < vessel.height and vessel.top > vessel.bottom * 2:
        found.append(
            f"It is {shop_text(vessel.bottom, shop)} across where it stands and "
            f"{shop_text(vessel.top, shop)} at the top: it tips easily."
        )
    return found


def _base(vessel: Tapered) -> list[str]:
    if vessel.base == "glued":
        told = (
            "A base of solid wood glued in all round cannot move across its grain: it "
            "pushes the corners open in damp air and splits in dry air. Use plywood, "
            "or let it lie loose."
        )
        return [told]
    weak = (
        "The corners meet end grain to end grain, which is weak: keys across them, "
        "sawn when the glue is dry, mend that."
    )
    if vessel.base == "under":
        told = (
            "A solid base glued all round under the walls cannot move across its grain "
            "and opens the corners. Fix it so that it can."
        )
        return [told, weak]
    return [weak]


def _closing(vessel: Tapered, inputs: Inputs, shop: Shop) -> list[str]:
    off = Angle(closing.ERRORS["closing_gap_at_0_1_degree"])
    gap = closing.gap(vessel.face_long, vessel.sides, off, vessel.tilt)
    if gap <= mm("0.5"):
        return []
    told = (
        "A tenth of a degree on every mitre opens the last joint by "
        f"{closing.fine(gap, shop.display)}. Prove tilt and gauge with a dry fit."
    )
    return [told]


def _machines(vessel: Tapered, shop: Shop) -> list[str]:
    found = []
    if vessel.face_long < SHORT:
        found.append(
            "The walls are shorter than 300 mm (12 in), too short to hold by hand at "
            "most machines: clamp them to the sled or the jig."
        )
    count = vessel.sides + vessel.spares
    if not vessel.glued and vessel.head_to_tail and vessel.run(count) > LONGEST:
        found.append(
            f"Head to tail the walls take {shop_text(vessel.run(count), shop)}, longer "
            "than most boards. Cut them from two."
        )
    return found
