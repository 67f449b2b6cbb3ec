"""The box's steps in bench order.

Times at the bench and the order are common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

from app.core.forms import _bench as bench
from app.core.forms._bench import shop_text
from app.core.forms._box import Box, Lid
from app.core.forms._box_inputs import Inputs
from app.core.forms._box_work import Work
from app.core.forms._spline_steps import spline_steps
from app.core.forms._strip_panels import panel_steps
from app.core.part import GlueUp, Part
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.step import Step, Supply


def steps(
    box: Box,
    inputs: Inputs,
    parts: tuple[Part, ...],
    panels: tuple[GlueUp, ...],
    work: list[Work],
    set_ups: tuple[SetUp, ...],
    shop: Shop,
) -> tuple[Step, ...]:
    """Every operation, from rough boards to the last coat."""
    found = (
        *_stock(parts, shop),
        *_planed(parts, panels, shop),
        *(one.step for one in work),
        *_fitted(box, inputs),
        *(spline_steps(box.splines, shop) if box.splines else ()),
        *_closed(box, inputs),
    )
    known = {one.key: one.cautions for one in set_ups}
    return tuple(_with_cautions(step, known) for step in found)


def _with_cautions(step: Step, known: dict[str, tuple[str, ...]]) -> Step:
    """A step carries the cautions of its set-up to the bench."""
    keys = (*step.cautions, *known.get(step.set_up, ()))
    return replace(step, cautions=tuple(dict.fromkeys(keys)))


def _stock(parts: tuple[Part, ...], shop: Shop) -> list[Step]:
    rough = shop_text(parts[0].blank.thickness, shop)
    return [
        bench.joint_stock(
            15,
            "Every board, before any rip. A dealer surfaces boards for a fee.",
        ),
        bench.plane_stock(
            15,
            f"Leave the wall stock at {rough} and let it lie for a day, then bring it "
            "to its size.",
        ),
    ]


def _planed(
    parts: tuple[Part, ...], panels: tuple[GlueUp, ...], shop: Shop
) -> list[Step]:
    """Panels glued and planed, and everything else brought to thickness."""
    known = {part.key: part for part in parts}
    walls = [one for one in panels if one.key.startswith("wall_panel")]
    found = []
    side = next(part for part in parts if part.key.startswith("side"))
    if walls:
        found += panel_steps(walls, shop, thickness=side.finished.thickness)
    else:
        stock = replace(side.blank, thickness=side.finished.thickness)
        found.append(bench.planed("plane-walls", "stock of the walls", stock, shop))
    if "lid_strip" in known and walls:
        strip = known["lid_strip"]
        stock = replace(strip.blank, thickness=strip.finished.thickness)
        found.append(bench.planed("plane-lid-strip", "strip for the lid", stock, shop))
    for key in ("base", "lid", "batten", "divider_across", "divider_along"):
        part = known.get(key)
        if part and not (key == "divider_along" and "divider_across" in known):
            found += _board(part, panels, shop)
    return found


def _board(part: Part, panels: tuple[GlueUp, ...], shop: Shop) -> list[Step]:
    name = part.name.lower().removesuffix(" across").removesuffix(" along")
    name = {"divider": "divider stock", "batten": "batten stock"}.get(name, name)
    stock = replace(part.blank, thickness=part.finished.thickness)
    panel = next((one for one in panels if one.key == part.glue_up), None)
    if panel:
        count = sum(strip.quantity for strip in panel.strips)
        order = "Turn the strips until the grain runs one way and the rings take turns."
        size = replace(panel.panel, thickness=part.finished.thickness)
        return bench.glued_panel(
            f"{name}-panel", f"{name} panel", count, order, shop, size
        )
    if part.grain == "none":
        return []  # plywood comes at its thickness
    key = name.removesuffix(" stock").replace(" ", "-")
    return [bench.planed(f"plane-{key}", name, stock, shop)]


def _fitted(box: Box, inputs: Inputs) -> list[Step]:
    """Everything dry, the insides finished, then the glue."""
    pieces = "walls and base" if box.base == "groove" else "walls"
    return [
        Step(
            key="dry-fit",
            name=f"Put {pieces} together dry",
            tool="clamps",
            detail=f"{_dry(box)} Measure both diagonals: the same, and the box is "
            "square. Sight over the edges: they lie in one plane. Mark the outside and "
            "the order once more.",
            bench_minutes=20,
            cautions=("clamps.falling-or-pinch",),
        ),
        bench.sand(
            "sand-inside",
            "Sand the insides",
            25,
            "Everything that shows inside; not what is glued, and not so long that "
            "grooves and dados grow.",
        ),
        *bench.finishing(
            inputs,
            "the insides",
            20,
            inside=True,
            first="Tape over whatever is glued: glue does not hold on finish, and "
            "squeeze-out comes off the finished faces.",
        ),
        _assemble(box),
        *_base_last(box),
    ]


def _dry(box: Box) -> str:
    if box.base == "groove" and not box.clearance.nm:
        return "The walls shut with the base in: it holds no corner open."
    if box.base == "groove":
        return "The base rattles a little in its groove: it must stay free to move."
    return "Every shoulder shuts under light pressure."


def _assemble(box: Box) -> Step:
    base = {
        "groove": "Slide the base in before the last wall, without glue; a dab in the "
        "middle of each end may centre it. ",
        "rebate": "",
        "under": "",
    }[box.base]
    if box.joint == "finger":
        how = (
            "A thin coat of slow glue on the faces of the fingers, with a small brush. "
            "Press with blocks cut between the fingers, or just short of them: the "
            "fingers stand proud."
        )
    elif box.joint == "mitre":
        how = (
            "Glue on every mitre, a first thin coat to fill the end grain; roll closed "
            "with tape, then band clamps."
        )
    else:
        how = "Glue in the rebates and on their shoulders; clamp along and across."
    strip = (
        " Keep the lid's strip out of it, with paper between." if box.lid_groove else ""
    )
    return Step(
        key="assemble",
        name="Glue the walls together",
        tool="clamps",
        detail=f"{base}{how}{strip} Measure the diagonals at once: where one is "
        "longer, shift the clamps a little along it until both are the same.",
        bench_minutes=30,
        waits=(bench.UNCLAMP, bench.BEFORE_PLANING),
        cautions=bench.GLUE_CAUTIONS
        + (("clamps.strap-under-load",) if box.joint == "mitre" else ()),
        supplies=(bench.GLUE, bench.TAPE),
    )


def _base_last(box: Box) -> list[Step]:
    if box.base == "groove":
        return []
    detail = "Screws in slotted holes, so that it can move across its grain."
    if box.plywood:
        detail = "Glue all round: plywood does not move."
    return [
        Step(
            key="fix-base",
            name="Fix the base",
            tool="clamps",
            detail=detail,
            bench_minutes=20,
            waits=(bench.UNCLAMP, bench.BEFORE_PLANING) if box.plywood else (),
            cautions=bench.GLUE_CAUTIONS
            if box.plywood
            else ("drill-press.spinning-work",),
            supplies=(bench.GLUE,) if box.plywood else (Supply("screws"),),
        )
    ]


def _closed(box: Box, inputs: Inputs) -> list[Step]:
    """Joints flush, the lid fitted, the outside finished."""
    found = []
    if box.joint != "mitre":
        found.append(
            Step(
                key="flush",
                name="Bring the joints flush",
                tool="hand plane",
                detail="From the corner inwards, so that no end grain splits off; "
                "then sand.",
                bench_minutes=20,
                cautions=("hand-plane.cut-hand",),
            )
        )
    if box.lid:
        found.append(_lid_fitted(box.lid))
    found.append(
        bench.sand(
            "sand-outside",
            "Sand the outside and ease the edges",
            30,
            "The corners stay crisp: a few strokes with a block.",
        )
    )
    return found + bench.finishing(inputs, "the outside", 20)


def _lid_fitted(lid: Lid) -> Step:
    detail, supplies = {
        "sliding": (
            (
                "Ease its lower edges and rub wax into the grooves until it runs by "
                "itself. Slide it home, then glue the strip to its end, in the middle "
                "third only: the lid moves across its grain and the strip does not."
            ),
            (bench.GLUE,),
        ),
        "battened": (
            (
                "Screw the battens across its underside, the middle screw in a round "
                "hole, the others in slots, so that the lid can move. Plane the "
                "battens until it drops on without force."
            ),
            (Supply("screws"),),
        ),
        "rebated": (
            (
                "Plane the rebates until it drops in with the same room all round, in "
                "either direction."
            ),
            (),
        ),
    }[lid.kind]
    # Only a strip glued to a sliding lid waits before it is sanded.
    glued = bench.GLUE in supplies
    return Step(
        key="fit-lid",
        name="Fit the lid",
        tool="hand plane",
        detail=detail,
        bench_minutes=25,
        waits=(bench.UNCLAMP, bench.BEFORE_PLANING) if glued else (),
        cautions=("hand-plane.cut-hand", *(bench.GLUE_CAUTIONS if glued else ())),
        supplies=supplies,
    )
