"""Straight vessels of every sort, and some that cannot be built."""

from __future__ import annotations

from itertools import product

Typed = dict[str, str]
SIDES = [str(n) for n in range(3, 17)]
BASES = ("groove", "rebate", "under", "none")
LIDS = ("none", "plug", "rebate")
ACROSS = (
    ("outside_side", "4 in"),
    ("outside_inscribed", "233.33 mm"),
    ("outside_circumscribed", "9 7/64 in"),
    ("inside_inscribed", "6 1/32 in"),
    ("inside_volume", "1.5 l"),
)
PATTERNS: tuple[Typed, ...] = (
    {},
    {"pattern": "bands", "species": "walnut, maple, cherry", "strip_rows": "7"},
    {"pattern": "alternating", "species": "walnut, maple", "strip_rows": "5"},
    {"pattern": "stepped", "species": "ash, oak, teak", "step_rows": "2"},
    {"pattern": "mirrored", "species": "cherry, maple", "strip_rows": "4"},
    {"pattern": "blend", "species": "maple, walnut", "strip_rows": "9"},
    {"pattern": "own", "own_pattern": "1; 2; maple; walnut", "strip_rows": "4"},
    {"species": "white oak", "strip_rows": "1"},
)
SPLINES: tuple[Typed, ...] = (
    {},
    {"splines_per_corner": "1", "spline_depth_share": "1/3"},
    {"splines_per_corner": "3", "spline_thickness": "2.5 mm", "spline_cheek": "5 mm"},
    {"splines_per_corner": "2", "spline_species": "maple, walnut"},
)


def shapes() -> list[Typed]:
    """Every count of sides in every base, the ways to say how wide going round."""
    found = []
    for i, (sides, base) in enumerate(product(SIDES, BASES)):
        key, size = ACROSS[i % len(ACROSS)]
        # With few sides a short side leaves no room inside a stout wall.
        size = "9 in" if key == "outside_side" and sides == "3" else size
        lid = LIDS[(i // 2) % len(LIDS)]
        found.append({"sides": sides, "base": base, key: size, "lid": lid})
    return found


def woods() -> list[Typed]:
    """Every pattern round vessels of several sides, with splines in turn."""
    found = []
    for i, (sides, pattern) in enumerate(product(SIDES[::2], PATTERNS)):
        splines = SPLINES[i % len(SPLINES)] if int(sides) < 12 else {}
        base = BASES[(i // 3) % len(BASES)]
        plain = {"sides": sides, "outside_side": "5 1/2 in", "base": base}
        found.append(plain | {"height": "8 in", "wall": "5/8 in"} | pattern | splines)
    return found


def extremes() -> list[Typed]:
    """Tiny, tall, wide, thin, stout, and sizes that no tape shows."""
    plain = {"outside_side": "3 in", "lid": "plug"}
    small = {
        "outside_side": "22 mm", "height": "30 mm", "wall": "3 mm",
        "base_thickness": "2 mm", "groove_up": "2 mm", "base_clearance": "0.3 mm",
        "lid_lip": "2 mm", "lid_room": "0.4 mm", "lid_thickness": "3 mm",
    }  # fmt: skip
    large = {"outside_side": "900 mm", "height": "1400 mm", "wall": "32 mm"}
    odd = {"outside_inscribed": "123.456789 mm", "wall": "7.654321 mm"}
    found = []
    for sides in SIDES:
        found.append(plain | {"sides": sides, "wall": "1/4 in", "lid": "rebate"})
        for lid in LIDS:
            found.append(small | {"sides": sides, "lid": lid})
        found.append(large | {"sides": sides, "panels": sides, "strip_rows": "12"})
        found.append(odd | {"sides": sides, "height": "87.654321 mm", "lid": "plug"})
        found.append({"sides": sides, "inside_volume": "1 gal", "height": "9 3/32 in"})
        found.append(
            {
                "sides": sides,
                "outside_side": "6 in",
                "height": "20 in",
                "strip_rows": "40",
            }
        )
    return found


def details() -> list[Typed]:
    """Grooves and rebates of odd sizes, no clearance, overhangs, spares, allowances."""
    found: list[Typed] = []
    plain = {"outside_inscribed": "11 in", "wall": "3/4 in"}
    for base, lid in product(BASES, LIDS):
        for up, room in (("0", "0"), ("11/32 in", "1/64 in"), ("1 in", "1/8 in")):
            found.append(
                plain
                | {"base": base, "groove_up": up, "base_clearance": room, "sides": "5"}
                | {"lid": lid, "lid_room": room, "lid_overhang": up}
            )
    for spares in ("1", "2", "5"):
        found.append(plain | {"spares": spares, "panels": "2", "sides": "7"})
        found.append(plain | {"spares": spares, "pattern": "alternating", "sides": "7"})
        found.append(plain | {"spares": spares, "strip_rows": "1", "species": "ash"})
    found.append(plain | {"over_size": "wall: length 1 in, thickness 1/8 in"})
    found.append(plain | {"over_size": "base: thickness 3 mm; lid: width 1/4 in"})
    found.append(plain | {"kerf": "2.4 mm", "finish": "none", "sawn": "quarter"})
    found.append(plain | {"base_strips": "4", "base_species": "zebrano moon"})
    found.append(plain | {"groove_depth": "9/16 in", "finish": "shellac", "coats": "5"})
    return found


GRID: list[Typed] = [*shapes(), *woods(), *extremes(), *details()]

NARROW = {"outside_side": "4 in"}
REFUSED: list[tuple[Typed, str]] = [
    ({}, "outside_side"),
    ({"outside_side": "4 in", "inside_volume": "2 l"}, "inside_volume"),
    ({"inside_volume": "2 in3", "height": "10 mm"}, "groove_up"),
    ({"inside_volume": "2 qt", "base_thickness": "7 in"}, "base_thickness"),
    ({"inside_volume": "90000 l", "height": "100 mm"}, "inside_volume"),
    ({"inside_volume": "1 ml", "height": "4 m"}, "inside_volume"),
    ({"inside_volume": "2 pecks"}, "inside_volume"),
    ({"inside_volume": "0 l"}, "inside_volume"),
    (NARROW | {"sides": "17"}, "sides"),
    (NARROW | {"sides": "2"}, "sides"),
    (NARROW | {"wall": "4 in"}, "wall"),
    (NARROW | {"wall": "3 in", "groove_depth": "1/2 in", "sides": "4"}, "wall"),
    ({"outside_inscribed": "1 in", "wall": "1/2 in"}, "wall"),
    (NARROW | {"groove_depth": "1/2 in"}, "groove_depth"),
    (NARROW | {"base_clearance": "1/4 in"}, "base_clearance"),
    (NARROW | {"base_thickness": "6 in"}, "base_thickness"),
    (NARROW | {"groove_up": "5 7/8 in"}, "groove_up"),
    (NARROW | {"strip_rows": "1"}, "strip_rows"),
    (NARROW | {"strip_rows": "40", "height": "2 in"}, "strip_rows"),
    (NARROW | {"height": "1/3 in"}, "height"),
    (NARROW | {"sides": "3", "panels": "4"}, "panels"),
    (NARROW | {"base_species": "oak, ash"}, "base_species"),
    (NARROW | {"lid": "plug", "lid_species": "oak, ash"}, "lid_species"),
    (NARROW | {"lid": "plug", "lid_lip": "5 3/4 in"}, "lid_lip"),
    (NARROW | {"lid": "rebate", "lid_room": "2 in"}, "lid_room"),
    (NARROW | {"lid": "basket"}, "lid"),
    (NARROW | {"pattern": "blend", "species": "oak"}, "species"),
    (NARROW | {"over_size": "lib: length 1 in"}, "over_size"),
    (NARROW | {"splines_per_corner": "20", "height": "2 in"}, "splines_per_corner"),
    (
        {
            "outside_side": "1 in",
            "sides": "16",
            "wall": "1/2 in",
            "splines_per_corner": "1",
        },
        "spline_depth_share",
    ),
    (NARROW | {"splines_per_corner": "1", "spline_cheek": "2 in"}, "spline_cheek"),
]
