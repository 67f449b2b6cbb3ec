"""Cutting jobs as a stranger writes them, and their lengths worked out by hand."""

from __future__ import annotations

from typing import Any

Document = dict[str, Any]
INCH = 25_400_000  # NIST SP 811 (2008), appendix B.8

# A bench in three parts: two boards on the rack, one of them knotty, and a dealer.
BENCH: Document = {
    "unit": "in",
    "saw": {"kerf": "1/8", "end_trim": "1/2", "edge_trim": "1/8"},
    "keep": {"length": "8", "width": "1"},
    "stages": 3,
    "first": "either",
    "periods": ["top", 2, "drawer"],
    "stock": [
        {
            "id": "knotty",
            "length": "8'",
            "width": 9.25,
            "thickness": "1",
            "quantity": 1,
            "species": "ash",
            "offcut": False,
            "defects": [{"x": 40, "y": "3 1/2", "length": 2, "width": "1 1/2"}],
        },
        {
            "id": 12,
            "length": 30,
            "width": 6,
            "thickness": "1",
            "species": "ash",
            "offcut": True,
            "trimmed": True,
            "period": 2,
        },
        {
            "id": "dealer",
            "length": 72,
            "width": 8,
            "thickness": "1",
            "quantity": None,
            "cost": 5400,
            "species": "ash",
        },
    ],
    "parts": [
        {
            "id": "slat",
            "length": 34,
            "width": "2 1/4",
            "thickness": "1",
            "quantity": 5,
            "species": "ash",
            "may_turn": False,
            "period": "top",
        },
        {
            "id": 7,
            "length": "15 1/2",
            "width": 3,
            "thickness": "1",
            "quantity": 6,
            "species": "ash",
            "period": 2,
        },
        {
            "id": "front",
            "length": 20,
            "width": 4,
            "quantity": 2,
            "may_turn": True,
            "period": "drawer",
        },
    ],
    "pins": [
        {"part": 7, "stock": 12, "quantity": 1},
        {"part": "front", "stock": "knotty", "prefer": True},
    ],
    "machine": {
        "longest_crosscut": "12",
        "longest_rip": "100",
        "shortest_piece": "5",
    },
    "offcut_value": {"full_length": "40", "full_width": "5"},
}
# Bars in two parts, with all that a job without widths may say.
BARS: Document = {
    "unit": "mm",
    "saw": {"kerf": 3.2, "end_trim": 5},
    "keep": {"length": 200},
    "periods": ["frame", "lid"],
    "stock": [
        {"id": "old", "length": 1500, "defects": [{"x": 700, "length": 12.5}]},
        {"id": "new", "length": 2400, "quantity": None, "cost": 900, "period": "frame"},
    ],
    "parts": [
        {"id": 1, "length": 640, "quantity": 5, "period": "frame"},
        {"id": 2, "length": 410.1, "quantity": 4, "period": "lid"},
    ],
    "pins": [{"part": 2, "stock": "old", "quantity": 1}],
    "machine": {"shortest_piece": 300},
}
JOBS = {"boards in three parts": BENCH, "bars in two parts": BARS}


def nm(value: object, unit: str) -> int:
    """A length as the jobs above write it: in inches, with a fraction or feet."""
    words = str(value)
    if unit == "mm":
        return round(float(words) * 1e6)
    feet = words.endswith("'")
    whole = 0
    for word in words.strip("'").split():
        top, _, bottom = word.partition("/")
        whole += round(float(top) * INCH) // int(bottom or 1)
    return whole * (12 if feet else 1)
