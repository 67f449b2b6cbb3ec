"""Chapter lists against the published check values."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.chapters import faults
from app.core.film_time import read_film_time

# Check values of the project's note on what hosts commonly ask (section 4:
# common practice, from memory).
CHECKS = [
    ("0:00 0:45 1:10", ""),
    ("0:00 0:45", "3"),
    ("0:05 0:45 1:10", "0:00"),
    ("0:00 0:08 1:10", "8 s"),
    ("0:00 1:10 0:45", "rise"),
]


@pytest.mark.parametrize(("typed", "says"), CHECKS)
def test_a_list_of_chapters_is_judged_as_players_do(typed: str, says: str):
    found = faults([read_film_time(stamp) for stamp in typed.split()])
    assert len(found) == (1 if says else 0)
    assert says in "".join(found)


@pytest.mark.parametrize(
    ("length", "says"), [("1:20", ""), ("1:15", "5 s"), ("1:00", "after the film ends")]
)
def test_the_last_chapter_has_to_fit_into_the_film(length: str, says: str):
    starts = [read_film_time(stamp) for stamp in ("0:00", "0:45", "1:10")]
    found = faults(starts, read_film_time(length))
    assert len(found) == (1 if says else 0)
    assert says in "".join(found)


def test_a_film_without_chapters_has_no_fault():
    assert faults([], 60_000) == ()


@given(st.lists(st.integers(10_000, 600_000), min_size=2, max_size=20))
def test_any_rising_list_of_long_chapters_is_good(lengths: list[int]):
    starts = [sum(lengths[:n]) for n in range(len(lengths) + 1)]
    assert faults(starts, starts[-1] + 10_000) == ()
