"""Printed parts lists against what they mean.

Source: H. H. Windsor, Mission Furniture: How to Make It, Part 3 (Popular
Mechanics, 1912), Project Gutenberg 23666: 202 lines, 162 regular.
"""

from __future__ import annotations

import json
from typing import Any

import pytest

from app.core.length import Length, inches
from app.core.stock_lines import Ask, Read, read_lines
from tests.conftest import shared


def items() -> list[dict[str, Any]]:
    folder = shared("fixtures/stocklists")
    files = sorted(folder.glob("*.json"))
    return [
        item
        for file in files
        for item in json.loads(file.read_text(encoding="utf-8"))["items"]
    ]


def test_every_regular_line_is_read_exactly() -> None:
    regular = [item for item in items() if not item.get("irregular")]
    assert len(regular) == 162
    for item in regular:
        (read,) = read_lines(item["line"])
        sizes = tuple(map(inches, item["size_in"]))
        surfaced, note = item["surfaced"] or "", item["note"] or ""
        expected = Read(item["line"], item["qty"], item["part"], *sizes, surfaced, note)
        assert read == expected


def test_the_sizes_agree_with_the_lists_own_millimetres() -> None:
    for item in items():
        if not item.get("irregular"):
            (read,) = read_lines(item["line"])
            assert isinstance(read, Read)
            sizes = (read.thickness, read.width, read.length)
            for size, printed in zip(sizes, item["size_mm"], strict=True):
                # The lists give millimetres to three places.
                assert abs(float(size.millimetres) - printed) < 0.000_501


def test_no_irregular_line_is_guessed() -> None:
    irregular = [item["line"] for item in items() if item.get("irregular")]
    assert len(irregular) == 40
    for line in irregular:
        (asked,) = read_lines(line)
        assert isinstance(asked, Ask), line
        assert asked.line == line
        assert asked.why


def test_a_whole_list_is_read_in_its_order() -> None:
    folder = shared("fixtures/stocklists")
    for text in sorted(folder.glob("*.txt")):
        listed = json.loads(text.with_suffix(".json").read_text(encoding="utf-8"))
        lines = [item["line"] for item in listed["items"]]
        title, *read = read_lines(text.read_text("utf-8"))
        assert isinstance(title, Ask)
        assert [one.line for one in read] == lines


# Lines of our own: what must be asked, whatever it resembles.
@pytest.mark.parametrize(
    "line",
    [
        "2 sides, 7/8 by 5 by 14",
        "sides, 7/8 by 5 by 14 in.",
        "2 sides, 7/8 by 5 in.",
        "2 sides, 7/0 by 5 by 14 in.",
        "2 sides, 1-9/8 by 5 by 14 in.",
        "0 sides, 7/8 by 5 by 14 in.",
        "2 sides, 0 by 5 by 14 in.",
        "2 sides, 7/8 by 5 by 14 ft.",
        "2 sides, 7/8 by 5 by 14 in., S-5-S",
        "2 sides, 7/8 by 5 by 14 in. to 16 in.",
        "2 sides, 7/8 by 5 by 999999999 in.",
    ],
)
def test_a_line_that_is_not_plain_is_asked_about(line: str) -> None:
    (asked,) = read_lines(line)
    assert isinstance(asked, Ask)


def test_a_plain_line_needs_no_printed_surfacing_and_may_leave_out_the_comma() -> None:
    (read,) = read_lines("  2 sides, 7/8 by 5 by 14 in. S-4-S \n\n")
    assert isinstance(read, Read)
    assert (read.quantity, read.part, read.surfaced) == (2, "sides", "S-4-S")
    assert read.length == Length(14 * 25_400_000)
