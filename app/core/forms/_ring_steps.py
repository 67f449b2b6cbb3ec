"""The ring's steps in bench order.

Half rings first: the angle errors of a ring gather where the halves meet, and
flattening the halves against each other takes them out. Common practice, no source.
"""

from __future__ import annotations

from app.core.forms import _bench as bench
from app.core.forms import _turned_bottom as under
from app.core.forms import _turned_steps as lathe
from app.core.forms._bench import shop_text
from app.core.forms._common import Common
from app.core.forms._ring import Kind, Stack
from app.core.forms._ring_setups import counted
from app.core.length import Length
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.step import Step


def steps(
    stack: Stack, set_ups: tuple[SetUp, ...], asked: Common, shop: Shop
) -> tuple[Step, ...]:
    """Every operation, from rough boards to the last coat."""
    found = [*_stock(stack, shop)]
    found += [_rip(stack, kind) for kind in stack.kinds]
    found += [_cut(stack, kind) for kind in stack.kinds]
    found += _glued(stack)
    if stack.bottom is not None:
        found += under.steps(stack.bottom, stack.allowances, shop)
    found += _stacked(stack, shop)
    found += _turned(stack, shop)
    return lathe.with_cautions([*found, *lathe.finished(asked)], set_ups)


def _stock(stack: Stack, shop: Shop) -> list[Step]:
    over = stack.allowances.of("segment").thickness
    rough = shop_text(stack.thickness + over, shop)
    boards = len(stack.strips)
    return [
        bench.joint_stock(
            10 + 3 * boards,
            "Every board while it is long. Without a jointer: a hand plane and winding "
            "sticks, or a dealer who surfaces stock for a fee.",
        ),
        bench.carried(
            bench.plane_stock(
                10 + 2 * boards,
                f"All of it to {rough} at one setting: rings of one thickness. They "
                "are flattened to their size when glued.",
            ),
            stack.thickness + over,
        ),
    ]


def _rip(stack: Stack, kind: Kind) -> Step:
    strips = sum(one.quantity for one in stack.strips_of[kind.first.number])
    return Step(
        key=f"rip-{kind.key}",
        name=f"Rip the strips for {kind.name}",
        tool="table saw",
        detail=f"Strips: {counted(stack, kind)}.",
        set_up=f"rip-{kind.key}",
        bench_minutes=8 + 2 * strips,
    )


def _cut(stack: Stack, kind: Kind) -> Step:
    count = sum(kind.woods.values())
    return Step(
        key=f"cut-{kind.key}",
        name=f"Cut {count} segments for {kind.name}",
        tool="mitre gauge",
        detail="By hand: a mitre box at the same angle, and every end trued on a "
        "shooting board with a stop. Knock the fuzz off every edge with a block, "
        "without touching the joint.",
        set_up=f"cut-{kind.key}",
        bench_minutes=15 + 2 * count,
    )


def _glued(stack: Stack) -> list[Step]:
    rings, count = len(stack.rings), stack.segments
    one = "the ring" if rings == 1 else "each ring"
    dry = Step(
        key="dry-fit",
        name=f"Tape {one} and close it dry",
        tool="clamps",
        detail="Outer edges against a straightedge, tape over every joint, roll it "
        "closed. Mend the angle now if the last joint gapes: a sled with its fence "
        "fixed keeps an angle truer than a gauge that is moved.",
        bench_minutes=5 + 5 * rings,
        cautions=("clamps.strap-under-load",),
        supplies=(bench.TAPE,),
    )
    return [dry, *(_halves(rings, count) if stack.halves else [_at_once(rings)])]


SIZE_FIRST = (
    "These are end-grain joints: brush on a thin coat of glue, let it soak in for a "
    "few minutes, then glue again and rub the joint. "
)


def _halves(rings: int, count: int) -> list[Step]:
    return [
        Step(
            key="glue-halves",
            name=f"Glue {2 * rings} half rings",
            tool="clamps",
            detail=f"{SIZE_FIRST}{count // 2} segments to a half on a flat, waxed "
            "board; leave the two joints between the halves dry, with a slip of paper "
            "in them.",
            bench_minutes=(10 + 2 * count) * rings,
            waits=(bench.UNCLAMP,),
            cautions=("clamps.strap-under-load", *bench.GLUE_CAUTIONS),
            supplies=(bench.GLUE,),
        ),
        Step(
            key="true-halves",
            name="True the halves against each other",
            tool="hand plane",
            detail="Both ends of a half in one plane: rub them on coarse abrasive "
            "glued to a flat board, or plane them, until two halves close without "
            "light between them. This takes out what all the angles are off together. "
            "Mark the halves as a pair.",
            bench_minutes=10 * rings,
            cautions=("hand-plane.cut-hand", "sanding.wood-dust"),
            supplies=bench.abrasive(80),
        ),
        Step(
            key="close-rings",
            name="Glue the halves together",
            tool="clamps",
            detail="A band clamp round the outer flats, light pressure, the ring flat "
            "on the board.",
            bench_minutes=10 * rings,
            waits=(bench.UNCLAMP, bench.BEFORE_PLANING),
            cautions=("clamps.strap-under-load", *bench.GLUE_CAUTIONS),
            supplies=(bench.GLUE,),
        ),
    ]


def _at_once(rings: int) -> Step:
    return Step(
        key="close-rings",
        name="Glue the ring in one go" if rings == 1 else "Glue each ring in one go",
        tool="clamps",
        detail=f"{SIZE_FIRST}An odd number has no halves to true: the dry fit must "
        "close. A band clamp round the outer flats, the ring flat on a waxed board.",
        bench_minutes=25 * rings,
        waits=(bench.UNCLAMP, bench.BEFORE_PLANING),
        cautions=("clamps.strap-under-load", *bench.GLUE_CAUTIONS),
        supplies=(bench.GLUE,),
    )


def _stacked(stack: Stack, shop: Shop) -> list[Step]:
    rings, thick = len(stack.rings), shop_text(stack.thickness, shop)
    flatten = Step(
        key="flatten-rings",
        name=f"Flatten both faces to {thick}",
        tool="hand plane",
        detail="On coarse abrasive glued to a flat board, or with a plane across the "
        "joints; a dealer with a drum sander does it for a fee. Never in a thickness "
        "planer: the grain runs every way and the ring may burst. A pencil line round "
        "the face goes everywhere at once when it is flat.",
        bench_minutes=20 * rings,
        cautions=("hand-plane.cut-hand", "sanding.wood-dust"),
        supplies=bench.abrasive(80, 120),
    )
    if rings == 1 and stack.bottom is None:
        return [flatten]
    last = rings - 1 + (stack.bottom is not None)
    return [
        flatten,
        Step(
            key="stack-rings",
            name="Glue up the stack",
            tool="clamps",
            detail="From the bottom up, one joint at a time, each ring turned by half "
            "a segment against the one below, like bricks. Draw the middle lines of "
            "at least three segments on each ring and lay them on the joints below: "
            "that centres it. Clean off the squeeze-out inside while it can be "
            "reached.",
            bench_minutes=15 * last,
            waits=(bench.UNCLAMP, bench.BEFORE_PLANING),
            cautions=bench.GLUE_CAUTIONS,
            supplies=(bench.GLUE,),
        ),
    ]


def _turned(stack: Stack, shop: Shop) -> list[Step]:
    profile, rings = stack.profile, len(stack.rings)
    low, high = profile.levels[0][1], profile.levels[-1][1]
    to = f"Down to {shop_text(low, shop)}."
    if stack.shaped:
        levels = "; ".join(
            f"{shop_text(wide, shop)} at {shop_text(at, shop)}"
            for at, wide in profile.levels
        )
        to = f"Outside diameters up from the bottom: {levels}."
    inside = f"To {shop_text(high - profile.walls, shop)} inside"
    if stack.shaped:
        inside = f"To a wall of {shop_text(Length(profile.walls.nm // 2), shop)}"
    return [
        lathe.mount(
            "Mount the blank on the lathe",
            "Glue a round waste block of scrap to its bottom, over all of the joints, "
            "and screw that to the faceplate; bring up the tailstock with a disc "
            "between as long as it fits.",
        ),
        lathe.check_blank("the ring" if rings == 1 else "every ring of the stack"),
        lathe.turn(
            "turn-outside", "Turn the outside", 30 + 10 * rings, f"{lathe.ROUND}{to}"
        ),
        lathe.turn(
            "turn-inside",
            "Turn the inside",
            30 + 15 * rings,
            f"{inside}. Light cuts, the rest close: what sticks out far chatters and "
            "catches.",
        ),
        lathe.sanded(),
        lathe.turn(
            "part-off",
            "Part it from the waste block",
            20,
            "Part off nearly through, stop the lathe and saw the rest by hand; true "
            "the foot on abrasive.",
        ),
    ]
