"""Hundreds of trays and frames that can be built, and some that cannot."""

from __future__ import annotations

from itertools import product

Typed = dict[str, str]

MATERIALS = ("plywood", "solid wood", "mdf", "glass")
HOUSINGS = ("groove", "rebate", "none")
FOUR = (
    ("16 in", "12 in"),
    ("300 mm", "300 mm"),
    ("47 5/16 in", "7 in"),
    ("211.37 mm", "333.33 mm"),
    ("1800 mm", "900 mm"),
)
SECTIONS = (("3/4 in", "1 1/2 in"), ("18 mm", "41.3 mm"), ("2 1/4 in", "3/4 in"))
ACROSS = ("200 mm", "13 7/16 in", "913.7 mm")


def _rectangles() -> list[Typed]:
    found = []
    for number, ((long, wide), (rail, high), housing) in enumerate(
        product(FOUR, SECTIONS, HOUSINGS)
    ):
        for splines in ("0", "1"):
            typed = {
                "length": long,
                "width": wide,
                "rail_width": rail,
                "rail_height": high,
                "panel": housing,
                "panel_material": MATERIALS[number % 4],
                "panel_thickness": "6 mm",
                "groove_up": "3 mm",
                "splines_per_corner": splines,
                "spline_thickness": "1/8 in" if number % 2 else "3 mm",
            }
            found.append(typed)
    return found


def _rounds() -> list[Typed]:
    found = []
    for number, (sides, across, housing) in enumerate(
        product((3, 5, 6, 7, 8, 9, 10, 11, 12), ACROSS, HOUSINGS)
    ):
        typed = {
            "sides": str(sides),
            "inscribed": across,
            "panel": housing,
            "panel_material": MATERIALS[number % 4],
            "rail_width": ("14.3 mm", "3/4 in", "22 mm")[number % 3],
            "rail_height": ("38 mm", "1 1/2 in", "83.3 mm")[number % 3],
            "splines_per_corner": str(number % 3),
            "spline_depth_share": "0.3",
            "panel_room": "0.9 mm" if number % 2 else "",
        }
        found.append(typed)
    return found


def _odd() -> list[Typed]:
    plain = {"length": "16 in", "width": "12 in"}
    six = {"sides": "6", "inscribed": "300 mm"}
    more: list[Typed] = [
        {"groove_up": "0"},
        {"groove_up": "1.2 in"},
        {"groove_depth": "0.74 in"},
        {"groove_depth": "1 mm"},
        {"panel_room": "0"},
        {"panel_room": "0.3 in"},
        {"panel_material": "solid wood", "panel_strips": "1"},
        {"panel_material": "solid wood", "panel_strips": "7"},
        {"panel_material": "solid wood", "panel_species": "sugar maple"},
        {"panel_material": "solid wood", "sawn": "quarter", "spares": "2"},
        {"species": "white oak", "finish": "none"},
        {"finish": "shellac", "coats": "4"},
        {"spares": "5", "moulding_length": "1 m"},
        {"kerf": "2.2 mm", "panel_thickness": "2 mm"},
        {"rail_height": "5 in"},
        {"rail_height": "0.6 in", "panel_thickness": "0.2 in"},
        {"over_size": "rail: length 1 in; panel: width 5 mm"},
        {"spline_cheek": "5 mm", "splines_per_corner": "1"},
        {"spline_depth_share": "0.7", "splines_per_corner": "2"},
        {"spline_species": "sugar maple, black cherry", "splines_per_corner": "2"},
        {"widest_gap": "0.5 mm", "width_spread": "0"},
        {"panel": "none", "panel_material": "glass"},
        {"panel": "rebate", "panel_material": "glass"},
        {"panel": "rebate", "splines_per_corner": "3"},
        {"rail_width": "4 in", "rail_height": "1 in", "panel": "none"},
        {"moulding_length": "5 m", "rail_width": "10 mm"},
    ]
    found = [plain | one for one in more]
    return found + [six | one for one in more if one.get("rail_width") != "4 in"]


GRID: list[Typed] = [*_rectangles(), *_rounds(), *_odd()]

PLAIN: Typed = {"length": "16 in", "width": "12 in"}
REFUSED: list[tuple[Typed, str]] = [
    ({"sides": "2", "inscribed": "8 in"}, "sides"),
    ({"sides": "13", "inscribed": "8 in"}, "sides"),
    ({"width": "12 in"}, "length"),
    ({"length": "16 in"}, "width"),
    ({"sides": "6"}, "inscribed"),
    ({"sides": "6", "inscribed": "8 in", "length": "9 in"}, "length"),
    (PLAIN | {"inscribed": "8 in"}, "inscribed"),
    (PLAIN | {"rail_width": "6 in"}, "rail_width"),
    (PLAIN | {"width": "0.001 in"}, "rail_width"),
    ({"sides": "3", "inscribed": "30 mm", "rail_width": "15 mm"}, "rail_width"),
    (PLAIN | {"groove_depth": "3/4 in"}, "groove_depth"),
    (PLAIN | {"rail_width": "1 mm", "groove_depth": "1 mm"}, "groove_depth"),
    (PLAIN | {"panel_room": "3/8 in"}, "panel_room"),
    (
        PLAIN | {"panel_material": "solid wood", "groove_depth": "1 mm"},
        "groove_depth",
    ),
    (PLAIN | {"groove_up": "1 1/4 in"}, "groove_up"),
    (PLAIN | {"groove_up": "1 1/2 in"}, "groove_up"),
    (PLAIN | {"panel_thickness": "1 1/2 in"}, "panel_thickness"),
    (PLAIN | {"panel": "rebate", "panel_thickness": "2 in"}, "panel_thickness"),
    (PLAIN | {"panel_thickness": "2 in", "groove_up": "2 in"}, "rail_height"),
    (PLAIN | {"moulding_length": "16 in"}, "moulding_length"),
    (PLAIN | {"panel_material": "solid wood", "panel_strips": "29"}, "panel_strips"),
    (PLAIN | {"species": "white oak, black walnut"}, "species"),
    (PLAIN | {"splines_per_corner": "20"}, "splines_per_corner"),
    (PLAIN | {"panel": "tongue"}, "panel"),
    (PLAIN | {"over_size": "lid: length 1 in"}, "over_size"),
]
