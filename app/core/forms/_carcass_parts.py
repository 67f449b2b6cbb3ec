"""The carcass's parts, the panels they are cut from, its joints and what moves."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import groupby

from app.core import geometry
from app.core.design import Joint, Moving
from app.core.forms._carcass import Carcass
from app.core.length import Length
from app.core.part import Dimensions, GlueUp, Grain, Part, Strip
from app.core.shop import Shop
from app.core.volume import share


def parts(carcass: Carcass, spares: int) -> tuple[Part, ...]:
    """Sides, top and bottom, shelves, back, strips on the edges, and the spares.

    The holes for pins are not taken off their volume.
    """
    found = [*_boards(carcass)]
    if carcass.has_back:
        found.append(_back(carcass))
    if carcass.edge:
        found += _edges(carcass)
    if spares:
        part = next(part for part in reversed(found) if part.key in ("top", "shelf"))
        name = f"Spare {'shelf' if part.key == 'shelf' else 'top'}"
        key = f"{part.key}-spare"
        found.append(replace(part, key=key, name=name, quantity=spares, spare=True))
    return tuple(found)


def _boards(carcass: Carcass) -> Iterable[Part]:
    long, thick = carcass.shelf_length, carcass.thickness
    deep, shelf = carcass.board_depth, carcass.shelf_depth
    side = Dimensions(carcass.height, deep, thick)
    yield _board(carcass, "side", "Side", 2, side, _side_volume(carcass))
    top = Dimensions(long, deep, thick)
    taken = long.nm * carcass.dado.nm * carcass.behind.nm
    yield _board(carcass, "top", "Top and bottom", 2, top, top.volume - taken)
    if carcass.shelves:
        size = Dimensions(long, shelf, thick)
        yield _board(carcass, "shelf", "Shelf", carcass.shelves, size)
    if carcass.loose:
        size = Dimensions(carcass.loose_length, carcass.loose_depth, thick)
        name = "Adjustable shelf"
        yield _board(carcass, "loose_shelf", name, carcass.loose, size)


def _side_volume(carcass: Carcass) -> int:
    """One side in nm³, its rebates and dadoes taken out."""
    thick, deep = carcass.thickness.nm, carcass.dado.nm
    volume = carcass.height.nm * carcass.board_depth.nm * thick
    ends = 2 * thick * deep * carcass.board_depth.nm
    back = carcass.inside_height.nm * deep * carcass.behind.nm
    dadoes = carcass.shelves * thick * deep * carcass.shelf_depth.nm
    return volume - ends - back - dadoes


def _board(
    carcass: Carcass,
    key: str,
    name: str,
    quantity: int,
    size: Dimensions,
    solid: int | None = None,
) -> Part:
    grain = Grain.NONE if carcass.material == "mdf" else Grain.LENGTH
    return Part(
        key=key,
        name=name,
        quantity=quantity,
        species=carcass.species,
        finished=size,
        blank=_blank(carcass, key, size, carcass.solid),
        grain=grain,
        glue_up=f"{key}_panel" if carcass.strips > 1 else "",
        outline=geometry.rectangle(size.length, size.width),
        solid=solid,
    )


def _blank(carcass: Carcass, key: str, size: Dimensions, solid: bool) -> Dimensions:
    """A sheet comes at its thickness: nothing is planed off it."""
    over = carcass.allowances.of(key).on(size)
    return over if solid else replace(over, thickness=size.thickness)


def _back(carcass: Carcass) -> Part:
    size = Dimensions(carcass.back_height, carcass.back_width, carcass.back_thickness)
    return Part(
        key="back",
        name="Back",
        quantity=1,
        species=carcass.back_species,
        finished=size,
        blank=_blank(carcass, "back", size, carcass.solid_back),
        grain=Grain.NONE if carcass.back == "mdf" else Grain.LENGTH,
        glue_up="back_panel" if carcass.back_strips > 1 else "",
        outline=geometry.rectangle(size.length, size.width),
    )


def _edges(carcass: Carcass) -> Iterable[Part]:
    for key, name, quantity, long in (
        ("side_edge", "Strip on a side", 2, carcass.height),
        ("shelf_edge", "Strip on a shelf", carcass.shelves + 2, carcass.inside_width),
    ):
        wide, thick = carcass.thickness, carcass.edge
        size = Dimensions(long, max(wide, thick), min(wide, thick))
        yield Part(
            key=key,
            name=name,
            quantity=quantity,
            species=carcass.edge_species,
            finished=size,
            blank=carcass.allowances.of(key).on(size),
            outline=geometry.rectangle(size.length, size.width),
        )


def glue_ups(carcass: Carcass, spares: int, shop: Shop) -> tuple[GlueUp, ...]:
    """The panels of several strips, with those for spares."""
    made = parts(carcass, spares)
    found = []
    for part in made:
        if part.glue_up and not part.spare:
            like = [one for one in made if one.glue_up == part.glue_up]
            count = sum(one.quantity for one in like)
            found.append(_glue_up(carcass, part, count, shop))
    return tuple(found)


def _glue_up(carcass: Carcass, part: Part, quantity: int, shop: Shop) -> GlueUp:
    count = carcass.back_strips if part.key == "back" else carcass.strips
    panel = replace(part.blank, length=part.blank.length + shop.over_length)
    rough = replace(panel, width=carcass.rough(panel.width / count + shop.over_width))
    strips = tuple(
        Strip(part.species, len(list(same)), rough, Length(width))
        for width, same in groupby(share(panel.width.nm, [1] * count))
    )
    return GlueUp(part.glue_up, f"{part.name} panel", quantity, strips, panel)


def joints(carcass: Carcass, glued: tuple[GlueUp, ...]) -> tuple[Joint, ...]:
    """Every glue line: rebates, dadoes, strips, edges, and a back of sheet."""
    deep, thick = carcass.dado.nm, carcass.thickness.nm
    # At each end of top and bottom: the end, and what lies in the rebate.
    ends = 4 * (thick + deep) * carcass.board_depth.nm
    found = [Joint("top and bottom in their rebates", ends)]
    if carcass.shelves:
        each = (thick + 2 * deep) * carcass.shelf_depth.nm
        found.append(Joint("shelves in their dadoes", 2 * carcass.shelves * each))
    for one in glued:
        lines = sum(strip.quantity for strip in one.strips) - 1
        area = one.panel.length.nm * one.panel.thickness.nm * lines * one.quantity
        found.append(Joint(f"strips of the {one.name.lower()}", area))
    if carcass.edge:
        long = 2 * carcass.height.nm
        long += (carcass.shelves + 2) * carcass.inside_width.nm
        found.append(Joint("strips on the edges", long * thick))
    if carcass.has_back and not carcass.solid_back:
        whole = carcass.back_width.nm * carcass.back_height.nm
        inside = carcass.inside_width.nm * carcass.inside_height.nm
        found.append(Joint("back in its rebate", whole - inside))
    return tuple(found)


def moving(carcass: Carcass) -> tuple[Moving, ...]:
    """The depth of solid boards, which change together, and a solid back."""
    found = []
    if carcass.solid:
        found = [
            Moving(
                "board_depth",
                "Depth of sides, top and bottom, all together",
                carcass.species,
                carcass.board_depth,
            ),
            Moving(
                "shelf_depth",
                "Depth of the shelves",
                carcass.species,
                carcass.shelf_depth,
            ),
        ]
    if carcass.solid_back:
        found.append(
            Moving(
                "back_width",
                "Width of the back",
                carcass.back_species,
                carcass.back_width,
                room=carcass.back_room * 2,
                input="back_room",
            )
        )
    return tuple(found)


def finish_area(carcass: Carcass) -> int:
    """All that a finish covers, nm²: outside, inside, shelves, front, back."""
    wide, high, deep = carcass.width.nm, carcass.height.nm, carcass.depth.nm
    inside_wide, thick = carcass.inside_width.nm, carcass.thickness.nm
    shelf = deep - carcass.behind.nm
    free = carcass.inside_height.nm - carcass.shelves * thick
    outside = 2 * (high + wide) * deep + wide * high
    inside = 2 * (free + inside_wide * (carcass.shelves + 1)) * shelf
    front = wide * high - inside_wide * free
    back = inside_wide * free if carcass.has_back else 0
    loose = carcass.loose_length.nm * carcass.loose_depth.nm * 2
    loose += 2 * thick * (carcass.loose_length.nm + carcass.loose_depth.nm)
    return outside + inside + front + back + carcass.loose * loose
