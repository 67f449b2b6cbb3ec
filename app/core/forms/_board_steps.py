"""The laminated board's steps in bench order.

Times at the bench, the order and the know-how are common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

from app.core.forms import _bench as bench
from app.core.forms._bench import shop_text
from app.core.forms._board import Board
from app.core.forms._board_inputs import Inputs
from app.core.forms._board_parts import glue_ups
from app.core.forms._strip_panels import panel_steps
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.step import Step, Supply

FOOD = "food-finish.chemical-in-food"


def steps(
    board: Board, inputs: Inputs, set_ups: tuple[SetUp, ...], shop: Shop
) -> tuple[Step, ...]:
    """Every operation, from rough boards to the last coat."""
    found = [
        *_stock(board, shop),
        *_glued(board, shop),
        *(_second(board, shop) if board.end else []),
        *_trimmed(),
        *_groove(board),
        *_surface(board),
        *_finish(inputs),
        *_feet(inputs),
    ]
    known = {one.key: one for one in set_ups}
    return tuple(_with_cautions(step, known) for step in found)


def _with_cautions(step: Step, known: dict[str, SetUp]) -> Step:
    """A step carries the cautions of its set-up to the bench."""
    if step.set_up not in known:
        return step
    keys = (*step.cautions, *known[step.set_up].cautions)
    return replace(
        step, tool=known[step.set_up].machine, cautions=tuple(dict.fromkeys(keys))
    )


def _stock(board: Board, shop: Shop) -> list[Step]:
    count = len(board.strips)
    # Strips on edge are as thick as their board.
    cut = board.cut
    rough = shop_text(cut.thickness if board.end else cut.strip_width, shop)
    return [
        bench.joint_stock(
            10 + 2 * count,
            "Every board, before any rip. Without a jointer: a sled for the planer, "
            "or a dealer who surfaces stock for a fee.",
        ),
        bench.plane_stock(
            10 + 2 * count,
            f"Leave it at {rough}; it is planed to its size when glued up.",
        ),
    ]


def _glued(board: Board, shop: Shop) -> list[Step]:
    """Strips to a planed panel; those of an edge-grain board stand on edge in it."""
    name = "first" if board.end else "board"
    made = panel_steps(glue_ups(board), shop, name, thickness=board.slice_width)
    made = [
        replace(one, detail=one.detail.replace("the bottom up", "front to back"))
        for one in made
    ]
    if board.end:
        return made
    wide = shop_text(max(board.strips), shop)
    return [
        replace(
            step,
            name="True the faces of the strips that meet in the board panel",
            detail=f"Turn every strip on edge: its broad faces are the joints. {wide} "
            f"thick at the end. {step.detail}",
        )
        if step.key == "joint-board-panel"
        else step
        for step in made
    ]


def _second(board: Board, shop: Shop) -> list[Step]:
    turned = any(panel.turned for panel in board.panels)
    ends = "; those marked ↓ end for end" if turned else ""
    count = board.slices
    return [
        Step(
            key="cut-slices",
            name=f"Cut the first panel into {count} slices",
            tool="crosscut sled",
            detail="Square one end first. Without a sled: a hand saw along a guide, "
            "then a shooting board.",
            set_up="slices",
            bench_minutes=15 + 3 * count,
        ),
        Step(
            key="turn-slices",
            name="Turn the slices on end and lay them out dry",
            tool="clamps",
            detail=f"Every slice a quarter turn, so that its end grain looks up{ends}. "
            "Strip joints line up from slice to slice; mark a large triangle over all "
            "of them. The planed faces of the first panel are the joints and need "
            "nothing more; the sawn faces become top and bottom.",
            bench_minutes=15 + count,
        ),
        Step(
            key="glue-board",
            name="Glue the slices into the board",
            tool="clamps",
            detail="A few at a time, between cauls waxed or taped, on a flat bed. End "
            "grain above, long grain in the joints: spread thin on both. Clean off the "
            "squeeze-out before it is hard.",
            bench_minutes=20 + 4 * count,
            waits=(bench.UNCLAMP, bench.BEFORE_PLANING),
            cautions=bench.GLUE_CAUTIONS,
            supplies=(bench.GLUE,),
        ),
        _level(board, shop),
    ]


def _level(board: Board, shop: Shop) -> Step:
    to = shop_text(board.thickness + shop.sanding * 2, shop)
    return Step(
        key="level-board",
        name=f"Level both faces to {to}",
        tool="router",
        detail="With a router on a sled over the board, a wide flat cutter and shallow "
        "passes, the board wedged so that it cannot move. Never through a thickness "
        "planer: end grain splinters and may be thrown back. Without a router: a sharp "
        "hand plane set fine, from the edges inwards, or a drum sander.",
        bench_minutes=60,
        cautions=(
            "thickness-planer.end-grain",
            "router.feed-direction",
            "router.bit-held-short",
            "router.bit-speed",
        ),
    )


def _trimmed() -> list[Step]:
    return [
        Step(
            key="trim-width",
            name="Trim the board to its width",
            tool="table saw",
            detail="Back up the far edge with scrap where end grain would break out.",
            set_up="trim-width",
            bench_minutes=10,
        ),
        Step(
            key="trim-ends",
            name="Trim the board to its length",
            tool="crosscut sled",
            detail="Square one end first.",
            set_up="trim-ends",
            bench_minutes=10,
        ),
    ]


def _groove(board: Board) -> list[Step]:
    if not board.groove:
        return []
    step = Step(
        key="juice-groove",
        name="Cut the juice groove",
        tool="router",
        detail="Try frame, depth and inset on scrap first. The last pass takes almost "
        "nothing, so that it leaves no burn.",
        set_up="juice-groove",
        bench_minutes=30 * board.groove.faces,
    )
    return [step]


def _surface(board: Board) -> list[Step]:
    grain = "End grain shows every scratch: do not skip a grit. " if board.end else ""
    return [
        Step(
            key="ease-edges",
            name="Ease every edge",
            tool="hand plane",
            detail="A narrow chamfer all round, towards the board at the corners, so "
            "that nothing splits off.",
            bench_minutes=15,
            cautions=("hand-plane.cut-hand",),
        ),
        bench.sand(
            "sand", "Sand the board", 40 if board.end else 25, f"{grain}Then the edges."
        ),
        bench.sand(
            "raise-grain",
            "Wet the board, let it dry and sand it again",
            15,
            "The first water raises fibres; better now than in the kitchen.",
        ),
    ]


def _finish(inputs: Inputs) -> list[Step]:
    return [
        replace(step, cautions=(*step.cautions, FOOD))
        for step in bench.finishing(inputs, "the board", 15)
    ]


def _feet(inputs: Inputs) -> list[Step]:
    if not inputs.feet:
        return []
    step = Step(
        key="feet",
        name=f"Screw {inputs.feet} feet on underneath",
        tool="drill press",
        detail="Stainless screws, short enough to stay well under the other face and "
        "any groove.",
        bench_minutes=15,
        cautions=("drill-press.spinning-work",),
        supplies=(Supply("rubber feet with screws", str(inputs.feet)),),
    )
    return [step]
