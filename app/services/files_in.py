"""A series on its way in: read and checked whole, then kept in one transaction."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from hashlib import sha256
from typing import Any

from sqlalchemy.orm import Session

from app.core.captions import read_captions
from app.core.errors import WorkshopError
from app.core.plain_text import first_unprintable
from app.publish import archive
from app.publish.archive import BadSeries
from app.publish.log_file import BadLog, LoggedNote, read_log
from app.publish.pictures import read_picture
from app.services.files_check import (
    check_address,
    check_shown,
    fitting,
    read_part,
)
from app.services.files_out import folder_name
from app.store import files, ledger_in
from app.store.ledger import Ledger
from app.store.plan_ids import by_id
from app.store.records import BadRecord, from_record
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
)
from app.store.series_plan import SeriesPlan
from app.store.series_rows import OF_DESIGN, OF_EPISODE, add_lists, of_episode
from app.store.workspace import Workspace

Record = dict[str, Any]
Progress = Callable[[int, int, str], None]
STORIES = ("photos", "captions", "series_plans")
LISTS = ("episodes", *OF_EPISODE, *OF_DESIGN, *STORIES)


@dataclass
class Incoming:
    """One series being read. Raises BadSeries naming the file and the place."""

    workspace: Workspace
    source: archive.Source
    progress: Progress
    slug: str = ""
    put: list[str] = field(default_factory=list)

    def run(self) -> tuple[str, str, int]:
        """Bring it in whole, or leave everything as it was: slug, title, parts."""
        with fitting():
            self._read()
        try:
            self._keep_files()
            with self.workspace.write() as work:
                return self._add(work)
        except BaseException:
            self._drop_files()
            raise

    def look(self) -> str:
        """The title, after everything but the pictures was checked."""
        with fitting():
            self._read()
        with self.workspace.read() as work:
            check_address(work, self.slug or self.series.slug)
        return self.series.title

    # --- reading and checking, before anything is kept ---

    def _read(self) -> None:
        document = archive.read_document(self.source, archive.SERIES)
        known = {"format", "version", "series", "settings", *LISTS}
        if strange := sorted(set(document) - known):
            raise BadSeries(archive.SERIES, f"“{strange[0]}” is not known here.")
        self.document = document
        self.lists = {name: _records(document, name) for name in LISTS}
        stock = archive.read_document(self.source, archive.STOCK)
        moves = archive.read_document(self.source, archive.MOVEMENTS)
        self.ledger = Ledger(
            _records(stock, "stock", archive.STOCK),
            _records(moves, "movements", archive.MOVEMENTS),
        )
        ledger_in.check(self.ledger)
        self.series = from_record(Series, _facts(document))
        self._check_files()

    def _check_files(self) -> None:
        self.logs: dict[int, tuple[LoggedNote, ...]] = {}
        self.sent: dict[int, list[Record]] = {}
        for record in self.lists["episodes"]:
            number, slug = read_part(record)
            place = folder_name(number, slug)
            self.logs[number] = self._log(f"{place}/log.md")
            self.sent[number] = self._publications(f"{place}/publications/")
        for name in ("photos", "captions"):
            for record in self.lists[name]:
                self._named_file(name, record)

    def _log(self, name: str) -> tuple[LoggedNote, ...]:
        if name not in self.source.names():
            return ()
        try:
            notes = read_log(self.source.read(name))
        except BadLog as error:
            raise BadSeries(name, f"{error}.") from error
        for note in notes:
            if first_unprintable(note.text) is not None:
                raise BadSeries(name, "a note holds an invisible control mark.")
        return notes

    def _publications(self, place: str) -> list[Record]:
        names = [n for n in self.source.names() if n.startswith(place)]
        found = [
            archive.read_document(self.source, name)
            for name in sorted(names)
            if name.endswith(".json")
        ]
        for document in found:
            for photo in document.get("sheet", {}).get("photos", []):
                name = f"{place}photos/{photo.get('sha256')}"
                if name not in self.source.names():
                    raise BadSeries(name, "a publication shows this photo.")
        return sorted(found, key=lambda item: int(item.get("revision", 0)))

    def _named_file(self, what: str, record: Record) -> None:
        name = record.get("file")
        if name not in self.source.names():
            raise BadSeries(
                archive.SERIES, f"“{what}” names {name!r}, which is missing."
            )

    # --- files first, so that no row names what is not on disk ---

    def _keep_files(self) -> None:
        total = len(self.lists["photos"])
        self.pictures: list[Record] = []
        for at, record in enumerate(self.lists["photos"], 1):
            self.progress(at, total, f"Photo {at} of {total}")
            try:
                self.pictures.append(self._picture(self.source.read(record["file"])))
            except WorkshopError as error:
                raise BadSeries(record["file"], str(error)) from error
        for record in self.lists["captions"]:
            content = self.source.read(record["file"])
            try:
                read_captions(content)
            except WorkshopError as error:
                raise BadSeries(record["file"], str(error)) from error
            self._put(content)
        for name in sorted(self.source.names()):
            digest = name.rsplit("/", 1)[-1]
            if "/publications/photos/" not in name:
                continue
            content = self.source.read(name)
            if sha256(content).hexdigest() != digest:
                raise BadSeries(name, "its content is not what its name says.")
            self._put(content)

    def _picture(self, content: bytes) -> Record:
        """The columns that the picture itself gives, its files kept."""
        read = read_picture(content)
        return {
            "sha256": self._put(content),
            "web_sha256": self._put(read.web),
            "thumb_sha256": self._put(read.thumb),
            "format": read.format,
            "width": read.width,
            "height": read.height,
        }

    def _put(self, content: bytes) -> str:
        digest = sha256(content).hexdigest()
        if not files.path(self.workspace.folder, digest).exists():
            self.put.append(digest)
        return files.put(self.workspace.folder, content)

    def _drop_files(self) -> None:
        for digest in self.put:
            with suppress(OSError):
                files.path(self.workspace.folder, digest).unlink()

    # --- rows ---

    def _add(self, work: Session) -> tuple[str, str, int]:
        series = self.series
        series.slug = self.slug or series.slug
        check_address(work, series.slug)
        with fitting():
            if self.document.get("settings") and work.get(Settings, 1) is None:
                work.add(from_record(Settings, self.document["settings"]))
            work.add(series)
            work.flush()
            episodes = add_lists(work, series, self._without_files())
            self._add_stories(work, episodes)
            ids = self._add_ledger(work, episodes)
            self._add_wood(work, ids)
            work.flush()
            check_shown(work, series, episodes.values())
        return series.slug, series.title, len(episodes)

    def _without_files(self) -> dict[str, list[Record]]:
        return {key: rows for key, rows in self.lists.items() if key not in STORIES}

    def _add_stories(self, work: Session, episodes: dict[int, Episode]) -> None:
        steps = {
            (number, row.key): row.id
            for number, episode in episodes.items()
            for row in of_episode(work, StepRow, episode, ())
        }
        for number, notes in self.logs.items():
            for note in notes:
                step = _step(steps, number, note.step or None)
                work.add(_note(note, episodes[number].id, step))
        for record, made in zip(self.lists["photos"], self.pictures, strict=True):
            self._add_photo(work, record, made, episodes, steps)
        for record in self.lists["captions"]:
            rest = _but(record, "episode", "file")
            digest = sha256(self.source.read(record["file"])).hexdigest()
            episode = _episode(episodes, record)
            pointers = {"episode_id": episode.id, "sha256": digest}
            work.add(from_record(CaptionsRow, rest, **pointers))
        for number, sent in self.sent.items():
            for document in sent:
                rest = _but(document, "format", "version")
                row = from_record(Publication, rest, episode_id=episodes[number].id)
                work.add(row)
        work.flush()

    def _add_photo(
        self,
        work: Session,
        record: Record,
        made: Record,
        episodes: dict[int, Episode],
        steps: dict[tuple[int, str], int],
    ) -> None:
        episode = _episode(episodes, record)
        step = _step(steps, episode.number, record.get("step"))
        rest = _but(record, "episode", "file", "step")
        pointers = made | {"episode_id": episode.id, "step_id": step}
        work.add(from_record(Photo, rest, **pointers))

    def _add_ledger(
        self, work: Session, episodes: dict[int, Episode]
    ) -> dict[str, int]:
        plans = {
            (number, at): row
            for number, episode in episodes.items()
            for at, row in enumerate(of_episode(work, PlanRow, episode, ("id",)), 1)
        }
        ids = ledger_in.Recording(work, self.ledger, episodes, plans).run()
        for row in plans.values():
            named = by_id({"job": row.job, "answer": row.answer}, ids)
            row.job, row.answer = named["job"], named["answer"]
        return ids

    def _add_wood(self, work: Session, ids: dict[str, int]) -> None:
        for at, record in enumerate(self.lists["series_plans"], 1):
            if at > 1:
                raise BadRecord("“series_plans” holds more than one plan.")
            row = from_record(SeriesPlan, record, series_id=self.series.id)
            named = {"job": row.job, "answer": row.answer, "apart": row.apart}
            named = by_id(named, ids)
            row.job, row.answer, row.apart = (
                named["job"],
                named["answer"],
                named["apart"],
            )
            work.add(row)


def _records(document: Record, name: str, where: str = archive.SERIES) -> list[Record]:
    found = document.get(name, [])
    if not isinstance(found, list) or not all(isinstance(r, dict) for r in found):
        raise BadSeries(where, f"“{name}” is no list of records.")
    return found


def _facts(document: Record) -> Record:
    facts = document.get("series")
    if not isinstance(facts, dict):
        raise BadRecord("“series” is missing.")
    return facts


def _step(
    steps: dict[tuple[int, str], int], number: int, key: str | None
) -> int | None:
    if key is None:
        return None
    if (number, key) not in steps:
        raise BadRecord(f"part {number} has no step “{key}”.")
    return steps[number, key]


def _episode(episodes: dict[int, Episode], record: Record) -> Episode:
    number = record.get("episode")
    if type(number) is not int or number not in episodes:
        raise BadRecord(f"there is no part {number!r}.")
    return episodes[number]


def _note(note: LoggedNote, episode_id: int, step_id: int | None) -> Note:
    return Note(
        episode_id=episode_id,
        step_id=step_id,
        noted_at=note.time,
        zone=note.zone,
        text=note.text,
        video_ms=note.video_ms,
    )


def _but(record: Record, *names: str) -> Record:
    return {key: value for key, value in record.items() if key not in names}
