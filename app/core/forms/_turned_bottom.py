"""A solid bottom of eight sides under rings or staves, turned with them."""

from __future__ import annotations

from itertools import groupby

from app.core import geometry
from app.core.allowance import Allowances
from app.core.design import Joint, Moving
from app.core.forms import _bench as bench
from app.core.forms._bench import shop_text
from app.core.forms._set_ups import rip_strips
from app.core.forms._turned import Bottom
from app.core.length import Length
from app.core.part import Dimensions, GlueUp, Part, Strip
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.solid import Piece, prism
from app.core.step import Step
from app.core.volume import share

PANEL = "bottom_panel"


def part(bottom: Bottom, allowances: Allowances) -> Part:
    """The board as sawn, before it is turned."""
    finished = Dimensions(bottom.across, bottom.across, bottom.thickness)
    return Part(
        key="bottom",
        name="Bottom",
        quantity=1,
        species=bottom.species,
        finished=finished,
        blank=allowances.of("bottom").on(finished),
        glue_up=PANEL if bottom.strips > 1 else "",
        outline=geometry.outline(bottom.points),
        solid=round(bottom.area * bottom.thickness.nm),
    )


def glue_ups(bottom: Bottom, allowances: Allowances) -> list[GlueUp]:
    """The panel it is cut from; none where one board is wide enough."""
    if bottom.strips == 1:
        return []
    over = allowances.of("bottom")
    length, across = bottom.across + over.length, bottom.across + over.width
    thickness = bottom.thickness + over.thickness
    each = Length(-(-across.nm // bottom.strips))
    rough = Dimensions(length, each + over.width, thickness)
    strips = tuple(
        Strip(bottom.species, len(list(same)), rough, Length(width))
        for width, same in groupby(share(across.nm, [1] * bottom.strips))
    )
    panel = Dimensions(length, across, thickness)
    return [GlueUp(PANEL, "Bottom panel", 1, strips, panel)]


def joints(bottom: Bottom) -> list[Joint]:
    """Between the strips of its panel."""
    if bottom.strips == 1:
        return []
    area = (bottom.strips - 1) * bottom.across.nm * bottom.thickness.nm
    return [Joint("Between the bottom's strips", area)]


def moving(bottom: Bottom) -> Moving:
    """Its width across the grain, which the wood glued over it holds."""
    return Moving(
        "bottom_width",
        "Width of the bottom, glued all round",
        bottom.species,
        bottom.across,
        room=Length(0),
        input="bottom",
    )


def piece(bottom: Bottom) -> Piece:
    """Standing at nothing, a flat towards the viewer, a cell a strip."""
    outline = [(x, -y) for x, y in reversed(bottom.points)]
    whole = prism(outline, 0, bottom.thickness.nm, bottom.species)
    cells, low = [], -bottom.across.nm / 2
    for width in share(bottom.across.nm, [1] * bottom.strips):
        high = low + width
        above = whole.cut((0, 1, 0), (0, high, 0))
        cell = above and above.cut((0, -1, 0), (0, low, 0))
        if cell:
            cells.append(cell)
        low = high
    return Piece("bottom", tuple(cells), "Bottom")


def set_ups(bottom: Bottom, allowances: Allowances, shop: Shop) -> list[SetUp]:
    """The rip of its strips."""
    return [rip_strips(one, shop) for one in glue_ups(bottom, allowances)]


def steps(bottom: Bottom, allowances: Allowances, shop: Shop) -> list[Step]:
    """From the strips to eight sides, before it meets the wood above."""
    panel = glue_ups(bottom, allowances)
    found: list[Step] = []
    if panel:
        done = Dimensions(panel[0].panel.length, panel[0].panel.width, bottom.thickness)
        order = "Turn the strips until the grain runs one way."
        found += bench.glued_panel(
            "bottom-panel", "bottom panel", bottom.strips, order, shop, done
        )
    else:
        rough = Dimensions(bottom.across, bottom.across, bottom.thickness)
        found.append(bench.planed("plane-bottom", "bottom", rough, shop))
    return [*found, _eight_sides(bottom, shop)]


def _eight_sides(bottom: Bottom, shop: Shop) -> Step:
    across, corner = shop_text(bottom.across, shop), shop_text(bottom.corner, shop)
    return Step(
        key="saw-bottom",
        name="Saw the bottom to eight sides",
        tool="band saw",
        detail=f"A square {across} on each side first. Mark {corner} from every corner "
        "along both edges and saw the four corners off; no wood outside the lines. "
        "By hand: a saw along a guide clamped to the lines. Mark the middle from "
        "corner to corner: it centres the glue-up.",
        bench_minutes=20,
        cautions=("band-saw.hands-in-line", "band-saw.exposed-blade"),
    )
