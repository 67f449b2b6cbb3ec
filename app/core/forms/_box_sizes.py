"""The box's sizes, each with its working."""

from __future__ import annotations

import math
from fractions import Fraction

from app.core import closing
from app.core.allowance import Allowances
from app.core.forms._book import TRADE, Book
from app.core.forms._box import Box, Lid
from app.core.forms._box_inputs import Inputs
from app.core.forms._box_joint_sizes import joint_sizes
from app.core.forms._box_wall_panels import wall_cut, wall_way
from app.core.forms._box_within_sizes import divider_sizes
from app.core.forms._panel_tables import panel_sizes
from app.core.forms._spline_work import spline_sizes
from app.core.forms._splined import HALF
from app.core.length import Length
from app.core.shop import Shop
from app.core.size import Size


def sizes(box: Box, inputs: Inputs, over: Allowances, shop: Shop) -> tuple[Size, ...]:
    """Everything the maker wants to know, from the joint outwards."""
    book = Book(shop)
    found = [*joint_sizes(box, book), *_walls(box, book), *_base(box, book)]
    if box.lid:
        found += _lid(box, box.lid, book)
    if box.dividers:
        found += divider_sizes(box, box.dividers, book)
    found.append(_room(box, book))
    if box.splines:
        found += spline_sizes(box.splines, _share(inputs), box.wall_height, shop)
    if box.joint == "mitre":
        found += closing.sizes(
            box.length,
            4,
            inputs.widest_gap,
            inputs.width_spread,
            shop,
            lengths=_round(box),
        )
    if len(box.rows) > 1:
        own = over.of("wall_panel")
        found += panel_sizes((wall_way(box, own),), wall_cut(box, own), shop)
    return tuple(found)


def _share(inputs: Inputs) -> Fraction | None:
    """The splines' share of the corner; None where the wood left was given."""
    if inputs.spline_cheek is not None:
        return None
    share = inputs.spline_depth_share
    return HALF if share is None else share


def _round(box: Box) -> tuple[Length, ...]:
    return (box.length, box.width) * 2


def _walls(box: Box, book: Book) -> list[Size]:
    show = book.show
    found = [
        _cut(box, book, "side", 0),
        _cut(box, book, "end", 1),
        book.length(
            "inside_length",
            "Length inside",
            box.inside_length,
            "length outside less two walls",
            f"{show(box.length)} - 2 × {show(box.wall)}",
        ),
        book.length(
            "inside_width",
            "Width inside",
            box.inside_width,
            "width outside less two walls",
            f"{show(box.width)} - 2 × {show(box.wall)}",
        ),
        _inside_height(box, book),
        book.length(
            "diagonal",
            "Diagonal outside, both ways, when the box is square",
            Length.nearest(math.hypot(box.length.nm, box.width.nm)),
            "square root of length² + width²",
            f"√({show(box.length)}² + {show(box.width)}²)",
        ),
    ]
    if box.fingers:
        found[2:2] = [_sawn(box, book, "side", 0), _sawn(box, book, "end", 1)]
    if box.base == "under":
        found.append(
            book.length(
                "wall_height",
                "Height of the walls",
                box.wall_height,
                "height outside less the base under them",
                f"{show(box.height)} - {show(box.under)}",
            )
        )
    return found


def _cut(box: Box, book: Book, what: str, number: int) -> Size:
    show, outer = book.show, box.outer(number)
    formula, values = "the outside of the box, from corner to corner", show(outer)
    if box.cut_length(number) != outer:
        formula = "the outside less the lips of both rebates it sits in"
        values = f"{show(outer)} - 2 × {show(box.wall - box.rebate_depth)}"
    label = f"Length of each {what}"
    return book.length(f"{what}_length", label, box.cut_length(number), formula, values)


def _sawn(box: Box, book: Book, what: str, number: int) -> Size:
    show = book.show
    return book.length(
        f"{what}_cut",
        f"Length to saw each {what}, before its fingers are flush",
        box.sawn_length(number),
        "finished length and a whisker at both ends, to be sanded off",
        f"{show(box.cut_length(number))} + 2 × {show(box.whisker)}",
        TRADE,
    )


def _inside_height(box: Box, book: Book) -> Size:
    show = book.show
    top = "the underside of the lid" if box.lid else "the top of the walls"
    return book.length(
        "inside_height",
        "Height inside",
        box.inside_height,
        f"from the upper face of the base to {top}, both up from the walls' lower edge",
        f"{show(box.ceiling)} - {show(box.base_top)}",
    )


def _base(box: Box, book: Book) -> list[Size]:
    show = book.show
    if box.base == "under":
        flush = "flush with the outside"
        return [
            book.length("base_length", "Base length", box.length, flush),
            book.length("base_width", "Base width", box.width, flush),
        ]
    formula = (
        "inside and twice what reaches into the walls, the "
        f"{'groove' if box.base == 'groove' else 'rebate'} less the room"
    )
    reach = f"2 × ({show(box.groove_depth)} - {show(box.clearance)})"
    return [
        book.length(
            "base_length",
            "Base length",
            box.base_size.length,
            formula,
            f"{show(box.inside_length)} + {reach}",
        ),
        book.length(
            "base_width",
            "Base width",
            box.base_size.width,
            formula,
            f"{show(box.inside_width)} + {reach}",
        ),
        book.length(
            "groove_depth",
            "Depth of the groove in the walls",
            box.groove_depth,
            "as asked, or half the wall",
            show(box.groove_depth),
            TRADE,
        ),
    ]


def _lid(box: Box, lid: Lid, book: Book) -> list[Size]:
    show, size = book.show, lid.size
    if lid.groove:
        return _sliding(box, lid, book)
    found = [
        book.length("lid_length", "Lid length", size.length, "flush with the outside"),
        book.length("lid_width", "Lid width", size.width, "flush with the outside"),
    ]
    for key, label, inside, one in (
        ("lid_inner_length", "length", box.inside_length, lid.plug[0]),
        ("lid_inner_width", "width", box.inside_width, lid.plug[1]),
    ):
        found.append(
            book.length(
                key,
                f"What drops into the box: {label}",
                one,
                "inside less the room at both edges",
                f"{show(inside)} - 2 × {show(lid.room)}",
            )
        )
    if lid.kind == "rebated":
        found.append(
            book.length(
                "lid_rebate",
                "Rebate round the lid's underside: width",
                box.wall + lid.room,
                "wall and the room",
                f"{show(box.wall)} + {show(lid.room)}",
            )
        )
    return found


def _sliding(box: Box, lid: Lid, book: Book) -> list[Size]:
    show, groove = book.show, lid.groove
    assert groove
    depth = show(box.groove_depth)
    return [
        book.length(
            "lid_length",
            "Lid length",
            lid.size.length,
            "inside and the groove's depth at both ends: it stops in the far end and "
            "is glued into the strip's groove",
            f"{show(box.inside_length)} + 2 × {depth}",
        ),
        book.length(
            "lid_width",
            "Lid width",
            lid.size.width,
            "inside and twice what reaches into the sides, the groove less the room",
            f"{show(box.inside_width)} + 2 × ({depth} - {show(lid.room)})",
        ),
        book.length(
            "lowered_end_height",
            "Height of the lowered end",
            groove.low,
            "height of the walls less the wood above the groove and the lid",
            f"{show(box.wall_height)} - {show(box.wall_height - groove.high)} - "
            f"{show(lid.size.thickness)}",
        ),
        book.length(
            "lid_strip_height",
            "Height of the strip on the lid",
            box.wall_height - groove.low,
            "height of the walls less the lowered end",
            f"{show(box.wall_height)} - {show(groove.low)}",
        ),
    ]


def _room(box: Box, book: Book) -> Size:
    show = book.show
    nm3 = box.inside_length.nm * box.inside_width.nm * box.inside_height.nm
    return book.volume(
        "inside_volume",
        "Room inside, without dividers",
        nm3,
        "inside length × width × height",
        f"{show(box.inside_length)} × {show(box.inside_width)} × "
        f"{show(box.inside_height)}",
    )
