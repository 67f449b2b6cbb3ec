"""Cylinders of staves that every form's laws are tried on."""

from __future__ import annotations

from itertools import product

GRID: list[dict[str, str]] = [
    {
        "staves": str(staves),
        "outside_diameter": outside,
        "inside_diameter": inside,
        "height": height,
        "turning_allowance": allowance,
        "bottom": bottom,
    }
    for staves, (outside, inside), height, allowance, bottom in product(
        (4, 5, 6, 8, 11, 12, 16, 20),
        (("6 in", "5 in"), ("187.31 mm", "151 mm"), ("15 7/8 in", "371.5 mm")),
        ("8 in", "33.3 mm"),
        ("0", "1/8 in"),
        ("none", "solid"),
    )
]
PLAIN = {"outside_diameter": "240 mm", "inside_diameter": "200 mm", "height": "300 mm"}
GRID += [
    PLAIN | {"species": "cherry"},
    PLAIN | {"species": "walnut, maple, cherry", "staves": "14"},
    PLAIN | {"staves": "24"},
    PLAIN | {"staves": "3", "inside_diameter": "120 mm"},
    PLAIN | {"thickness": "40 mm", "staves": "10"},
    PLAIN | {"thickness": "1 1/4 in", "turning_allowance": "3 mm"},
    PLAIN | {"spares": "3"},
    PLAIN | {"over_size": "stave: length 2 in, width 0, thickness 4 mm"},
    PLAIN | {"finish": "none", "kerf": "2.2 mm"},
    PLAIN | {"finish": "shellac", "coats": "4", "sawn": "quarter"},
    PLAIN | {"finish": "wax"},
    PLAIN | {"finish": "penetrating oil", "widest_gap": "0.25 mm"},
    PLAIN | {"bottom": "solid", "bottom_species": "plywood"},
    PLAIN | {"bottom": "solid", "bottom_thickness": "6 mm", "spares": "1"},
    {"outside_diameter": "980 mm", "inside_diameter": "930 mm", "height": "1200 mm"},
    {"outside_diameter": "51 mm", "inside_diameter": "30 mm", "staves": "8"},
]
REFUSED: list[tuple[dict[str, str], str]] = [
    ({"inside_diameter": "6 in"}, "inside_diameter"),
    ({"inside_diameter": "1/8 in", "turning_allowance": "1/8 in"}, "inside_diameter"),
    ({"staves": "2"}, "staves"),
    ({"staves": "30"}, "staves"),
    (
        {"outside_diameter": "2 1/2 in", "inside_diameter": "2 in", "staves": "24"},
        "staves",
    ),
    ({"thickness": "1/4 in"}, "thickness"),
    ({"thickness": "30 in"}, "thickness"),
    ({"outside_diameter": "2 m", "inside_diameter": "38 in"}, "outside_diameter"),
    ({"inside_diameter": "4 mm"}, "inside_diameter"),
    ({"height": "5 mm"}, "height"),
    ({"outside_diameter": "24 in"}, "inside_diameter"),
    ({"species": "oak, ash, cherry, beech, maple", "staves": "4"}, "species"),
    ({"bottom_species": "oak, ash"}, "bottom_species"),
]
