"""Rings and stacks of rings that every form's laws are tried on."""

from __future__ import annotations

from itertools import product

GRID: list[dict[str, str]] = [
    {
        "segments": str(segments),
        "outside_diameter": outside,
        "inside_diameter": inside,
        "turning_allowance": allowance,
    }
    for segments, (outside, inside), allowance in product(
        (3, 4, 5, 6, 8, 9, 12, 16, 18, 24),
        (("8 in", "6 1/2 in"), ("187.31 mm", "21 mm"), ("11 7/8 in", "255.5 mm")),
        ("0", "1/8 in", "4.7 mm"),
    )
]
PROFILES = (
    "0: 5 in; 2 in: 8 in; 4 in: 7 in",
    "0: 90 mm; 12.5 mm: 131.7 mm\n80 mm: 180 mm\n130 mm: 120 mm",
    "0: 200 mm; 60 mm: 200 mm",
    "0: 9 in; 1/4 in: 10 in; 9 1/2 in: 4 3/8 in",
)
GRID += [
    {
        "segments": str(segments),
        "profile": profile,
        "wall": wall,
        "thickness": thickness,
        "bottom": bottom,
    }
    for segments, profile, wall, thickness, bottom in product(
        (6, 7, 12, 20),
        PROFILES,
        ("9.5 mm", "5/8 in"),
        ("3/4 in", "31 mm"),
        ("none", "solid"),
    )
]
GRID += [
    {
        "segments": segments,
        "profile": profile,
        "thickness": thickness,
        "turning_allowance": "0",
        "bottom": bottom,
    }
    for segments, profile, thickness, bottom in product(
        ("8", "15"),
        ("0: 100 mm; 11 mm: 180 mm; 40 mm: 90 mm", "0: 7 in; 1 in: 5 in; 3 in: 8 in"),
        ("23 mm", "2 in"),
        ("none", "solid"),
    )
]
SINGLE = {"outside_diameter": "240 mm", "inside_diameter": "190 mm"}
STACK = {"profile": "0: 150 mm; 45 mm: 210 mm; 100 mm: 170 mm", "thickness": "20 mm"}
GRID += [
    SINGLE | {"species": "cherry"},
    SINGLE | {"species": "walnut, maple, cherry", "segments": "16"},
    SINGLE | {"pattern": "bands", "species": "ash"},
    SINGLE
    | {"pattern": "own", "own_pattern": "1 | 1 | 2 | 1 | 1 | 2 | 1 | 1 | 2"}
    | {"segments": "9"},
    SINGLE | {"pattern": "stepped", "step_rows": "1", "segments": "10"},
    SINGLE | {"spares": "3"},
    SINGLE | {"over_size": "segment: length 2 in, thickness 0", "kerf": "2.4 mm"},
    SINGLE | {"finish": "none"},
    SINGLE | {"finish": "shellac", "coats": "5"},
    SINGLE | {"finish": "wax", "coats": "1"},
    SINGLE | {"finish": "penetrating oil", "sawn": "quarter"},
    SINGLE | {"finish": "waterborne varnish", "widest_gap": "0.3 mm"},
    SINGLE | {"bottom": "solid", "bottom_species": "plywood"},
    SINGLE
    | {"outside_diameter": "39 1/4 in", "inside_diameter": "900", "segments": "24"}
    | {"inside_diameter": "880 mm"},
    SINGLE | {"thickness": "100 mm", "turning_allowance": "25 mm"},
    SINGLE | {"thickness": "3 mm"},
    STACK | {"pattern": "blend", "species": "maple, walnut"},
    STACK | {"pattern": "mirrored"},
    STACK | {"pattern": "bands", "species": "oak, ash, cherry"},
    STACK | {"pattern": "own", "own_pattern": "walnut\nmaple\n1\n2\nash"},
    STACK | {"bottom": "solid", "bottom_thickness": "9 mm", "spares": "1"},
    STACK | {"bottom": "solid", "over_size": "bottom: thickness 5 mm"},
    {"profile": "0: 300 mm; 480 mm: 500 mm", "thickness": "20 mm", "wall": "20 mm"},
]
REFUSED: list[tuple[dict[str, str], str]] = [
    ({}, "outside_diameter"),
    ({"outside_diameter": "8 in"}, "inside_diameter"),
    ({"outside_diameter": "8 in", "inside_diameter": "8 in"}, "inside_diameter"),
    ({"outside_diameter": "8 in", "inside_diameter": "1/4 in"}, "inside_diameter"),
    (SINGLE | {"segments": "2"}, "segments"),
    (SINGLE | {"segments": "25"}, "segments"),
    (
        {"outside_diameter": "60 mm", "inside_diameter": "40 mm", "segments": "24"}
        | {"turning_allowance": "0"},
        "segments",
    ),
    (
        {"outside_diameter": "600 mm", "inside_diameter": "500 mm", "segments": "3"},
        "segments",
    ),
    ({"outside_diameter": "2 m", "inside_diameter": "500 mm"}, "outside_diameter"),
    (STACK | {"thickness": "4 mm"}, "thickness"),
    (STACK | {"wall": "80 mm"}, "wall"),
    (STACK | {"wall": "20 in"}, "wall"),
    (STACK | {"outside_diameter": "8 in"}, "outside_diameter"),
    ({"profile": "5: 100; 20: 120"}, "profile"),
    ({"profile": "0: 4; 2: 5; 1: 6"}, "profile"),
    ({"profile": "0: 4"}, "profile"),
    ({"profile": "wide"}, "profile"),
    (
        STACK
        | {"bottom": "solid", "bottom_thickness": "60 mm"}
        | {"profile": "0: 150 mm; 50 mm: 160 mm"},
        "bottom_thickness",
    ),
    (SINGLE | {"bottom_species": "oak, ash"}, "bottom_species"),
    (SINGLE | {"pattern": "bands"}, "species"),
    (SINGLE | {"pattern": "blend"}, "pattern"),
    (SINGLE | {"pattern": "own", "own_pattern": "walnut\nmaple"}, "own_pattern"),
]
