"""Runs migrations on the connection that the workspace hands over."""

from __future__ import annotations

from alembic import context

from app.store import schema, series_plan  # noqa: F401  fill the metadata
from app.store.base import Base

connection = context.config.attributes["connection"]
context.configure(
    connection=connection, target_metadata=Base.metadata, render_as_batch=True
)
with context.begin_transaction():
    context.run_migrations()
