"""A faulty series folder is refused in a sentence, and nothing of it stays."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import func, select

from app.core.errors import WorkshopError
from app.services import files
from app.store.schema import (
    Episode,
    MovementRow,
    Note,
    Series,
    Settings,
    StockRow,
)
from app.store.workspace import open_workspace


def edit(folder: Path, name: str, change: Callable[[dict[str, Any]], object]) -> None:
    path = folder / name
    document = json.loads(path.read_text())
    change(document)
    path.write_text(json.dumps(document))


def _wrong_photo(folder: Path) -> None:
    (photo,) = (folder / "01-part-1" / "photos").iterdir()
    photo.write_bytes(b"no photo")


FAULTS: dict[str, tuple[Callable[[Path], object], str]] = {
    "a cubic nanometre too much": (
        lambda f: edit(f, "movements.json", lambda d: d["movements"][1].update(kerf=6)),
        "record 2: .* must balance",
    ),
    "a cent too little": (
        lambda f: edit(
            f, "movements.json", lambda d: d["movements"][0].update(paid=3999)
        ),
        "record 1: .* in money",
    ),
    "wood that is not there": (
        lambda f: edit(f, "movements.json", lambda d: d["movements"].pop(0)),
        "number is not 1",
    ),
    "a later version": (
        lambda f: edit(f, "series.json", lambda d: d.update(version=2)),
        "version 2 of the format",
    ),
    "an unknown list": (
        lambda f: edit(f, "series.json", lambda d: d.update(clamps=[])),
        "“clamps” is not known here",
    ),
    "a number that is text": (
        lambda f: edit(
            f, "series.json", lambda d: d["chapters"][0].update(start_ms="0")
        ),
        "“chapters”, record 1: “start_ms” cannot be",
    ),
    "a chapter of no part": (
        lambda f: edit(f, "series.json", lambda d: d["chapters"][0].update(episode=9)),
        "no part 9",
    ),
    "a photo of no step": (
        lambda f: edit(f, "series.json", lambda d: d["photos"][0].update(step="glue")),
        "no step “glue”",
    ),
    "a missing photo": (
        lambda f: shutil.rmtree(f / "01-part-1" / "photos"),
        "which is missing",
    ),
    "a photo that is none": (_wrong_photo, "photos/001-img-1.jpg: .*not a photo"),
    "a log without front matter": (
        lambda f: (f / "01-part-1" / "log.md").write_text("Hello"),
        "log.md: every note starts",
    ),
    "captions that are none": (
        lambda f: (f / "01-part-1" / "captions.vtt").write_bytes(b"\x00\x01" * 50),
        "caption",
    ),
    "no ledger": (lambda f: (f / "stock.json").unlink(), "stock.json: .*missing"),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_faulty_folder_is_refused_in_a_sentence_and_changes_nothing(
    exported: Path, tmp_path: Path, fault: str
) -> None:
    break_it, sentence = FAULTS[fault]
    break_it(exported)
    second = open_workspace(tmp_path / "second")
    with pytest.raises(WorkshopError, match=sentence):
        files.import_series(second, exported)
    with second.read() as work:
        for table in (Series, Episode, MovementRow, StockRow, Settings, Note):
            assert work.scalar(select(func.count()).select_from(table)) == 0
    second.close()
    left = [path for path in (second.folder / "files").rglob("*") if path.is_file()]
    assert left == []
