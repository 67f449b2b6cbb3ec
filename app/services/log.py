"""The steps of the build log: ticked off, undone, added, taken out."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy.orm import Session

from app.core.errors import WorkshopError
from app.core.plain_text import is_blank
from app.services import episodes
from app.services.log_view import LogView, show
from app.store import log as store
from app.store.schema import Note, Photo, StepRow
from app.store.workspace import Workspace

__all__ = ["LogView", "add_step", "read_step", "remove_step", "show", "tick"]

LONGEST_NAME = 200


def tick(
    workspace: Workspace,
    slug: str,
    number: int,
    step_id: int,
    done: bool,
    now: datetime,
) -> None:
    """Tick a step off, or undo it. Ticking twice keeps the first moment."""
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        step = store.own(work, StepRow, episode.id, step_id, "The step")
        if done and step.done_at is None:
            step.done_at, step.version = now, step.version + 1
        elif not done and step.done_at is not None:
            step.done_at, step.version = None, step.version + 1


def add_step(
    workspace: Workspace, slug: str, number: int, name: str, tool: str, detail: str
) -> int:
    """Add a step of the maker's own behind the others; gives its id."""
    name, tool = " ".join(name.split()), " ".join(tool.split())
    if is_blank(name):
        raise WorkshopError(
            "The step has no name. Say what is done, such as “Sand to 180 grit”.",
            input="name",
        )
    if len(name) > LONGEST_NAME or len(tool) > 80:
        raise WorkshopError(
            "That is too long for a name: 200 characters for the step, 80 for the "
            "tool. The rest has room below.",
            input="name" if len(name) > LONGEST_NAME else "tool",
        )
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        position = store.next_position(work, StepRow, episode.id)
        step = StepRow(
            episode_id=episode.id,
            position=position,
            key=_free_key(work, episode.id),
            name=name,
            tool=tool,
            detail=detail.strip(),
            from_form=False,
        )
        work.add(step)
        work.flush()
        return step.id


def remove_step(workspace: Workspace, slug: str, number: int, step_id: int) -> None:
    """Take out a step of the maker's own; its notes and photos stay in the log."""
    with workspace.write() as work:
        episode = episodes.within(work, slug, number)
        step = store.own(work, StepRow, episode.id, step_id, "The step")
        if step.from_form:
            raise WorkshopError(
                f"“{step.name}” comes from the design. Change the design to lose it, "
                "or leave it without a tick."
            )
        tied: list[Note | Photo] = [
            *store.notes(work, episode.id),
            *store.photos(work, episode.id),
        ]
        for row in tied:
            if row.step_id == step.id:
                row.step_id = None
        work.flush()
        work.delete(step)


def read_step(work: Session, episode_id: int, typed: str) -> int | None:
    """The step that a note or photo is tied to; None for none of them."""
    if not typed:
        return None
    plain = typed.isascii() and typed.isdecimal() and len(typed) < 10
    wanted = int(typed) if plain else 0
    return store.own(work, StepRow, episode_id, wanted, "The step").id


def _free_key(work: Session, episode_id: int) -> str:
    taken = {row.key for row in store.steps(work, episode_id)}
    number = 1
    while f"own-{number}" in taken:
        number += 1
    return f"own-{number}"
