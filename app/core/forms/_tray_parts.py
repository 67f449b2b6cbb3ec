"""The tray's parts, the panel they are cut from, its joints and what moves."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import groupby

from app.core import geometry
from app.core.design import Joint, Moving
from app.core.forms._spline_work import spline_joint, spline_parts
from app.core.forms._tray import NOTHING, Tray
from app.core.length import Length
from app.core.part import Dimensions, GlueUp, Grain, Part, Strip
from app.core.shop import Shop
from app.core.volume import share

PANEL = "tray_panel"


def parts(tray: Tray, spares: int, shop: Shop) -> tuple[Part, ...]:
    """The rails, the panel, the splines and the spare rails."""
    found = _rails(tray)
    if tray.has_panel:
        found.append(_panel(tray))
    if tray.splines:
        found += spline_parts(tray.splines, tray.allowances.of("spline"))
    if spares:
        rail = found[0]
        name = f"Spare {rail.name.lower()}"
        key = f"{rail.key}-spare"
        found.append(replace(rail, key=key, name=name, quantity=spares, spare=True))
    return tuple(found)


def rail_key(tray: Tray, side: Length) -> str:
    """The part that a rail of this outer length is."""
    if not tray.oblong:
        return "rail"
    return "long_rail" if side == tray.long_side else "short_rail"


def rail_volume(tray: Tray, side: Length) -> int:
    """One finished rail in nm³: mitred, with groove and spline slots taken out."""
    sides, wide = tray.sides, tray.rail_width
    plan = geometry.mitred_slab(side, wide, sides)
    volume = plan * tray.rail_height.nm
    if tray.has_panel:
        left = geometry.mitred_slab(side, wide - tray.groove_depth, sides)
        volume -= (plan - left) * tray.panel_thickness.nm
    if tray.splines:
        # Half a slot at either end for every row.
        volume -= len(tray.splines.heights) * tray.splines.volume
    return round(volume)


def _rails(tray: Tray) -> list[Part]:
    if not tray.oblong:
        return [_rail(tray, tray.long_side, "Rail", tray.sides)]
    return [
        _rail(tray, tray.long_side, "Long rail", 2),
        _rail(tray, tray.short_side, "Short rail", 2),
    ]


def _rail(tray: Tray, side: Length, name: str, quantity: int) -> Part:
    key, wide, high = rail_key(tray, side), tray.rail_width, tray.rail_height
    finished = Dimensions(side, max(wide, high), min(wide, high))
    outline = geometry.rectangle(side, high)
    if wide >= high:
        # Lying flat, its larger face shows the mitres.
        none, back = NOTHING, tray.mitre_back
        outline = ((none, none), (side, none), (side - back, wide), (back, wide))
    return Part(
        key=key,
        name=name,
        quantity=quantity,
        species=tray.species,
        finished=finished,
        blank=tray.allowances.of(key).on(finished),
        outline=outline,
        solid=rail_volume(tray, side),
    )


def _panel(tray: Tray) -> Part:
    long, wide = tray.panel_size
    points = tray.outline(tray.panel_across(tray.long), tray.panel_across(tray.short))
    grain = Grain.NONE if tray.material in ("mdf", "glass") else Grain.LENGTH
    finished = Dimensions(long, wide, tray.panel_thickness)
    return Part(
        key="panel",
        name="Panel",
        quantity=1,
        species=tray.panel_species,
        finished=finished,
        blank=panel_blank(tray),
        grain=grain,
        glue_up=PANEL if tray.strips > 1 else "",
        outline=geometry.outline(points),
        solid=round(tray.panel_area * tray.panel_thickness.nm),
    )


def panel_blank(tray: Tray) -> Dimensions:
    """What the panel is cut from; sheets and glass come at their thickness."""
    long, wide = tray.panel_size
    finished = Dimensions(long, wide, tray.panel_thickness)
    if tray.material == "glass":
        return finished
    over = tray.allowances.of("panel").on(finished)
    thick = over.thickness if tray.solid_panel else finished.thickness
    if tray.four:
        return replace(over, thickness=thick)
    blank = tray.panel_blank
    return Dimensions(max(blank, long), max(blank, wide), thick)


def glue_ups(tray: Tray, shop: Shop) -> tuple[GlueUp, ...]:
    """The panel where it is of several strips."""
    if tray.strips < 2:
        return ()
    panel = panel_blank(tray)
    rough = Dimensions(
        panel.length + shop.over_length,
        tray.rough(panel.width / tray.strips + shop.over_width),
        panel.thickness,
    )
    strips = tuple(
        Strip(tray.panel_species, len(list(same)), rough, Length(width))
        for width, same in groupby(share(panel.width.nm, [1] * tray.strips))
    )
    whole = replace(panel, length=rough.length)
    return (GlueUp(PANEL, "Tray panel", 1, strips, whole),)


def joints(tray: Tray, shop: Shop) -> tuple[Joint, ...]:
    """Every glue line: the mitres, the panel's strips, the splines, a sheet's edge."""
    cut = tray.rail_width.nm * tray.rail_height.nm
    if tray.has_panel:
        cut -= tray.groove_depth.nm * tray.panel_thickness.nm
    mitres = tray.sides * cut / geometry.cos(tray.sides)
    found = [Joint("mitres", round(mitres), end_grain=True)]
    for glued in glue_ups(tray, shop):
        line = glued.panel.length.nm * glued.panel.thickness.nm
        found.append(Joint("panel strips", line * (tray.strips - 1)))
    if tray.splines:
        found.append(spline_joint(tray.splines))
    if tray.housing == "rebate" and not tray.solid_panel:
        found.append(Joint("panel in its rebate", round(_ledge(tray))))
    return tuple(found)


def _ledge(tray: Tray) -> Fraction:
    """What of a panel lies against the rails in a rebate, nm²."""
    return tray.panel_area - tray.area(tray.inside(tray.long), tray.inside(tray.short))


def moving(tray: Tray) -> tuple[Moving, ...]:
    """The rails across their grain, and a panel of solid wood in its groove."""
    flat = tray.rail_width >= tray.rail_height
    found = [
        Moving(
            "rail_width",
            "Rail width",
            tray.species,
            tray.rail_width,
            "width" if flat else "thickness",
        ),
        Moving(
            "rail_height",
            "Rail height",
            tray.species,
            tray.rail_height,
            "thickness" if flat else "width",
        ),
    ]
    if tray.solid_panel:
        found.append(
            Moving(
                "panel_width",
                "Panel, across its grain",
                tray.panel_species,
                tray.panel_size[1],
                room=tray.room * 2,
                input="panel_room",
            )
        )
    return tuple(found)


def finish_area(tray: Tray) -> int:
    """All that a finish covers, nm²: what can be seen, above and below."""
    outside = tray.area(tray.long, tray.short)
    inside = tray.area(tray.inside(tray.long), tray.inside(tray.short))
    around = sum(side.nm for side in tray.sides_round)
    inner = around - 2 * tray.sides * tray.mitre_back.nm
    high = tray.rail_height
    area = around * high.nm + 2 * (outside - inside) + inner * high.nm
    if tray.has_panel:
        area -= inner * tray.panel_thickness.nm
        if tray.material != "glass":
            # In a rebate the panel covers as much rail below as it shows itself.
            area += 2 * inside
    return round(area)
