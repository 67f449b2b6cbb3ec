"""A sheet is kept and read back without loss."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.errors import WorkshopError
from app.publish.sheet import (
    ChapterLine,
    CostLine,
    Sheet,
    SizeLine,
    TableLine,
    UsedLine,
    from_json,
    photo_digests,
    to_json,
)
from tests.publish.sheets import bare, hostile, planter

words = st.text(max_size=20)
sheets = st.builds(
    Sheet,
    *(words, words, st.integers(), st.integers(), words, words),
    length_ms=st.none() | st.integers(),
    chapters=st.lists(st.builds(ChapterLine, st.integers(), words), max_size=3).map(
        tuple
    ),
    supplies=st.lists(
        st.builds(UsedLine, words, words, words, st.booleans()), max_size=3
    ).map(tuple),
    costs=st.lists(st.builds(CostLine, words, words, st.integers()), max_size=3).map(
        tuple
    ),
)


@given(sheets)
def test_what_is_kept_is_read_back_the_same(sheet: Sheet) -> None:
    assert from_json(json.loads(json.dumps(to_json(sheet)))) == sheet


@pytest.mark.parametrize("sheet", [bare(), planter(), hostile()])
def test_a_whole_sheet_is_read_back_the_same(sheet: Sheet) -> None:
    assert from_json(json.loads(json.dumps(to_json(sheet)))) == sheet


def test_a_sheet_kept_before_a_field_was_added_takes_its_default() -> None:
    document = to_json(planter())
    del document["costs"]
    assert from_json(document) == replace(planter(), costs=())


def test_sizes_and_tables_stand_under_their_titles_in_order() -> None:
    rows = (("0.1°", "0.2 mm"),)
    sheet = replace(
        planter(),
        sizes=(
            *planter().sizes,
            SizeLine("gap", "Gap", "0.01 in", "0.2 mm", group="How sure it is"),
        ),
        tables=(TableLine("t", "Gaps", ("off", "gap"), rows, group="How sure it is"),),
    )
    first, second = sheet.size_groups
    assert (first.title, first.tables) == ("Sizes", ())
    assert [line.key for line in second.sizes] == ["gap"]
    assert [line.title for line in second.tables] == ["Gaps"]
    assert from_json(json.loads(json.dumps(to_json(sheet)))) == sheet


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"format": "something else"}, "not a sheet"),
        ({"version": 2}, "has version 2"),
        ({"mood": "good"}, "“mood”"),
        ({"number": "2"}, "Sheet, number"),
        ({"chapters": {}}, "must be a list"),
        ({"chapters": [{"start_ms": 1}]}, "lacks “title”"),
        ({"chapters": [7]}, "must be an object"),
    ],
)
def test_anything_else_is_refused_with_its_place(
    change: dict[str, object], said: str
) -> None:
    with pytest.raises(WorkshopError, match=said):
        from_json(to_json(planter()) | change)


def test_the_photos_of_a_kept_sheet_are_named_for_the_sweeper() -> None:
    assert photo_digests(to_json(planter())) == {"a" * 64, "b" * 64}
