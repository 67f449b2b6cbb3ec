"""The data folder and its database."""

from __future__ import annotations

from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext

from app.store import schema  # noqa: F401  fills the metadata
from app.store.base import Base
from app.store.workspace import Workspace


def test_migrations_and_tables_agree(workspace: Workspace) -> None:
    with workspace.engine.connect() as connection:
        context = MigrationContext.configure(connection)
        assert compare_metadata(context, Base.metadata) == []
