"""Boxes that every form's laws are tried on."""

from __future__ import annotations

from itertools import product

# Small, long and low, tall, square and odd, both units typed.
SIZES = (
    ("8 in", "5 in", "3 1/4 in", "1/2 in"),
    ("200 mm", "120 mm", "78 mm", "12 mm"),
    ("101.6 mm", "101.6 mm", "2 7/8 in", "9.37 mm"),
    ("23 5/8 in", "3 1/16 in", "57.3 mm", "3/8 in"),
    ("70 mm", "260 mm", "233.3 mm", "7 mm"),
)
JOINTS: tuple[dict[str, str], ...] = (
    {"joint": "finger", "cutter": "1/4 in"},
    {"joint": "finger", "cutter": "5.1 mm", "finger_passes": "2"},
    {"joint": "rebate"},
    {"joint": "rebate", "rebate_on": "ends", "rebate_depth": "4.3 mm"},
    {"joint": "mitre"},
)
LIDS: tuple[dict[str, str], ...] = (
    {},
    {"lid": "rebated"},
    {"lid": "battened", "lid_lip": "5 mm"},
    {"lid": "sliding", "lid_thickness": "5 mm", "lid_down": "4.7 mm"},
)
BASES: tuple[dict[str, str], ...] = (
    {"base_thickness": "5 mm", "groove_up": "6.1 mm", "base_material": "solid"},
    {"base": "rebate", "base_material": "plywood"},
    {"base": "under", "base_thickness": "8 mm", "base_material": "solid"},
)


def _box(size: tuple[str, ...]) -> dict[str, str]:
    return dict(zip(("length", "width", "height", "wall"), size, strict=True))


GRID: list[dict[str, str]] = [
    _box(size) | joint | lid | base
    for size, joint, lid, base in product(SIZES[:3], JOINTS, LIDS, BASES)
]
DIVIDERS: tuple[dict[str, str], ...] = (
    {"dividers_across": "2"},
    {"dividers_along": "1", "divider_height": "20 mm"},
    {"dividers_across": "1", "dividers_along": "1", "dividers_held": "dados"},
)
GRID += [
    _box(size) | joint | lid | divider
    for size, joint, lid, divider in product(SIZES[3:], JOINTS, LIDS[::3], DIVIDERS)
]
WIDE = _box(("15 in", "11 in", "7 in", "5/8 in"))
METRIC = _box(("333.33 mm", "241.7 mm", "151.3 mm", "14.1 mm"))
MANY = {"dividers_across": "4", "dividers_along": "3"}
GRID += [
    WIDE | joint | {"strip_rows": rows, "species": "walnut, maple", "pattern": pattern}
    for joint, (rows, pattern) in product(
        JOINTS,
        (("3", "bands"), ("4", "alternating"), ("5", "mirrored"), ("7", "stepped")),
    )
]
GRID += [METRIC | joint | lid | MANY for joint, lid in product(JOINTS, LIDS)]
GRID += [
    METRIC | {"joint": "finger", "cutter": f"{150.3 / count:.4f} mm"}
    for count in (3, 4, 5, 6, 7, 11, 12, 25, 50, 98)
]
MITRED = METRIC | {"joint": "mitre"}
GRID += [
    MITRED | {"splines_per_corner": "1"},
    MITRED | {"splines_per_corner": "4", "spline_thickness": "3.3 mm"} | LIDS[3],
    MITRED | {"splines_per_corner": "3", "spline_cheek": "3 mm"} | LIDS[1],
    MITRED | {"splines_per_corner": "2", "spline_depth_share": "0.7"} | BASES[2],
    MITRED
    | {"splines_per_corner": "2", "spline_places": "strips", "strip_rows": "6"}
    | {"species": "cherry, ash", "spline_species": "walnut, maple"},
    MITRED | {"splines_per_corner": "5"} | MANY | {"dividers_held": "dados"},
    MITRED | {"widest_gap": "0.3 mm", "width_spread": "0"},
    METRIC | {"groove_depth": "11.9 mm", "joint": "rebate", "rebate_depth": "3 mm"},
    METRIC | {"groove_depth": "11.9 mm", "joint": "rebate", "rebate_on": "ends"}
    | {"rebate_depth": "3 mm"} | LIDS[3],
    METRIC | {"groove_depth": "2 mm", "base_clearance": "0"},
    METRIC | {"base_strips": "4", "lid": "rebated", "lid_strips": "3"},
    METRIC | {"base_species": "cherry", "lid": "sliding", "lid_species": "maple"},
    METRIC | {"spares": "3", "strip_rows": "2"},
    METRIC | {"spares": "1"} | LIDS[3],
    METRIC | {"over_size": "side: length 1 in; base: width 10 mm", "kerf": "2.4 mm"},
    METRIC | {"finish": "none"},
    METRIC | {"finish": "shellac", "coats": "4", "sawn": "quarter"},
    METRIC | {"strip_rows": "3", "species": "walnut, maple", "pattern": "own"}
    | {"own_pattern": "walnut | maple | oak | ash\n1\nmaple"},
    METRIC | {"strip_rows": "8", "pattern": "blend", "species": "ash, walnut"},
    METRIC | {"strip_rows": "4", "species": "walnut, maple", "pattern": "alternating"}
    | LIDS[3] | {"joint": "mitre", "spares": "2"},
    METRIC | MANY | {"dividers_held": "dados", "dado_depth": "6 mm"} | LIDS[3],
    METRIC | MANY | {"divider_room": "0", "divider_species": "ash"},
    METRIC | LIDS[3] | {"lid_room": "0"},
    WIDE | {"length": "60 in", "lid": "sliding", "joint": "mitre"},
    WIDE | {"length": "90 in", "strip_rows": "3", "joint": "finger"},
]  # fmt: skip

SMALL = _box(SIZES[1])
REFUSED: list[tuple[dict[str, str], str]] = [
    ({"width": "5", "height": "3"}, "length"),
    (SMALL | {"wall": "40 mm"}, "wall"),
    (SMALL | {"cutter": "30 mm"}, "cutter"),
    (SMALL | {"cutter": "0.7 mm"}, "cutter"),
    (SMALL | {"cutter": "7 mm", "finger_passes": "4"}, "finger_passes"),
    (SMALL | {"groove_depth": "12 mm"}, "groove_depth"),
    (SMALL | {"joint": "rebate", "rebate_depth": "12 mm"}, "rebate_depth"),
    (SMALL | {"base_clearance": "6 mm"}, "base_clearance"),
    (SMALL | {"base_thickness": "70 mm"}, "base_thickness"),
    (SMALL | {"base_thickness": "6 mm", "groove_up": "68 mm"}, "groove_up"),
    (SMALL | {"base": "under", "base_thickness": "50 mm"}, "base_thickness"),
    (SMALL | {"base_species": "oak, ash"}, "base_species"),
    (SMALL | {"lid": "sliding", "lid_thickness": "70 mm"}, "lid_thickness"),
    (SMALL | {"lid": "sliding", "lid_down": "60 mm"}, "lid_down"),
    (SMALL | {"lid": "sliding", "lid_room": "6 mm"}, "lid_room"),
    (SMALL | {"lid": "rebated", "lid_room": "30 mm"}, "lid_room"),
    (SMALL | {"lid": "rebated", "lid_lip": "20 mm"}, "lid_lip"),
    (SMALL | {"lid": "battened", "lid_lip": "70 mm"}, "lid_lip"),
    (SMALL | {"lid": "rebated", "lid_species": "oak, ash"}, "lid_species"),
    (SMALL | {"dividers_across": "29"}, "dividers_across"),
    (SMALL | {"dividers_along": "12"}, "dividers_along"),
    (SMALL | {"dividers_along": "1", "divider_thickness": "90 mm"}, "dividers_along"),
    (SMALL | {"dividers_across": "1", "divider_height": "70 mm"}, "divider_height"),
    (SMALL | {"dividers_across": "1", "divider_room": "40 mm"}, "divider_room"),
    (
        SMALL | {"dividers_across": "1", "dividers_held": "dados"}
        | {"dado_depth": "1 in"},
        "dado_depth",
    ),
    (
        SMALL | {"dividers_across": "1", "dividers_held": "dados"}
        | {"divider_room": "3 mm"},
        "divider_room",
    ),
    (SMALL | {"dividers_across": "1", "divider_species": "oak, ash"},
     "divider_species"),
    (SMALL | {"splines_per_corner": "2"}, "splines_per_corner"),
    (SMALL | {"joint": "mitre", "splines_per_corner": "20"}, "splines_per_corner"),
    (SMALL | {"species": "oak, ash"}, "strip_rows"),
    (SMALL | {"joint": "dovetail"}, "joint"),
]  # fmt: skip
