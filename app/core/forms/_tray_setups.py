"""The tray's machine set-ups, in the order they are made."""

from __future__ import annotations

from dataclasses import replace

from app.core.angle import Angle
from app.core.forms._bench import shop_text
from app.core.forms._polygon_cut import cut_polygon
from app.core.forms._set_ups import (
    SHEET_DOWN,
    crosscut,
    end_bevel,
    groove,
    mitre,
    rip,
    rip_strips,
)
from app.core.forms._spline_work import spline_set_up
from app.core.forms._tray import HIGHEST_CUT, Tray
from app.core.forms._tray_parts import glue_ups
from app.core.forms._tray_resolve import tidy
from app.core.inputs import refuse, typed
from app.core.length import Length, mm
from app.core.setup import SetUp
from app.core.shop import Shop

FREE = (
    "The stop is clamped to the gauge's own fence and goes along with the rail, so the "
    "piece that falls away lies free on the other side."
)
SHEET_CAUTION = ("table-saw.loss-of-control",)
# Shorter than this a hand comes too near the blade: common practice, no source.
SHORT = mm(300)
HELD = (
    " Shorter than 300 mm (12 in): clamp each to the gauge's fence, or cut it from the "
    "longer piece that can be held."
)


def set_ups(tray: Tray, spares: int, shop: Shop) -> tuple[SetUp, ...]:
    """Every machine setting of the build."""
    found = [_rip_rails(tray, shop)]
    if tray.has_panel:
        found.append(_groove(tray, shop))
    found += _mitres(tray, spares, shop)
    found += [rip_strips(one, shop) for one in glue_ups(tray, shop)]
    if tray.has_panel and tray.material != "glass":
        found += _panel(tray, shop)
    if tray.splines:
        found.append(spline_set_up(tray.splines, tray.kerf, shop, "tray"))
    return tuple(found)


def _rip_rails(tray: Tray, shop: Shop) -> SetUp:
    over = tray.allowances.of("long_rail" if tray.oblong else "rail").width
    wide = max(tray.rail_width, tray.rail_height) + over
    return rip(
        "rip-rails",
        f"Rip the moulding stock {shop_text(wide, shop)} wide; that is over size by "
        f"{shop_text(over, shop)}, which the jointer takes off the sawn edge.",
        wide,
        shop,
    )


def _groove(tray: Tray, shop: Shop) -> SetUp:
    name = "Groove" if tray.housing == "groove" else "Rebate"
    made = groove(
        "groove",
        name,
        "the inner face of the moulding, before the rails are cut from it",
        tray.groove_up,
        tray.panel_thickness,
        tray.groove_depth,
        tray.kerf,
        shop,
    )
    if tray.room.nm or tray.housing == "rebate":
        return made
    hair = (
        " Go a hair deeper than that: a panel that meets the groove's bottom holds the "
        "mitres open."
    )
    return replace(made, cuts=made.cuts + hair)


def _mitres(tray: Tray, spares: int, shop: Shop) -> list[SetUp]:
    groups = [("rails", "rails", tray.long_side, tray.sides + spares)]
    if tray.oblong:
        groups = [
            ("long rails", "long-rails", tray.long_side, 2 + spares),
            ("short rails", "short-rails", tray.short_side, 2),
        ]
    if tray.tall:
        return [_tilted(tray, *group, shop) for group in groups]
    return [_first_ends(tray, shop), *(_second(tray, *one, shop) for one in groups)]


def closes(tray: Tray) -> str:
    """How the mitres are proven."""
    if tray.four:
        return (
            "Two scraps mitred so make a true right angle against a try square; then "
            "all 4 rails close dry in a strap, and both diagonals are equal."
        )
    return (
        f"{tray.sides} short scraps mitred so close into a ring without light between "
        "them; then the rails themselves, dry in a strap."
    )


def _carried(tray: Tray, side: Length) -> Length:
    """What rides on the gauge: a rail still at its rough length."""
    return tray.uncut(side)


def _first_ends(tray: Tray, shop: Shop) -> SetUp:
    carried = _carried(tray, tray.long_side)
    where = (
        ", without a stop, the outer face on the gauge's fence and the lower edge down"
    )
    made = mitre(
        "mitre-first-ends",
        f"Mitre the first end of every rail at {tray.gauge}"
        + ("." if carried > shop.longest_crosscut else f"{where}."),
        tray.gauge,
        tray.long_side,
        shop,
        face_down="lower edge, outer face on the fence",
        check=closes(tray),
        carried=carried,
    )
    return replace(_held(made, tray.short_side), stop=None)


def _held(made: SetUp, side: Length) -> SetUp:
    """Short rails are clamped, with the caution; long ones lie on the bench."""
    if made.machine == "hand saw":
        return replace(made, face_down="lower edge, clamped to the bench")
    if side >= SHORT:
        return made
    cautions = (*made.cautions, "crosscut-sled.short-piece")
    return replace(made, cuts=made.cuts + HELD, cautions=cautions)


def _second(
    tray: Tray, what: str, key: str, side: Length, count: int, shop: Shop
) -> SetUp:
    text = shop_text(side, shop)
    carried = _carried(tray, side)
    cuts = (
        f"Turn each rail end for end, upper edge down, so that the outer face stays on "
        f"the fence and the gauge stays at {tray.gauge}. Long point against a stop "
        f"{text} from the blade, measured along the outer face, cut {count} {what} to "
        f"one length. Saw the stop block to the same angle, or the point crushes. "
        f"{FREE}"
    )
    if carried > shop.longest_crosscut:
        cuts = (
            f"Cut {count} {what} to {text} from long point to long point, marked along "
            "the outer face of all of them at once from one stick."
        )
    pair = "Opposite" if tray.four else "Any two"
    made = mitre(
        f"mitre-{key}",
        cuts,
        tray.gauge,
        side,
        shop,
        face_down="upper edge, outer face on the fence",
        check=f"{pair} rails stood back to back are flush at both points, {text} "
        "from point to point.",
        carried=carried,
    )
    return _held(made, side)


def _tilted(
    tray: Tray, what: str, key: str, side: Length, count: int, shop: Shop
) -> SetUp:
    """Rails taller than the blade reaches lie on their outer face instead."""
    _prove_tilt(tray, shop)
    made = end_bevel(
        f"mitre-{key}",
        f"{count} {what}",
        tray.gauge,
        side,
        shop,
        check=closes(tray),
        input="rail_height",
        nearest=typed(tidy(HIGHEST_CUT, shop), shop.unit),
    )
    why = (
        f" They are taller than the {shop_text(HIGHEST_CUT, shop)} that a blade cuts "
        "through upright, so they lie on the outer face and the blade is tilted."
    )
    return replace(made, cuts=made.cuts + why)


def _prove_tilt(tray: Tray, shop: Shop) -> None:
    """Refuse rails that no blade and no jig can mitre lying."""
    rest = Angle(90 - tray.gauge.degrees)
    if min(tray.gauge, rest) <= shop.most_tilt:
        return
    near = typed(tidy(HIGHEST_CUT, shop), shop.unit)
    message = (
        f"Rails {typed(tray.rail_height, shop.unit)} high are mitred lying, with the "
        f"blade tilted to {tray.gauge}, or to {rest} in a jig; it tilts to "
        f"{shop.most_tilt}. Rails up to {near} stand on the mitre gauge instead."
    )
    raise refuse("rail_height", message, near)


def _panel(tray: Tray, shop: Shop) -> list[SetUp]:
    if not tray.four:
        return [_panel_round(tray, shop)]
    long, wide = (shop_text(one, shop) for one in tray.panel_size)
    sheet = () if tray.solid_panel else SHEET_CAUTION
    ripped = rip("rip-panel", f"Rip the panel {wide} wide.", tray.panel_size[1], shop)
    if sheet:
        ripped = replace(ripped, face_down=SHEET_DOWN)
    cut = crosscut(
        "cut-panel",
        f"Square one end of the panel, turn it round and cut it {long} long.",
        tray.panel_size[0],
        shop,
        face_down="the face that will be underneath",
        check="Both diagonals of the panel are equal.",
    )
    return [replace(one, cautions=(*one.cautions, *sheet)) for one in (ripped, cut)]


def _panel_round(tray: Tray, shop: Shop) -> SetUp:
    return cut_polygon(
        "cut-panel",
        "panel",
        tray.sides,
        tray.panel_across(tray.long),
        tray.panel_blank,
        shop,
    )
