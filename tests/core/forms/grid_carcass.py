"""Hundreds of carcasses that can be built, and some that cannot."""

from __future__ import annotations

from itertools import product

Typed = dict[str, str]

OUTSIDES = (
    ("24 in", "36 in", "11 in"),
    ("600 mm", "1800 mm", "280 mm"),
    ("13 7/16 in", "9 in", "6 1/8 in"),
    ("1203.7 mm", "711.3 mm", "333.3 mm"),
    ("300 mm", "2100 mm", "500 mm"),
)
BOARDS = (
    {"thickness": "3/4 in", "species": "white oak"},
    {"thickness": "18.3 mm", "species": "eastern white pine", "dado_depth": "5 mm"},
    {"thickness": "18 mm", "material": "plywood", "edge_strip": "8 mm"},
    {"thickness": "16 mm", "material": "mdf", "dado_depth": "1/4 in"},
)
BACKS = (
    {"back": "plywood"},
    {"back": "none"},
    {"back": "solid wood", "back_thickness": "1/2 in", "back_room": "1 mm"},
)


def _cases() -> list[Typed]:
    found = []
    for number, ((wide, high, deep), board, back) in enumerate(
        product(OUTSIDES, BOARDS, BACKS)
    ):
        for shelves in ("0", "1", str(2 + number % 3)):
            size = {"width": wide, "height": high, "depth": deep, "shelves": shelves}
            found.append({**size, **board, **back, "shelf_load": str(number)})
    return found


def _odd() -> list[Typed]:
    more: list[Typed] = [
        {},
        {"loose_shelves": "1"},
        {"loose_shelves": "3", "shelves": "0"},
        {"loose_shelves": "4", "height": "72 in"},
        {"loose_shelves": "2", "loose_play": "3 mm", "pin_diameter": "1/4 in"},
        {"pins": "yes"},
        {"pins": "yes", "pin_pitch": "32 mm", "pin_inset": "37 mm"},
        {"pins": "yes", "pin_clear": "0"},
        {"pins": "yes", "shelves": "5", "height": "2 m"},
        {"strips": "1"},
        {"strips": "6"},
        {"edge_strip": "1 in"},
        {"edge_strip": "3 mm", "edge_species": "sugar maple"},
        {"edge_strip": "1/2 in", "loose_shelves": "2"},
        {"dado_depth": "0.7 in"},
        {"dado_depth": "1 mm"},
        {"back": "mdf", "back_room": "0"},
        {"back": "solid wood", "back_species": "yellow poplar"},
        {"back": "solid wood", "sawn": "quarter"},
        {"shelf_load": "0"},
        {"shelf_load": "317.5"},
        {"species": "moonwood"},
        {"spares": "2"},
        {"spares": "1", "shelves": "0"},
        {"finish": "none"},
        {"finish": "wax", "coats": "3"},
        {"shelves": "12"},
        {"over_size": "side: length 1 in; shelf: width 5 mm"},
    ]
    found = list(more)
    found += [{"width": "48 in", "thickness": "1 in"} | one for one in more]
    return found


GRID: list[Typed] = [
    typed
    for typed in [*_cases(), *_odd()]
    # More than two shelves do not go into the lowest of them.
    if not (typed.get("height") == "9 in" and int(typed.get("shelves", "0")) > 2)
]

REFUSED: list[tuple[Typed, str]] = [
    ({"thickness": "5 in"}, "thickness"),
    ({"width": "1 1/2 in"}, "width"),
    ({"height": "40 mm", "shelves": "0"}, "height"),
    ({"width": "3 in", "thickness": "1 1/4 in"}, "thickness"),
    ({"thickness": "3/4 in", "dado_depth": "3/4 in"}, "dado_depth"),
    ({"thickness": "3/4 in", "dado_depth": "2 in"}, "dado_depth"),
    ({"shelves": "20", "height": "30 in"}, "shelves"),
    ({"shelves": "1", "height": "4 in"}, "shelves"),
    ({"back_thickness": "11 in"}, "back_thickness"),
    ({"depth": "20 mm"}, "depth"),
    ({"edge_strip": "3 in", "depth": "3 in"}, "edge_strip"),
    ({"back_room": "1/4 in"}, "back_room"),
    ({"back": "solid wood", "dado_depth": "1/8 in"}, "back_room"),
    ({"pins": "yes", "pin_depth": "3/4 in"}, "pin_depth"),
    ({"pins": "yes", "pin_inset": "6 in"}, "pin_inset"),
    ({"pins": "yes", "pin_diameter": "12 mm", "pin_pitch": "15 mm"}, "pin_pitch"),
    ({"pins": "yes", "pin_clear": "6 in"}, "pin_clear"),
    ({"loose_shelves": "20"}, "loose_shelves"),
    ({"loose_shelves": "1", "loose_play": "6 in"}, "loose_play"),
    ({"strips": "30"}, "strips"),
    ({"species": "white oak, teak"}, "species"),
    ({"back": "solid wood", "back_species": "teak, iroko"}, "back_species"),
    ({"material": "steel"}, "material"),
    ({"shelf_load": "2000"}, "shelf_load"),
    ({"over_size": "lid: length 1 in"}, "over_size"),
]
