"""Times in a film, as a viewer types them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.errors import WorkshopError
from app.core.film_time import LONGEST_MS, film_time, read_film_time


@given(st.integers(0, LONGEST_MS // 1000))
def test_reading_what_is_shown_gives_the_same_second(seconds: int):
    assert read_film_time(film_time(seconds * 1000)) == seconds * 1000


@given(st.text(max_size=12))
def test_any_text_is_a_time_or_a_clear_refusal(typed: str):
    try:
        ms = read_film_time(typed, input="at")
    except WorkshopError as refusal:
        said = refusal
    else:
        assert ms is None or 0 <= ms <= LONGEST_MS
        return
    assert said.input == "at"
    assert "Type it like" in str(said)


@pytest.mark.parametrize(
    ("typed", "ms"),
    [
        ("0:00", 0),
        ("2:30", 150_000),
        (" 1:02:30 ", 3_750_000),
        ("90:00", 5_400_000),
        ("0:01.5", 1_500),
        ("", None),
    ],
)
def test_what_makers_type_is_read(typed: str, ms: int | None):
    assert read_film_time(typed) == ms


@pytest.mark.parametrize(
    "typed", ["2:3", "2:60", "1:60:00", "230", "-1:00", "2:30 pm", "25:00:00"]
)
def test_what_is_no_time_is_refused_with_an_example(typed: str):
    with pytest.raises(WorkshopError, match="2:30 or 1:02:30"):
        read_film_time(typed)
