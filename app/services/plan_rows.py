"""The rows that plans of cuts are kept in: which to write over, and what goes in."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy.orm import Session

from app.core.cutting.plan import Plan
from app.core.cutting.written import answer_document, job_document
from app.core.errors import StaleEdit
from app.services import plan_wishes
from app.services.plan_job import Asked
from app.store import plans as store
from app.store.schema import PlanRow


def check_planned(work: Session, episode_id: int, version: int) -> None:
    """Raise StaleEdit where the latest plan has another version; 0: there is none."""
    row = store.latest(work, episode_id)
    if row is None and version:
        raise StaleEdit("The cutting plan", {"dealer": "", "version": "0"})
    if row is not None and row.version != version:
        stored = {"dealer": row.job["dealer"], "version": str(row.version)}
        raise StaleEdit("The cutting plan", stored)


def row_to_fill(work: Session, episode_id: int, version: int) -> PlanRow:
    """The plan to write over; a new one beside a plan that was cut."""
    check_planned(work, episode_id, version)
    row = store.latest(work, episode_id)
    if row is None:
        return new_row(work, episode_id)
    row.version += 1
    return new_row(work, episode_id) if row.cut_on else row


def new_row(work: Session, episode_id: int) -> PlanRow:
    """A plan beside those that are there."""
    row = PlanRow(episode_id=episode_id)
    work.add(row)
    return row


def fill(row: PlanRow, plan: Plan, asked: Asked, now: datetime) -> None:
    """Write a plan and what it was asked for into its row."""
    beside = {"dealer": asked.dealer, "wishes": plan_wishes.document(asked.wishes)}
    kept: dict[str, Any] = job_document(plan.job) | beside
    row.job, row.answer, row.made_at = kept, answer_document(plan), now
