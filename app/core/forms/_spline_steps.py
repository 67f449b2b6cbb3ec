"""The steps that splines add to a build, and what their maker is told.

Minutes and know-how are common practice, no source.
"""

from __future__ import annotations

from app.core.corner_splines import Splines
from app.core.forms import _bench as bench
from app.core.forms._bench import shop_text
from app.core.length import Length
from app.core.shop import Shop
from app.core.step import Step

STRENGTH = (
    "At a mitre end grain meets end grain, and that holds glue weakly: the open pores "
    "drink it before it sets."
)


def spline_steps(splines: Splines, shop: Shop) -> list[Step]:
    """From the slots to splines trimmed flush."""
    count = splines.count
    woods = splines.by_species
    listed = ", ".join(f"{number} of {name}" for name, number in woods.items())
    return [
        Step(
            key="spline-slots",
            name="Saw the slots for the splines",
            tool="table saw",
            detail="Only when the glue has its full strength.",
            set_up="splines",
            bench_minutes=20 + count,
            cautions=("table-saw.spline-slot", "table-saw.cradle"),
        ),
        Step(
            key="spline-stock",
            name=f"Cut {count} splines",
            tool="hand saw",
            detail=f"{listed}, from offcuts of the same wood. Plane a strip to "
            f"{shop_text(splines.thickness, shop)}, until it slides in by hand, then "
            "cut triangles with the grain along the long edge, a little over size.",
            bench_minutes=15 + count,
            cautions=("hand-saw.work-slips",),
        ),
        Step(
            key="glue-splines",
            name="Glue in the splines",
            tool="clamps",
            detail="Glue on both cheeks and in the slot; push each one down to the "
            "floor of its slot. They need no clamp.",
            bench_minutes=10 + count,
            waits=(bench.UNCLAMP,),
            cautions=bench.GLUE_CAUTIONS[1:],
            supplies=(bench.GLUE,),
        ),
        Step(
            key="trim-splines",
            name="Trim the splines flush",
            tool="hand plane",
            detail="Saw off most, plane from the corner inwards so that nothing splits "
            "off, then sand flush.",
            bench_minutes=10 + count,
            cautions=("hand-plane.cut-hand", "hand-saw.work-slips"),
        ),
    ]


def spline_warnings(splines: Splines | None, kerf: Length, shop: Shop) -> list[str]:
    """On weak mitres, splines that would be loose, and little wood left behind."""
    if splines is None:
        return [f"{STRENGTH} Splines across the corners mend that."]
    found = []
    thick = shop_text(splines.thickness, shop)
    if splines.thickness < kerf:
        found.append(
            f"The splines, {thick} thick, would be loose: one pass of the blade is "
            f"{shop_text(kerf, shop)} wide. Use a thinner blade, or make them as thick "
            "as the kerf at least."
        )
    if splines.cheek * 5 < splines.corner_thickness:
        found.append(
            f"Only {shop_text(splines.cheek, shop)} of wood is left between the "
            "splines and the inner corner: the slots may break through."
        )
    return found
