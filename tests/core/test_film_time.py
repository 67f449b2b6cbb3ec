"""Times in a film, as viewers' players write them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.errors import WorkshopError
from app.core.film_time import LONGEST_MS, film_time, read_film_time


@pytest.mark.parametrize(
    ("ms", "shown"),
    [
        *((0, "0:00"), (9_999, "0:09"), (65_000, "1:05"), (3_599_000, "59:59")),
        *((3_600_000, "1:00:00"), (36_061_000, "10:01:01")),
    ],
)
def test_a_time_is_shown_as_a_player_shows_it(ms: int, shown: str) -> None:
    assert film_time(ms) == shown


@given(st.integers(0, LONGEST_MS // 1000))
def test_what_is_shown_is_read_back(seconds: int) -> None:
    assert read_film_time(film_time(seconds * 1000)) == seconds * 1000


@pytest.mark.parametrize(
    ("typed", "ms"),
    [("", None), (" 2:30 ", 150_000), ("90:00", 5_400_000), ("0:01.5", 1500)],
)
def test_a_typed_time_is_read(typed: str, ms: int | None) -> None:
    assert read_film_time(typed) == ms


@pytest.mark.parametrize(
    "typed", ["2", "2:3", "2:60", "1:60:00", "-1:00", "x", "25:00:00"]
)
def test_anything_else_is_refused_with_an_example(typed: str) -> None:
    with pytest.raises(WorkshopError, match="Type it like 2:30"):
        read_film_time(typed)
