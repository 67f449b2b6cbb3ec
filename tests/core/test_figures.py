"""The project's tables of the trade: every row named, sourced and weighed."""

from __future__ import annotations

from importlib import resources

import pytest

from app.core import figures
from app.core.figures import limit, minutes, table, words

TABLES = sorted(
    path.name.removesuffix(".csv")
    for path in resources.files(figures).iterdir()
    if path.name.endswith(".csv")
)


@pytest.mark.parametrize("name", TABLES)
def test_every_row_has_a_key_of_its_own_a_source_and_a_confidence(name: str) -> None:
    rows = table(name)
    keys = [row["key"] for row in rows]
    assert rows
    assert len(set(keys)) == len(keys)
    for row in rows:
        assert row["source"], row["key"]
        assert row["confidence"] in {"read", "memory", "computed"}, row["key"]
        assert None not in row, row["key"]


def test_the_table_list_names_every_table() -> None:
    readme = (resources.files(figures) / "README.md").read_text(encoding="utf-8")
    for name in TABLES:
        assert f"`{name}.csv`" in readme


def test_a_cell_of_several_is_split_at_its_semicolons() -> None:
    assert words("a; b ;") == ("a", "b")
    assert words("") == ()


def test_times_of_glue_and_finish_are_read_in_minutes() -> None:
    assert minutes("pva-glue.clamp-time-unstressed-joint") == 45
    assert minutes("pva-glue.full-strength") == 24 * 60
    assert minutes("oil.full-cure-drying-oils") == 21 * 24 * 60
    with pytest.raises(KeyError, match=r"no\.such"):
        minutes("no.such")


def test_limits_are_those_of_the_table() -> None:
    """Common practice, from memory: three chapters of ten seconds, 100 and 5000."""
    keys = ("chapters.fewest", "chapters.shortest")
    assert [limit(key) for key in keys] == [3, 10]
    assert limit("title.characters") == 100
    assert limit("description.characters") == 5000
