"""A series on its way out: everything of it as open files."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.errors import NotFound
from app.publish import archive, traces
from app.publish.log_file import LoggedNote, write_log
from app.publish.pictures import SUFFIXES
from app.store import files, ledger, series_wood
from app.store.plan_ids import by_label
from app.store.records import to_record
from app.store.schema import (
    CaptionsRow,
    Episode,
    Note,
    Photo,
    PlanRow,
    Publication,
    Series,
    Settings,
    StepRow,
    StockRow,
)
from app.store.series_rows import of_episode, to_lists

Record = dict[str, Any]
# What the picture itself says, or the data folder: made anew on import.
OF_PICTURE = frozenset({"sha256", "web_sha256", "thumb_sha256", "format"})
OF_PICTURE |= {"width", "height", "episode_id", "step_id"}


@dataclass
class Outgoing:
    """One series being written, inside one look at the workspace."""

    work: Session
    folder: Path
    target: archive.Target
    originals: bool
    lists: dict[str, list[Record]] = field(default_factory=dict)

    def write(self, slug: str) -> None:
        """Write every file. Raises NotFound where there is no such series."""
        series = self.work.scalar(select(Series).where(Series.slug == slug))
        if series is None:
            raise NotFound(f"There is no series “{slug}” in this workspace.")
        self.lists = to_lists(self.work, series)
        plans = self._number_plans(series)
        labels = {row.id: row.label for row in self.work.scalars(select(StockRow))}
        self.lists["plans"] = [by_label(one, labels) for one in self.lists["plans"]]
        self.lists |= {"photos": [], "captions": []}
        if wood := series_wood.of_series(self.work, series.id):
            record = to_record(wood, frozenset({"series_id"}))
            self.lists["series_plans"] = [by_label(record, labels)]
        for episode in series.episodes:
            self._episode(episode)
        facts: Record = {"series": to_record(series), "settings": self._settings()}
        self.target.add(archive.SERIES, archive.headed(facts | self.lists))
        found = ledger.of_series(self.work, series, plans)
        self.target.add(archive.STOCK, archive.headed({"stock": found.stock}))
        moves = archive.headed({"movements": found.movements})
        self.target.add(archive.MOVEMENTS, moves)

    def _settings(self) -> Record | None:
        row = self.work.get(Settings, 1)
        return to_record(row) if row else None

    def _number_plans(self, series: Series) -> dict[int, int]:
        numbers: dict[int, int] = {}
        for episode in series.episodes:
            rows = of_episode(self.work, PlanRow, episode, ("id",))
            numbers |= {row.id: at for at, row in enumerate(rows, 1)}
        return numbers

    def _episode(self, episode: Episode) -> None:
        place = folder_name(episode.number, episode.slug)
        steps = {row.id: row.key for row in of_episode(self.work, StepRow, episode, ())}
        notes = of_episode(self.work, Note, episode, ("noted_at", "id"))
        self.target.add(f"{place}/log.md", write_log(_logged(n, steps) for n in notes))
        photos = of_episode(self.work, Photo, episode, ("position", "id"))
        for at, photo in enumerate(photos, 1):
            self._photo(at, photo, episode, place, steps)
        for captions in of_episode(self.work, CaptionsRow, episode, ("id",)):
            self._captions(captions, episode, place)
        sent = of_episode(self.work, Publication, episode, ("revision",))
        for publication in sent:
            self._publication(publication, place)
        shown = [photo for row in sent for photo in row.sheet.get("photos", [])]
        for digest in sorted({photo["sha256"] for photo in shown}):
            name = f"{place}/publications/photos/{digest}"
            self.target.add(name, files.read(self.folder, digest))

    def _photo(
        self, at: int, photo: Photo, episode: Episode, place: str, steps: dict[int, str]
    ) -> None:
        content = files.read(self.folder, photo.sha256)
        suffix = SUFFIXES.get(photo.format, ".jpg")
        if not self.originals:
            content, suffix = traces.cleaned(content)
        name = f"{place}/photos/{at:03d}-{_stem(photo.name)}{suffix}"
        self.target.add(name, content)
        record = to_record(photo, OF_PICTURE)
        record |= {"episode": episode.number, "file": name}
        self.lists["photos"].append(record | {"step": steps.get(photo.step_id or 0)})

    def _captions(self, row: CaptionsRow, episode: Episode, place: str) -> None:
        content = files.read(self.folder, row.sha256)
        suffix = ".srt" if row.name.lower().endswith(".srt") else ".vtt"
        name = f"{place}/captions{suffix}"
        self.target.add(name, content)
        record = to_record(row, frozenset({"sha256", "episode_id"}))
        record |= {"episode": episode.number, "file": name}
        self.lists["captions"].append(record)

    def _publication(self, row: Publication, place: str) -> None:
        record = to_record(row, frozenset({"episode_id"}))
        name = f"{place}/publications/{row.revision}.json"
        self.target.add(name, archive.headed(record))


def folder_name(number: int, slug: str) -> str:
    """An episode's folder: ``03-spice-shelf``."""
    return f"{number:02d}-{slug}"


def _logged(note: Note, steps: dict[int, str]) -> LoggedNote:
    step = steps.get(note.step_id or 0, "")
    return LoggedNote(note.noted_at, note.zone, note.text, step, note.video_ms)


def _stem(name: str) -> str:
    stem = name.rsplit(".", 1)[0].lower()
    return re.sub(r"[^a-z0-9]+", "-", stem).strip("-")[:60] or "photo"
