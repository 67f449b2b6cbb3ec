"""An episode's steps, brought along when its design changes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.step import Step
from app.store.schema import Note, Photo, StepRow


def sync(work: Session, episode_id: int, steps: Sequence[Step]) -> None:
    """Make the form's steps those of ``steps``, matched by key.

    What was ticked stays ticked. A step that the new design lacks goes, unless
    it was done or a note or photo hangs on it; the maker's own steps stay
    behind the step they stood behind.
    """
    query = select(StepRow).where(StepRow.episode_id == episode_id)
    old = list(work.scalars(query.order_by(StepRow.position, StepRow.id)))
    rows = {row.key: row for row in old}
    order = [_brought(work, rows, episode_id, step) for step in steps]
    wanted = {step.key for step in steps}
    used = _hung_on(work, old)
    before: StepRow | None = None
    for row in old:
        if row.key in wanted:
            before = row
        elif row.from_form and row.done_at is None and row.id not in used:
            work.delete(row)
        else:
            order.insert(order.index(before) + 1 if before else 0, row)
            before = row
    for position, row in enumerate(order):
        row.position = position


def _brought(
    work: Session, rows: dict[str, StepRow], episode_id: int, step: Step
) -> StepRow:
    row, facts = rows.get(step.key), _facts(step)
    if row is None:
        row = StepRow(episode_id=episode_id, key=step.key, position=0, **facts)
        work.add(row)
    elif any(getattr(row, name) != fact for name, fact in facts.items()):
        for name, fact in facts.items():
            setattr(row, name, fact)
        row.version += 1
    return row


def _facts(step: Step) -> dict[str, Any]:
    return {
        "name": step.name[:200],
        "detail": step.detail,
        "tool": step.tool,
        "set_up": step.set_up,
        "bench_minutes": step.bench_minutes,
        "waits": [{"until": w.until.value, "minutes": w.minutes} for w in step.waits],
        "cautions": list(step.cautions),
        "supplies": [{"name": s.name, "quantity": s.quantity} for s in step.supplies],
    }


def _hung_on(work: Session, rows: Iterable[StepRow]) -> set[int]:
    """Ids of steps that notes or photos belong to."""
    ids = [row.id for row in rows]
    found: set[int] = set()
    for table in (Note, Photo):
        query = select(table.step_id).where(table.step_id.in_(ids))
        found |= {step_id for step_id in work.scalars(query) if step_id is not None}
    return found
