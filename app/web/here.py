"""What a request stands on: the workspace, the moment, the settings."""

from __future__ import annotations

from datetime import UTC, datetime

from flask import current_app

from app.store.workspace import Workspace


def workspace() -> Workspace:
    """The workspace that this server serves."""
    return current_app.extensions["stockthread"]  # type: ignore[no-any-return]


def now() -> datetime:
    """This moment, UTC."""
    clock = current_app.config.get("CLOCK")
    return clock() if clock else datetime.now(UTC)
