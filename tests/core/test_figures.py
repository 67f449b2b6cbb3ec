"""The project's tables of the trade: every row named, sourced and weighed."""

from __future__ import annotations

from importlib import resources

import pytest

from app.core import figures
from app.core.figures import table, words

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
