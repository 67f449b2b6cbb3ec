"""The carcass's insides, its glue-up, its outside, and its back.

Times at the bench, the order and the know-how are common practice, no source.
"""

from __future__ import annotations

from app.core.forms import _bench as bench
from app.core.forms._carcass import Carcass
from app.core.forms._carcass_inputs import Inputs
from app.core.length import mm
from app.core.shop import Shop
from app.core.step import Step, Supply

# A case taller than this is fastened to the wall: common practice, no source.
TALL = mm(760)
# From screw to screw along a back: common practice, no source.
SCREW_PITCH = mm(150)


def together(carcass: Carcass, inputs: Inputs, shop: Shop) -> list[Step]:
    """From the insides, finished while they are flat, to the last coat and the back."""
    glued_back = carcass.has_back and not carcass.solid_back
    rim = ", and the back's rim" if glued_back else ""
    found = [
        bench.sand("sand-inside", "Sand the inner faces", 40, "Not in the dadoes."),
        *bench.finishing(
            inputs,
            "the inner faces",
            25,
            inside=True,
            first=f"Tape dadoes and rebates{rim}: glue does not hold on finish.",
        ),
        _assemble(carcass),
    ]
    if carcass.edge:
        found.append(_glue_edges())
    found.append(
        bench.sand(
            "sand-outside", "Sand the outside and ease the edges", 40, "With the grain."
        )
    )
    found += bench.finishing(inputs, "the outside", 25)
    if carcass.has_back:
        found.append(_fix_back(carcass))
    if carcass.height > TALL:
        found.append(_to_the_wall())
    return found


def _assemble(carcass: Carcass) -> Step:
    count = carcass.shelves
    shelves = f"{count} shelves, " if count > 1 else "the shelf, " if count else ""
    held = ", where the sides' long grain holds a board's end" if carcass.solid else ""
    back = " Lay the back in dry while the glue sets." if carcass.has_back else ""
    return Step(
        key="assemble",
        name="Glue the carcass together",
        tool="clamps",
        detail=f"On its back edge: one side, {shelves}top and bottom, the other side. "
        f"Glue in the dadoes and rebates{held}; a clamp with a bowed batten at every "
        "board presses its middle too. Measure both diagonals of the front and pull "
        f"the longer one in.{back}",
        bench_minutes=45 + 5 * count,
        waits=(bench.UNCLAMP,),
        cautions=(*bench.GLUE_CAUTIONS, "lifting.back-strain"),
        supplies=(bench.GLUE,),
    )


def _glue_edges() -> Step:
    return Step(
        key="glue-edges",
        name="Glue the strips on the front edges",
        tool="clamps",
        detail="The sides first, then between them. A hair wider than the board is "
        "thick: plane them flush when the glue is dry, then the front to its depth.",
        bench_minutes=40,
        waits=(bench.UNCLAMP, bench.BEFORE_PLANING),
        cautions=bench.GLUE_CAUTIONS,
        supplies=(bench.GLUE, bench.TAPE),
    )


def _fix_back(carcass: Carcass) -> Step:
    glued = not carcass.solid_back
    how = (
        "Glue in the rebate and screws all round: it keeps the carcass square."
        if glued
        else "With screws in slots across its grain, one row fast in the middle; no "
        "glue, so that it can move."
    )
    return Step(
        key="fix-back",
        name="Fix the back",
        tool="clamps",
        detail=f"{how} Both diagonals once more before the last screw.",
        bench_minutes=25,
        waits=(bench.UNCLAMP,) if glued else (),
        cautions=("clamps.falling-or-pinch",),
        supplies=(*((bench.GLUE,) if glued else ()), _screws(carcass)),
    )


def _screws(carcass: Carcass) -> Supply:
    """Round a back of sheet; along the ends and one row up the middle of a solid one.

    Shelves hold it too, but their screws are few.
    """
    wide, high = (
        -(-one.nm // SCREW_PITCH.nm)
        for one in (carcass.back_width, carcass.back_height)
    )
    count = 2 * wide + (carcass.shelves if carcass.solid_back else 2 * high)
    return Supply("screws", f"about {count}")


def _to_the_wall() -> Step:
    return Step(
        key="to-the-wall",
        name="Fasten it to the wall where it will stand",
        tool="try square",
        detail="A strap or an angle at the top, into a stud or a plug fit for the "
        "wall. Heavy things go on the lower shelves.",
        bench_minutes=15,
        cautions=("tall-case.tips-over",),
        supplies=(Supply("wall strap and screws"),),
    )
