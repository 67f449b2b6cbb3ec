"""Shared by every test: an empty workspace, a client, the published fixtures."""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from flask.testing import FlaskClient
from hypothesis import settings

from app.main import create_app
from app.store.workspace import Workspace, open_workspace

# A slow moment of the machine is no fault of the program.
settings.register_profile("shop", deadline=None)
settings.load_profile("shop")

NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
SHARED = Path(__file__).resolve().parents[2] / "shared"


@pytest.fixture
def workspace(tmp_path: Path) -> Iterator[Workspace]:
    """A real, empty workspace on disk."""
    opened = open_workspace(tmp_path / "data")
    yield opened
    opened.close()


@pytest.fixture
def client(workspace: Workspace) -> FlaskClient:
    """A browser without a screen."""
    app = create_app(
        workspace,
        TESTING=True,
        WTF_CSRF_ENABLED=False,
        CLOCK=lambda: NOON,
        # However busy the machine is, a plan is there when its page answers.
        PATIENCE=60.0,
    )
    browser = app.test_client()
    # What a browser says of a request from one of our own pages.
    browser.environ_base["HTTP_SEC_FETCH_SITE"] = "same-origin"
    return browser


def shared(name: str) -> Path:
    """A folder of published material; skips without it, fails where CI needs it."""
    found = SHARED / name
    if not found.exists():
        reason = f"published material {name} is not beside this checkout"
        if os.environ.get("CI") == "true":
            pytest.fail(reason)
        pytest.skip(reason)
    return found
