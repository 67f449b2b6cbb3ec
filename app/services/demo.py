"""The demo workspace: built afresh from the demo series, and nothing else."""

from __future__ import annotations

import shutil
from pathlib import Path

from app.core.errors import WorkshopError
from app.services.files import import_series
from app.services.files_in import Progress
from app.store.trouble import in_words
from app.store.workspace import (
    DATABASE,
    SERVING,
    SIGNING_KEY,
    hold_for_serving,
    open_workspace,
)

MARKER = "demo-workspace.txt"
WORDS = "Stockthread builds this folder anew whenever the demo starts.\n"
# All that a demo folder may hold; anything else is somebody's.
OWN = {MARKER, DATABASE, f"{DATABASE}-journal", SERVING, SIGNING_KEY, "files"}


def build(folder: Path, source: Path, progress: Progress) -> str:
    """Make ``folder`` the demo workspace; gives the series' slug.

    Raises WorkshopError where the folder holds anything but an earlier demo,
    WorkspaceBusy where a demo is being served from it.
    """
    _refuse_what_is_no_demo(folder)
    with in_words(folder), hold_for_serving(folder):
        (folder / MARKER).write_text(WORDS, encoding="utf-8")
        shutil.rmtree(folder / "files", ignore_errors=True)
        for name in (DATABASE, f"{DATABASE}-journal"):
            (folder / name).unlink(missing_ok=True)
        workspace = open_workspace(folder)
        try:
            return import_series(workspace, source, progress).slug
        finally:
            workspace.close()


def _refuse_what_is_no_demo(folder: Path) -> None:
    if not folder.exists():
        return
    held = {path.name for path in folder.iterdir()} if folder.is_dir() else {""}
    strange = sorted(held - OWN)
    if held and (strange or MARKER not in held):
        what = strange[0] if strange else DATABASE
        raise WorkshopError(
            f"“{folder}” holds something that is not the demo ({what}). The demo is "
            "built afresh each time, so it needs a folder of its own: name a new one "
            "with --data.",
            input="data",
        )
