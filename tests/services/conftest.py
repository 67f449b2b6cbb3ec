"""Shared by the tests of the services: a series folder."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.services import files
from app.store.workspace import Workspace
from tests.services.two_series import fill


@pytest.fixture
def exported(workspace: Workspace, tmp_path: Path) -> Path:
    fill(workspace)
    return files.export_series(workspace, "sill", tmp_path / "out")
