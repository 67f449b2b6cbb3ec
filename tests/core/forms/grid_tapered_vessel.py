"""Tapered vessels that every form's laws are tried on."""

from __future__ import annotations

from itertools import cycle, product

Typed = dict[str, str]


def _shapes() -> list[Typed]:
    """Every count of sides, splaying out, leaning in and upright, both edges."""
    tapers = [
        ("200 mm", "150 mm", "130 mm", "12 mm"),
        ("7 3/8 in", "9 5/16 in", "6 1/2 in", "3/8 in"),
        ("160 mm", "160 mm", "90 mm", "10 mm"),
        ("300.37 mm", "150.11 mm", "80.03 mm", "9.7 mm"),
        ("3 in", "2 in", "11 1/2 in", "0.2 in"),
    ]
    bases = cycle(("loose", "glued", "none", "under"))
    found = []
    for sides, (top, bottom, height, wall) in product(range(3, 17), tapers):
        for edges in ("level", "square"):
            base = next(bases)
            if edges == "square" and base == "under" and top != bottom:
                base = "loose"
            found.append(
                {
                    "sides": str(sides),
                    "top_inscribed": top,
                    "bottom_inscribed": bottom,
                    "height": height,
                    "wall": wall,
                    "edges": edges,
                    "base": base,
                    "base_thickness": "3 mm",
                    "base_clearance": "0.8 mm",
                }
            )
    return found


def _patterns() -> list[Typed]:
    """Strips in every pattern, cut head to tail and one by one, with spares."""
    found = []
    patterns = ("bands", "alternating", "stepped", "mirrored", "blend")
    for sides, pattern, rows in product((3, 5, 8, 12), patterns, (1, 2, 5)):
        if (rows, pattern) in ((1, "blend"), (2, "mirrored")):
            continue
        found.append(
            {
                "sides": str(sides),
                "pattern": pattern,
                "strip_rows": str(rows),
                "species": "cherry" if rows == 1 else "walnut, maple",
                "spares": str(sides % 4),
                "sawn": "quarter" if rows == 2 else "flat",
                "finish": "shellac" if rows == 5 else "wax",
                "coats": "3",
            }
        )
    return found


def _extremes() -> list[Typed]:
    """Nearly flat, nearly upright, huge, tiny, thick and thin."""
    flat = {"top_inscribed": "600 mm", "bottom_inscribed": "200 mm"}
    shapes = [
        {**flat, "height": "116 mm"},
        {**flat, "height": "60 mm", "edges": "square", "base": "none"},
        {**flat, "height": "40 mm", "edges": "square", "base_thickness": "3 mm"},
        {"top_inscribed": "6.000001 in", "bottom_inscribed": "6 in", "height": "6 in"},
        {"top_inscribed": "6 in", "bottom_inscribed": "6.0001 in", "height": "10 in"},
        {"top_inscribed": "1600 mm", "bottom_inscribed": "1900 mm", "height": "1 m"},
        {"top_inscribed": "4999 mm", "bottom_inscribed": "4000 mm", "height": "2 m"},
        {
            "top_inscribed": "30 mm",
            "bottom_inscribed": "24 mm",
            "height": "35 mm",
            "wall": "3 mm",
            "base_thickness": "2 mm",
            "base_up": "0 in",
            "base_clearance": "0.3 mm",
        },
        {"wall": "2.4 in", "base": "none"},
        {"wall": "1 mm", "base": "glued", "base_up": "1 1/4 in"},
    ]
    found = []
    for sides, shape in product((3, 4, 7, 16), shapes):
        found.append({"sides": str(sides), **shape})
    return found


def _choices() -> list[Typed]:
    """What else may be typed, one after another."""
    given = [
        {"cut_from": "head to tail"},
        {"cut_from": "one by one"},
        {"cut_from": "head to tail", "strip_rows": "1", "species": "oak"},
        {"kerf": "2 mm"},
        {"kerf": "1/16 in", "spares": "5"},
        {"base_strips": "4", "base_species": "oak"},
        {"base_strips": "1", "base_up": "1 in"},
        {"over_size": "wall: length 1 in, width 1/4 in; base: thickness 1/8 in"},
        {"over_size": "wall: length 0 in, width 0 in, thickness 0 in"},
        {"finish": "none", "spares": "1"},
        {"widest_gap": "0.02 mm", "width_spread": "0 in"},
        {"pattern": "own", "own_pattern": "maple\ncherry\nwalnut"},
        {"species": "walnut, an unknown wood"},
    ]
    return [{"sides": sides, **typed} for sides in ("4", "6", "10") for typed in given]


GRID: list[Typed] = [*_shapes(), *_patterns(), *_extremes(), *_choices()]

REFUSED: list[tuple[Typed, str]] = [
    ({"sides": "2"}, "sides"),
    ({"sides": "17"}, "sides"),
    ({"sides": "six"}, "sides"),
    ({"wall": "3 in"}, "wall"),
    ({"wall": "4 in", "edges": "square", "height": "9 in"}, "wall"),
    ({"top_inscribed": "3 mm", "bottom_inscribed": "90 mm"}, "top_inscribed"),
    ({"top_inscribed": "20 in", "height": "3 in"}, "height"),
    ({"top_inscribed": "30 in", "height": "3/4 in", "edges": "square"}, "height"),
    ({"height": "3/8 in", "edges": "square", "base": "none"}, "height"),
    ({"height": "0 in"}, "height"),
    ({"height": "5 mm", "top_inscribed": "6.01 in", "wall": "3 mm"}, "height"),
    ({"strip_rows": "40", "height": "3 in"}, "strip_rows"),
    ({"base": "under", "edges": "square"}, "base"),
    (
        {"base": "under", "top_inscribed": "9 in", "base_thickness": "10 in"},
        "base_thickness",
    ),
    ({"base_thickness": "5 in"}, "base_thickness"),
    ({"base_thickness": "6 in"}, "base_thickness"),
    ({"base_up": "4 7/8 in"}, "base_up"),
    ({"base_up": "0 in", "edges": "square", "top_inscribed": "12 in"}, "base_up"),
    ({"base_clearance": "3 in"}, "base_clearance"),
    (
        {"cut_from": "head to tail", "strip_rows": "2", "species": "oak, maple"},
        "cut_from",
    ),
    ({"base_species": "oak, ash"}, "base_species"),
    ({"over_size": "lid: length 1 in"}, "over_size"),
    ({"pattern": "blend", "species": "oak"}, "species"),
    ({"edges": "round"}, "edges"),
]
