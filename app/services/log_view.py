"""The build log as it is read at the bench: steps with their notes and photos."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy.orm import Session

from app.core import safety
from app.core.errors import NotFound
from app.core.film_time import film_time
from app.core.setup import SetUp
from app.core.step import Supply
from app.publish.sheet import CautionLine
from app.services import sheet_build, sheet_safety
from app.store import log as store
from app.store.schema import Note, Photo
from app.store.workspace import Workspace


@dataclass(frozen=True, slots=True)
class NoteView:
    """One dated entry. ``at``: its time in the film, as typed."""

    id: int
    version: int
    step_id: int | None
    noted_at: datetime
    zone: str
    text: str
    video_ms: int | None

    @property
    def at(self) -> str:
        """The time in the film as typed."""
        return "" if self.video_ms is None else film_time(self.video_ms)


@dataclass(frozen=True, slots=True)
class PhotoView:
    """One photo. ``taken`` is the camera's own clock, in words."""

    id: int
    version: int
    step_id: int | None
    name: str
    width: int
    height: int
    taken: str
    caption: str
    alt: str
    cover: bool


@dataclass(frozen=True, slots=True)
class StepView:
    """One operation with everything the bench needs to see beside it."""

    id: int
    number: int
    name: str
    detail: str
    tool: str
    bench_minutes: int
    waits: tuple[str, ...]
    set_up: SetUp | None
    supplies: tuple[Supply, ...]
    cautions: tuple[CautionLine, ...]
    from_form: bool
    done_at: datetime | None
    notes: tuple[NoteView, ...]
    photos: tuple[PhotoView, ...]


@dataclass(frozen=True, slots=True)
class LogView:
    """An episode's whole log. ``notes`` and ``photos`` belong to no step."""

    steps: tuple[StepView, ...]
    notes: tuple[NoteView, ...]
    photos: tuple[PhotoView, ...]
    standing: str
    wordless: tuple[int, ...]

    @property
    def left(self) -> int:
        """How many steps are still to do."""
        return sum(step.done_at is None for step in self.steps)

    @property
    def now(self) -> StepView | None:
        """The step in hand: the first that is not ticked; None when all are."""
        return next((step for step in self.steps if step.done_at is None), None)

    def moved_by(self, ticked: StepView) -> StepView | None:
        """The step that ticking or undoing ``ticked`` opened or folded, if any."""
        before = self.steps[: ticked.number - 1]
        if any(step.done_at is None for step in before):
            return None
        after = self.steps[ticked.number :]
        return next((step for step in after if step.done_at is None), None)

    def step(self, step_id: int) -> StepView:
        """One of the steps; NotFound where it is gone."""
        for step in self.steps:
            if step.id == step_id:
                return step
        raise NotFound("The step is not in this part. Somebody may have removed it.")

    @property
    def empty(self) -> bool:
        """Whether nothing at all was written or photographed."""
        return not (self.notes or self.photos) and not any(
            step.notes or step.photos for step in self.steps
        )


def show(workspace: Workspace, episode_id: int) -> LogView:
    """The log of an episode; ``wordless`` are ids of photos not described yet."""
    with workspace.read() as work:
        notes = [note_view(row) for row in store.notes(work, episode_id)]
        photos = [photo_view(row) for row in store.photos(work, episode_id)]
        return LogView(
            steps=_steps(work, episode_id, notes, photos),
            notes=tuple(note for note in notes if note.step_id is None),
            photos=tuple(photo for photo in photos if photo.step_id is None),
            standing=safety.standing().text,
            wordless=tuple(photo.id for photo in photos if not photo.alt),
        )


def note_view(row: Note) -> NoteView:
    """A row as a frozen value."""
    return NoteView(
        id=row.id,
        version=row.version,
        step_id=row.step_id,
        noted_at=row.noted_at,
        zone=row.zone,
        text=row.text,
        video_ms=row.video_ms,
    )


def photo_view(row: Photo) -> PhotoView:
    """A row as a frozen value."""
    return PhotoView(
        id=row.id,
        version=row.version,
        step_id=row.step_id,
        name=row.name,
        width=row.width,
        height=row.height,
        taken=_taken(row.taken_at, row.taken_offset),
        caption=row.caption,
        alt=row.alt,
        cover=row.cover,
    )


def _steps(
    work: Session, episode_id: int, notes: list[NoteView], photos: list[PhotoView]
) -> tuple[StepView, ...]:
    set_ups = store.set_ups(work, episode_id)
    return tuple(
        StepView(
            id=row.id,
            number=number,
            name=row.name,
            detail=row.detail,
            tool=row.tool,
            bench_minutes=row.bench_minutes,
            waits=sheet_build.step_line(row).waits,
            set_up=set_ups.get(row.set_up),
            supplies=tuple(
                Supply(item.get("name", ""), item.get("quantity", ""))
                for item in row.supplies
            ),
            cautions=sheet_safety.cautions([row], (), ())[:-1],
            from_form=row.from_form,
            done_at=row.done_at,
            notes=tuple(note for note in notes if note.step_id == row.id),
            photos=tuple(photo for photo in photos if photo.step_id == row.id),
        )
        for number, row in enumerate(store.steps(work, episode_id), start=1)
    )


def _taken(taken_at: str, offset: int | None) -> str:
    """The camera's clock as written; no zone is guessed where it wrote none."""
    if not taken_at:
        return ""
    clock = taken_at.replace("T", " ")[:16]
    if offset is None:
        return f"{clock} by the camera’s clock"
    sign = "−" if offset < 0 else "+"
    hours, minutes = divmod(abs(offset), 60)
    return f"{clock} (UTC{sign}{hours}:{minutes:02d})"
