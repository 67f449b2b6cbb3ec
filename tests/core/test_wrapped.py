"""Words under a drawing: a line never ends within a size."""

from __future__ import annotations

import pytest

from app.core.wrapped import wrapped


@pytest.mark.parametrize(
    ("text", "letters", "lines"),
    [
        ("groove 59 mm up", 10, ["groove", "59 mm up"]),
        ("base 3 15/16 in thick", 12, ["base", "3 15/16 in", "thick"]),
        ("base, 6 mm (1/4 in) thick", 18, ["base,", "6 mm (1/4 in)", "thick"]),
        ("stopped at both ends", 12, ["stopped at", "both ends"]),
        ("each 6 mm, 13 in all.", 15, ["each 6 mm, 13", "in all."]),
    ],
)
def test_a_size_stays_on_its_line(text: str, letters: int, lines: list[str]) -> None:
    assert wrapped(text, letters) == lines
