"""Laminated boards over the whole range of what is asked for."""

from __future__ import annotations

from itertools import product

SIZES = [
    ("16 in", "10 in", "1 1/4 in", "1 1/2 in"),
    ("400 mm", "240 mm", "32 mm", "40 mm"),
    ("50 mm", "50 mm", "6 mm", "25 mm"),
    ("333.33 mm", "217.7 mm", "41.3 mm", "17.9 mm"),
    ("900 mm", "600 mm", "60 mm", "45 mm"),
    ("7 1/3 in", "5 5/64 in", "0.83 in", "11/16 in"),
    ("240 mm", "400 mm", "20 mm", "100 mm"),
]
GROOVES = [
    {},
    {"juice_groove": "one face", "groove_width": "5 mm", "groove_depth": "2 mm"},
    {
        "juice_groove": "both faces",
        "groove_width": "1/4 in",
        "groove_depth": "3/64 in",
        "groove_inset": "7 mm",
    },
]
WOODS = ["walnut, maple", "ash", "white oak, cherry, walnut", "bog oak, maple"]
PATTERNS = [
    {},
    {"pattern": "alternating"},
    {"pattern": "stepped", "step_rows": "2"},
    {"pattern": "mirrored", "species": "walnut, maple"},
]
SMALL_GROOVE = {"groove_inset": "4 mm"}
WHOLE = ("length", "width", "thickness", "strip_width")


def _sizes(size: tuple[str, ...]) -> dict[str, str]:
    return dict(zip(WHOLE, size, strict=True))


def _wide(size: tuple[str, ...]) -> bool:
    """Room for three woods and a groove."""
    return size[0] != "50 mm"


GRID: list[dict[str, str]] = []
for _size, _grain, _groove in product(SIZES, ("edge", "end"), GROOVES):
    _near = SMALL_GROOVE if _size[0] == "50 mm" and _groove else {}
    for _species in WOODS[: 4 if _wide(_size) else 2]:
        if _species.count(",") >= 2 and _size[3] == "100 mm":
            continue
        GRID.append(
            _sizes(_size) | {"grain": _grain, "species": _species} | _groove | _near
        )
for _size, _pattern, _kerf in product(SIZES, PATTERNS, ("", "2.2 mm")):
    if _pattern.get("pattern") == "mirrored" and not _wide(_size):
        continue
    GRID.append(
        _sizes(_size)
        | {"grain": "end", "kerf": _kerf, "species": "walnut, maple"}
        | _pattern
    )
for _size in SIZES[:2]:
    GRID += [
        _sizes(_size) | {"pattern": "blend", "grain": "end"},
        _sizes(_size) | {"pattern": "blend", "grain": "edge"},
        _sizes(_size) | {"pattern": "blend", "grain": "end", "blend_rows": "2"},
        _sizes(_size) | {"grain": "end", "slice_width": "30 mm", "spares": "1"},
        _sizes(_size) | {"grain": "end", "slice_width": "3 in", "feet": "4"},
        _sizes(_size) | {"grain": "edge", "spares": "3", "finish": "shellac"},
        _sizes(_size) | {"grain": "end", "finish": "none", "sawn": "quarter"},
        _sizes(_size) | {"over_size": "board: length 0, width 0, thickness 0"},
        _sizes(_size)
        | {
            "grain": "end",
            "over_size": "board: length 1/2 in; strip: width 3 mm; panel: length 1 in",
        },
    ]
GRID += [
    {
        "length": "90 mm",
        "width": "80 mm",
        "strip_width": "40 mm",
        "grain": "end",
        "slice_width": "30 mm",
        "pattern": "own",
        "own_pattern": "ash | cherry | ash\nwalnut | 2 | 1",
    },
    {
        "length": "200 mm",
        "width": "80 mm",
        "strip_width": "20 mm",
        "pattern": "own",
        "own_pattern": "ash; 1; 2; cherry",
    },
]

REFUSED: list[tuple[dict[str, str], str]] = [
    ({"strip_width": "10 in"}, "strip_width"),
    ({"strip_width": "6 mm", "width": "300 mm"}, "strip_width"),
    (
        {"width": "120 mm", "strip_width": "90 mm", "species": "ash, oak, elm"},
        "strip_width",
    ),
    ({"grain": "end", "length": "100 mm", "slice_width": "110 mm"}, "slice_width"),
    ({"grain": "end", "length": "2000 mm", "strip_width": "30 mm"}, "slice_width"),
    ({"juice_groove": "one face", "groove_depth": "20 mm"}, "groove_depth"),
    ({"juice_groove": "both faces", "groove_depth": "10 mm"}, "groove_depth"),
    ({"juice_groove": "one face", "groove_inset": "100 mm"}, "groove_inset"),
    (
        {
            "juice_groove": "one face",
            "groove_width": "20 mm",
            "width": "50 mm",
            "strip_width": "20 mm",
        },
        "juice_groove",
    ),
    ({"pattern": "blend", "species": "ash"}, "species"),
    ({"pattern": "blend", "blend_rows": "30"}, "blend_rows"),
    ({"pattern": "own", "own_pattern": "ash; oak"}, "strip_width"),
    ({"pattern": "own"}, "own_pattern"),
    ({"over_size": "board: width 3 in"}, "over_size"),
    ({"over_size": "lid: width 3 in"}, "over_size"),
    ({"grain": "sideways"}, "grain"),
    ({"length": "9 m"}, "length"),
    ({"thickness": "2 mm"}, "thickness"),
]
