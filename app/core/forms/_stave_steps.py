"""The staves' steps in bench order. Times and order are common practice, no source."""

from __future__ import annotations

from app.core.forms import _bench as bench
from app.core.forms import _turned_bottom as under
from app.core.forms import _turned_steps as lathe
from app.core.forms._bench import shop_text
from app.core.forms._common import Common
from app.core.forms._stave import Cylinder
from app.core.length import Length
from app.core.part import Dimensions
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.step import Step


def steps(
    made: Cylinder, set_ups: tuple[SetUp, ...], asked: Common, shop: Shop
) -> tuple[Step, ...]:
    """Every operation, from rough boards to the last coat."""
    found = [*_stock(made, shop), *_staves(made, shop), *_glued(made)]
    if made.bottom is not None:
        found += under.steps(made.bottom, made.allowances, shop)
        found.append(_bottom_on())
    found += _turned(made, shop)
    return lathe.with_cautions([*found, *lathe.finished(asked)], set_ups)


def _stock(made: Cylinder, shop: Shop) -> list[Step]:
    long = made.height + made.allowances.of("stave").length
    long = long * made.in_one(max(shop.shortest_jointed, shop.shortest_planed))
    size = Dimensions(long, made.blank_width, made.thickness)
    return [
        bench.joint_stock(
            10 + 3 * len(made.kinds),
            "Every board while it is long. Without a jointer: a hand plane and winding "
            "sticks, or a dealer who surfaces stock for a fee.",
        ),
        bench.planed("plane-staves", "stave stock", size, shop),
    ]


def _staves(made: Cylinder, shop: Shop) -> list[Step]:
    count = made.staves + made.spares
    by_hand = (
        "By hand: a plane held at the bevel by a strip under its sole, checked with a "
        "sliding bevel."
    )
    return [
        Step(
            key="rip-staves",
            name="Rip the staves square",
            tool="table saw",
            set_up="rip-staves",
            bench_minutes=8 + 2 * count,
        ),
        Step(
            key="bevel-first",
            name=f"Bevel the first edge at {made.bevel}",
            tool="table saw",
            detail="Mark every outer face first. Two scraps held together prove the "
            f"tilt: they make twice the bevel. {by_hand}",
            set_up="bevel-first",
            bench_minutes=20 + 2 * count,
        ),
        Step(
            key="bevel-second",
            name="Bevel the second edge",
            tool="table saw",
            detail="One pass for all of them without touching the fence: equal widths "
            "close better than true ones.",
            set_up="bevel-second",
            bench_minutes=10 + 2 * count,
        ),
        Step(
            key="cut-staves",
            name=f"Cut {count} staves to length",
            tool="crosscut sled",
            detail="Number them so that the grain runs on round the cylinder.",
            set_up="cut-staves",
            bench_minutes=10 + count,
        ),
    ]


def _glued(made: Cylinder) -> list[Step]:
    count = made.staves
    dry = Step(
        key="dry-fit",
        name="Tape the staves and close them dry",
        tool="clamps",
        detail="Outer faces up against a straightedge, tape across every joint, roll "
        "it closed. Light in the last joint, inside or outside, shows which way the "
        "tilt is off.",
        bench_minutes=15,
        cautions=("clamps.strap-under-load",),
        supplies=(bench.TAPE,),
    )
    return [dry, *(_halves(count) if count % 2 == 0 else [_at_once(count)])]


def _halves(count: int) -> list[Step]:
    strap = ("clamps.strap-under-load", *bench.GLUE_CAUTIONS)
    return [
        Step(
            key="glue-halves",
            name="Glue two half cylinders",
            tool="clamps",
            detail=f"{count // 2} staves each, all in one band, strips of waxed paper "
            "in the two joints between the halves.",
            bench_minutes=15 + 2 * count,
            waits=(bench.UNCLAMP,),
            cautions=strap,
            supplies=(bench.GLUE, bench.TAPE),
        ),
        Step(
            key="true-halves",
            name="True the halves against each other",
            tool="hand plane",
            detail="Both edges of a half in one plane, rubbed on coarse abrasive glued "
            "to a flat board, until the halves close without light. This takes out "
            "what all the bevels are off together.",
            bench_minutes=25,
            cautions=("hand-plane.cut-hand", "sanding.wood-dust"),
            supplies=bench.abrasive(80),
        ),
        Step(
            key="close-cylinder",
            name="Glue the halves together",
            tool="clamps",
            detail="Bands near both ends and in the middle, light pressure, the lower "
            "ends flat on a waxed board.",
            bench_minutes=15,
            waits=(bench.UNCLAMP, bench.BEFORE_PLANING),
            cautions=strap,
            supplies=(bench.GLUE,),
        ),
    ]


def _at_once(count: int) -> Step:
    return Step(
        key="close-cylinder",
        name="Glue the staves in one go",
        tool="clamps",
        detail="An odd number has no halves to true: the dry fit must close. Glue on "
        "every bevel, roll closed, bands near both ends and in the middle.",
        bench_minutes=20 + 2 * count,
        waits=(bench.UNCLAMP, bench.BEFORE_PLANING),
        cautions=("clamps.strap-under-load", *bench.GLUE_CAUTIONS),
        supplies=(bench.GLUE, bench.TAPE),
    )


def _bottom_on() -> Step:
    return Step(
        key="glue-bottom",
        name="Glue the bottom under the staves",
        tool="clamps",
        detail="Flatten the staves' lower ends on coarse abrasive first; brush thin "
        "glue into the end grain, let it soak in, then glue again. Centre the bottom "
        "by the lines from its corners.",
        bench_minutes=25,
        waits=(bench.UNCLAMP, bench.BEFORE_PLANING),
        cautions=bench.GLUE_CAUTIONS,
        supplies=(bench.GLUE, *bench.abrasive(80)),
    )


BOTH_ENDS = (
    " Then turn it end for end on the other plug, turned anew to fit the inside, and "
    "turn out what the first one hid."
)


def _held(closed: bool) -> str:
    """By plugs at open ends; under a bottom by a waste block."""
    if closed:
        return (
            "Glue a round waste block of scrap to the middle of the bottom and screw "
            "that to the faceplate. A round plug of scrap with a shoulder, turned to "
            "fit the open end, goes in for the tailstock."
        )
    return (
        "Turn a round plug of scrap with a shoulder to fit each open end, snug, and "
        "glue it in with paper between, so that it splits off later. One is screwed "
        "to the faceplate; the tailstock holds the other."
    )


def _turned(made: Cylinder, shop: Shop) -> list[Step]:
    outside = shop_text(made.outside - made.turning * 2, shop)
    inside = shop_text(made.inside + made.turning * 2, shop)
    tall: Length = made.profile.height
    closed = made.bottom is not None
    return [
        lathe.mount("Mount the blank on the lathe", _held(closed)),
        lathe.check_blank("every stave"),
        lathe.turn(
            "turn-outside",
            "Turn the outside",
            30 + tall.nm // 10_000_000,
            f"{lathe.ROUND}Down to {outside}, a parting tool and calipers at both ends "
            "and in the middle first.",
        ),
        lathe.turn(
            "turn-inside",
            "Turn the inside",
            40 + tall.nm // 5_000_000,
            f"Take the plug at the tailstock's end out first. Out to {inside}. A "
            "steady rest holds the free end where it stands out further than it is "
            f"wide; light cuts.{'' if closed else BOTH_ENDS}",
        ),
        lathe.sanded(),
        lathe.turn(
            "part-off",
            "Take it off the lathe",
            20,
            "Part the bottom from the waste block nearly through, stop the lathe and "
            "saw the rest by hand; true the foot on abrasive glued to a flat board."
            if closed
            else "With the lathe still, take the last plug out, and true both ends on "
            "abrasive glued to a flat board.",
        ),
    ]
