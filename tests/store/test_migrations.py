"""Databases of earlier revisions open in this one, with all they held."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory

from app.store import rack, schema, series_plan
from app.store.base import Base
from app.store.workspace import DATABASE, Workspace, open_workspace

SAVED = Path(__file__).parent / "saved"


def revisions() -> list[str]:
    config = Config()
    config.set_main_option("script_location", "app.store:migrations")
    return [
        script.revision
        for script in ScriptDirectory.from_config(config).walk_revisions()
    ]


def opened(revision: str, folder: Path) -> Workspace:
    """The workspace that ``python -m tests.store.save_revision`` saved then."""
    old = sqlite3.connect(folder / DATABASE)
    old.executescript((SAVED / f"{revision}.sql").read_text("utf-8"))
    old.close()
    return open_workspace(folder)


@pytest.mark.parametrize("revision", revisions())
def test_a_workspace_of_each_revision_opens_with_this_ones_tables(
    revision: str, tmp_path: Path
) -> None:
    workspace = opened(revision, tmp_path)
    with workspace.engine.connect() as connection:
        context = MigrationContext.configure(connection)
        assert series_plan.SeriesPlan.metadata is Base.metadata
        assert compare_metadata(context, Base.metadata) == []
        assert connection.exec_driver_sql("PRAGMA foreign_key_check").all() == []
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1
    workspace.close()


@pytest.mark.parametrize("revision", revisions())
def test_a_workspace_of_each_revision_keeps_its_story_and_its_stock(
    revision: str, tmp_path: Path
) -> None:
    workspace = opened(revision, tmp_path)
    with workspace.read() as work:
        assert [row.title for row in work.query(schema.Series)] == ["Porch pieces"]
        assert [row.text for row in work.query(schema.Note)] == ["Tight — no gap."]
        held = {pile.label: (pile.quantity, pile.cost) for pile in rack.on_hand(work)}
    assert held == {"W1": (2, 4200)}
    workspace.close()
