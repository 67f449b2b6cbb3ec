"""A disk that is full: a real small one where the system lets us, else a stand-in.

Only an administrator may put a file system into place. Elsewhere every write that
is synced fails with the system's own code, and the database may not grow.
"""

from __future__ import annotations

import errno
import os
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import NoReturn

import pytest
from sqlalchemy import event

from app.store.workspace import Workspace

SIZE = "6m"


class Disk:
    """A small disk at ``place``; ``fill`` leaves no room on it."""

    def __init__(self, place: Path, real: bool, patch: pytest.MonkeyPatch) -> None:
        self.place, self.real, self.patch = place, real, patch

    def fill(self, workspace: Workspace | None = None) -> None:
        """Take all the room there is."""
        if self.real:
            with suppress(OSError), (self.place / "ballast").open("wb", 0) as file:
                while True:
                    file.write(b"\1" * 4096)
            return
        self.patch.setattr(os, "fsync", _full)
        if workspace is not None:
            event.listen(workspace.engine, "connect", _grow_no_more)
            workspace.engine.dispose()


def _full(_handle: int) -> NoReturn:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def _grow_no_more(connection: object, _record: object) -> None:
    pages = connection.execute("PRAGMA page_count").fetchone()[0]  # type: ignore[attr-defined]
    connection.execute(f"PRAGMA max_page_count = {pages}")  # type: ignore[attr-defined]


@contextmanager
def small_disk(place: Path, patch: pytest.MonkeyPatch) -> Iterator[Disk]:
    """A disk of a few megabytes."""
    place.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", f"size={SIZE}", "tmpfs", str(place)]
    with suppress(OSError):
        subprocess.run(mount, check=False, capture_output=True)
    real = place.is_mount()
    try:
        yield Disk(place, real, patch)
    finally:
        if real:
            subprocess.run(["umount", "-l", str(place)], check=True)
