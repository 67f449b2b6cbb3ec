"""What splines add to a design: sizes, parts, a joint, the table, the set-up.

The set-up's know-how is common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

from app.core.allowance import Over
from app.core.angle import Angle
from app.core.corner_splines import Splines
from app.core.design import Joint
from app.core.forms._bench import shop_text
from app.core.forms._book import GEOMETRY, Book
from app.core.length import Length
from app.core.part import Dimensions, Part
from app.core.pattern import letter
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.size import Group, Kind, Size
from app.core.table import Table


def spline_sizes(
    splines: Splines, share: Fraction | None, height: Length, shop: Shop
) -> tuple[Size, ...]:
    """Depth, what shows, what is left, and the glue it adds.

    ``share`` is None where the cheek was given; ``height`` is that of the mitres.
    """
    book = Book(shop)
    show, part = book.show, f"180°/{splines.sides}"
    corner = show(splines.corner_thickness)
    depth = (
        ("share of the wood at the corner", f"{float(share):g} × {corner}")
        if share is not None
        else (
            "wood at the corner less what is left behind",
            f"{corner} - {show(splines.cheek)}",
        )
    )
    return (
        book.length(
            "spline_slot_depth",
            "Spline slot depth, from the corner towards the middle",
            splines.depth,
            *depth,
        ),
        book.length(
            "spline_visible_length",
            "Spline as it shows on each face",
            splines.visible,
            f"slot depth divided by sin({part})",
            f"{show(splines.depth)} / sin({part})",
        ),
        book.length(
            "spline_cheek",
            "Wood between a slot and the inner corner",
            splines.cheek,
            "wood at the corner less the slot depth",
            f"{corner} - {show(splines.depth)}",
        ),
        *_glue(splines, height, book),
    )


def _glue(splines: Splines, height: Length, book: Book) -> tuple[Size, Size]:
    show, count = book.show, splines.count
    ends = splines.sides * splines.corner_thickness.nm * height.nm
    area = round(splines.glue_area * count)
    return (
        Size(
            "spline_glue_area",
            "Glue on the long grain of the splines",
            Kind.AREA,
            area,
            "splines × two cheeks, each long edge × depth / 2",
            f"{count} × {show(splines.long)} × {show(splines.depth)}",
            GEOMETRY,
            "nm2",
            Group.TAKES,
        ),
        Size(
            "spline_glue_share",
            "That is, for the end grain glued at the mitres",
            Kind.RATIO,
            Fraction(area, ends),
            "long grain of the splines / (corners × wood at the corner × height)",
            f"{splines.sides} × {show(splines.corner_thickness)} × {show(height)}",
            GEOMETRY,
            group=Group.TAKES,
        ),
    )


def spline_key(splines: Splines, row: int) -> str:
    """The part that a row's splines are, rows from 0, lowest first."""
    names = list(splines.by_species)
    if len(names) == 1:
        return "spline"
    return f"spline_{letter(names.index(splines.species[row])).lower()}"


def spline_parts(splines: Splines, over: Over) -> tuple[Part, ...]:
    """The splines of each wood; ``over`` is what their blanks are larger by."""
    finished = Dimensions(splines.long, splines.depth, splines.thickness)
    none, woods = Length(0), splines.by_species
    return tuple(
        Part(
            key=spline_key(splines, splines.species.index(name)),
            name="Spline" if len(woods) == 1 else f"Spline of {name}",
            quantity=count,
            species=name,
            finished=finished,
            blank=over.on(finished),
            outline=(
                (none, none),
                (splines.long, none),
                (splines.long / 2, splines.depth),
            ),
            solid=round(splines.volume),
        )
        for name, count in woods.items()
    )


def spline_joint(splines: Splines) -> Joint:
    """All the splines' cheeks."""
    return Joint("splines", round(splines.glue_area * splines.count))


def spline_table(splines: Splines, kerf: Length, shop: Shop) -> Table:
    """Where every row of slots stands, and the stop that puts it there."""
    show = Book(shop).show
    rows = [
        (str(i + 1), wood, show(middle), show(first), show(last))
        for i, (wood, middle, (first, last)) in enumerate(
            zip(splines.species, splines.heights, splines.stops(kerf), strict=True)
        )
    ]
    passes = splines.thickness > kerf
    headings = ("Row", "Wood", "Middle, up from the edge", "Stop to the blade")
    return Table(
        key="spline_rows",
        title="Rows of splines, the lowest first",
        headings=(*headings, "At the last pass") if passes else headings,
        rows=tuple(row if passes else row[:4] for row in rows),
        working="stop in the cradle to the blade's near face = middle - thickness / 2; "
        "last pass = first + thickness - kerf",
        source=GEOMETRY,
    )


def spline_set_up(splines: Splines, kerf: Length, shop: Shop, what: str) -> SetUp:
    """Slots across the corners of ``what`` (``vessel``), lying in a cradle."""
    stops = splines.stops(kerf)
    depth = shop_text(splines.depth, shop)
    firsts = ", ".join(shop_text(first, shop) for first, _ in stops)
    passes = ""
    if splines.thickness > kerf:
        lasts = ", ".join(shop_text(last, shop) for _, last in stops)
        passes = (
            " The splines are thicker than a kerf: move the stop away by a little less "
            f"than a kerf for each next pass; at the last one it stands {lasts}."
        )
    return SetUp(
        key="splines",
        machine="table saw",
        cuts=f"Saw {len(stops)} slots across each corner, {depth} deep from the "
        f"corner, the {what} lying corner down in a cradle that slides along the "
        "fence, its lower edge against a stop block clamped in the cradle. The "
        f"block's face stands {firsts} from the blade; cut every corner before it is "
        f"moved.{passes}",
        tilt=Angle.of(0),
        stop=stops[0][0],
        face_down="a corner, in the cradle, the lower edge against the stop block",
        check=f"On a scrap corner the slot is {depth} deep at the corner and a spline "
        f"{shop_text(splines.thickness, shop)} thick slides in by hand.",
        cautions=(
            "table-saw.spline-slot",
            "table-saw.cradle",
            "table-saw.kickback-path",
            "table-saw.hands-near-blade",
        ),
    )
