"""The carcass's machine set-ups, in the order they are made.

Both sides are worked as a pair, so that every dado meets its fellow. The know-how
is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from app.core.forms._bench import shop_text
from app.core.forms._carcass import Carcass
from app.core.forms._set_ups import SHEET_DOWN, crosscut, groove, rip, rip_strips
from app.core.inputs import typed
from app.core.length import Length, mm
from app.core.part import GlueUp
from app.core.setup import SetUp
from app.core.shop import Shop

SHEET = ("table-saw.loss-of-control",)
ROUTER = ("router.feed-direction", "router.bit-speed", "router.bit-held-short")
DRILL = ("drill-press.spinning-work", "drill-press.chuck-key")
PAIR = "The two sides lie edge to edge, back edges together, so that one pass cuts both"
# Wider than this a sheet or a board is no longer pushed past the blade by one person.
WIDE = mm(600)


def set_ups(
    carcass: Carcass, glued: tuple[GlueUp, ...], spares: int, shop: Shop
) -> tuple[SetUp, ...]:
    """Every machine setting of the build."""
    found = [rip_strips(one, shop) for one in glued]
    if carcass.edge:
        found.append(_edges(carcass, shop))
    found += _widths(carcass, shop)
    found += _lengths(carcass, spares, shop)
    found += _housings(carcass, shop)
    if carcass.pinned:
        found.append(_pins(carcass, shop))
    if carcass.has_back:
        found += _back(carcass, shop)
    return tuple(found)


def _rip(carcass: Carcass, key: str, what: str, width: Length, shop: Shop) -> SetUp:
    made = rip(key, f"Rip {what} {shop_text(width, shop)} wide.", width, shop)
    if carcass.solid and width < WIDE:
        return made
    down = made.face_down if carcass.solid else SHEET_DOWN
    return replace(made, face_down=down, cautions=(*made.cautions, *SHEET))


def _widths(carcass: Carcass, shop: Shop) -> Iterable[SetUp]:
    what = "sides, top and bottom"
    yield _rip(carcass, "rip-sides", what, carcass.board_depth, shop)
    if carcass.shelves:
        what = "shelves"
        yield _rip(carcass, "rip-shelves", what, carcass.shelf_depth, shop)
    if carcass.loose:
        what = "adjustable shelves"
        yield _rip(carcass, "rip-loose-shelves", what, carcass.loose_depth, shop)


def _lengths(carcass: Carcass, spares: int, shop: Shop) -> Iterable[SetUp]:
    first = "Square one end of each, then cut"
    same = "Both sides stood on one bench are flush at the top."
    long = shop_text(carcass.height, shop)
    yield crosscut(
        "cut-sides",
        f"{first} 2 sides {long} long.",
        carcass.height,
        shop,
        face_down="inner face: what splinters at its ends the rebates take away",
        check=same,
    )
    count = carcass.shelves + spares
    what = "top and bottom" + (f" and {count} shelves" if count else "")
    yield crosscut(
        "cut-shelves",
        f"{first} {what} {shop_text(carcass.shelf_length, shop)} long, all alike: "
        "one that is longer holds the others off.",
        carcass.shelf_length,
        shop,
        face_down="the face that will be underneath",
    )
    if carcass.loose:
        yield crosscut(
            "cut-loose-shelves",
            f"{first} {carcass.loose} adjustable shelves "
            f"{shop_text(carcass.loose_length, shop)} long.",
            carcass.loose_length,
            shop,
            face_down="the face that will be underneath",
            check="Each goes in between the sides and turns down without scraping.",
        )


def _housings(carcass: Carcass, shop: Shop) -> Iterable[SetUp]:
    deep, thick = (shop_text(one, shop) for one in (carcass.dado, carcass.thickness))
    cutter = (
        f"a straight cutter as wide as the boards ({thick}), or a narrower one and a "
        "second pass"
    )
    fits = f"A test cut in scrap is {deep} deep and a board goes in by hand pressure."
    yield SetUp(
        key="rebate-ends",
        machine="router",
        cuts=f"Rebate both ends of both sides on the inner face, {deep} deep and "
        f"{thick} wide, for top and bottom, with {cutter}, along a straightedge "
        f"clamped square. {PAIR}; scrap clamped on behind keeps the edge from "
        "breaking out.",
        face_down="outer face",
        check=fits,
        cautions=ROUTER,
    )
    if carcass.shelves:
        places = ", ".join(shop_text(up, shop) for up in carcass.shelf_heights)
        yield SetUp(
            key="dado",
            machine="router",
            cuts=f"Cut {carcass.shelves} dadoes across both sides, {deep} deep and "
            f"{thick} wide. Their lower edges stand {places} up from the lower end, "
            "marked on both at once from one story stick; the straightedge lies off "
            "the mark by what the router's base reaches beyond the cutter. "
            f"{PAIR}. They run through to the front edge, where they "
            f"{'go under the strips' if carcass.edge else 'show'}.",
            face_down="outer face",
            check=f"{fits[:-1]}; stood face to face the sides' dadoes are in line.",
            cautions=ROUTER,
        )
    if carcass.has_back:
        made = groove(
            "rebate-back",
            "Rebate",
            "the back edge of sides, top and bottom, on the inner face",
            Length(0),
            carcass.back_thickness,
            carcass.dado,
            carcass.kerf,
            shop,
        )
        yield replace(
            made,
            cuts=made.cuts.replace("lower edge", "back edge"),
            face_down="inner face, back edge on the fence",
        )


def _back(carcass: Carcass, shop: Shop) -> Iterable[SetUp]:
    sheet = () if carcass.solid_back else SHEET
    wide = rip(
        "rip-back",
        f"Rip the back {shop_text(carcass.back_width, shop)} wide.",
        carcass.back_width,
        shop,
    )
    if not carcass.solid_back:
        wide = replace(wide, face_down=SHEET_DOWN)
    cut = crosscut(
        "cut-back",
        f"Cut the back {shop_text(carcass.back_height, shop)} high.",
        carcass.back_height,
        shop,
        face_down="the face that will be behind: the blade splinters it",
        check="Both diagonals of the back are equal: it squares the carcass.",
    )
    for one in (wide, cut):
        yield replace(one, cautions=(*one.cautions, *sheet))


def _pins(carcass: Carcass, shop: Shop) -> SetUp:
    rows = [row for row in carcass.holes if row]
    most = max(map(len, rows))
    inset = shop_text(carcass.pin_inset, shop)
    # A drill goes by its own size: 5 mm is no 3/16 in.
    size = typed(carcass.pin_diameter, shop.unit)
    starts = ", ".join(shop_text(row[0], shop) for row in rows)
    return SetUp(
        key="pins",
        machine="drill press",
        cuts=f"Drill a template of hardwood or plywood: {most} holes {size} wide, "
        f"{shop_text(carcass.pin_pitch, shop)} apart in one line, a fence behind it "
        f"and a stop for each next hole. Through the template drill each side by hand, "
        f"{shop_text(carcass.pin_depth, shop)} deep with a collar on the bit, rows "
        f"{inset} in from the front and from the back; the first holes of each space "
        f"stand {starts} up from the lower end. The template's same end is always "
        "below.",
        face_down="outer face, the template against a block at the lower end",
        check="On scrap a pin goes in by hand and stands square; four pins carry a "
        "board without rocking.",
        cautions=DRILL,
    )


def _edges(carcass: Carcass, shop: Shop) -> SetUp:
    over = carcass.allowances.of("side_edge").thickness
    wide = carcass.edge + over
    return rip(
        "rip-edges",
        f"Rip the strips for the front edges {shop_text(wide, shop)} thick, over size "
        f"by {shop_text(over, shop)}, off stock planed a hair thicker than the boards' "
        f"{shop_text(carcass.thickness, shop)}.",
        wide,
        shop,
    )
