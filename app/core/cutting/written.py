"""Jobs and plans as plain documents, to be kept and read again unchanged."""

from __future__ import annotations

import json
from functools import lru_cache
from typing import Any

from app.core.cutting.job import Job
from app.core.cutting.plan import Plan
from app.core.document import from_plain, to_plain

VERSION = 1
KEPT = 8  # plans read lately


def job_document(job: Job) -> dict[str, Any]:
    """A job to keep, with the version of its form."""
    return {"version": VERSION, "job": to_plain(job)}


def answer_document(plan: Plan) -> dict[str, Any]:
    """A plan to keep beside its job."""
    whole = to_plain(plan)
    return {"version": VERSION} | {k: v for k, v in whole.items() if k != "job"}


def read_plan(job: dict[str, Any], answer: dict[str, Any]) -> Plan:
    """A plan from the two documents it was kept in.

    One page asks for the same plan several times: what was read lately is kept.

    Raises WorkshopError for what is none.
    """
    return _read(json.dumps(job), json.dumps(answer))


@lru_cache(maxsize=KEPT)
def _read(job: str, answer: str) -> Plan:
    facts = json.loads(answer)
    facts.pop("version", None)
    return from_plain(Plan, facts | {"job": json.loads(job).get("job")})
