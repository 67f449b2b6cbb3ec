"""Jobs and plans as plain documents, to be kept and read again unchanged."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from enum import Enum
from types import NoneType, UnionType
from typing import Any, TypeVar, get_args, get_origin, get_type_hints

from app.core.cutting.job import Job
from app.core.cutting.plan import Plan
from app.core.length import Length

VERSION = 1
Value = TypeVar("Value")


def written(value: Any) -> Any:
    """A frozen value as dicts, lists, numbers and text; lengths are whole nm."""
    if isinstance(value, Length):
        return value.nm
    if isinstance(value, Enum):
        return value.value
    if is_dataclass(value):
        return {one.name: written(getattr(value, one.name)) for one in fields(value)}
    if isinstance(value, tuple):
        return [written(one) for one in value]
    return value


def read(kind: type[Value], document: Any) -> Value:
    """The value that ``written`` made the document of."""
    found: Value = _read(kind, document)
    return found


def job_document(job: Job) -> dict[str, Any]:
    """A job to keep, with the version of its form."""
    return {"version": VERSION, "job": written(job)}


def read_job(document: dict[str, Any]) -> Job:
    """A job that was kept."""
    return read(Job, document["job"])


def answer_document(plan: Plan) -> dict[str, Any]:
    """A plan to keep beside its job."""
    whole = written(plan)
    return {"version": VERSION} | {k: v for k, v in whole.items() if k != "job"}


def read_plan(job: dict[str, Any], answer: dict[str, Any]) -> Plan:
    """A plan from the two documents it was kept in."""
    return read(Plan, answer | {"job": job["job"]})


def _read(kind: Any, document: Any) -> Any:
    if get_origin(kind) is tuple:
        item = get_args(kind)[0]
        return tuple(_read(item, one) for one in document)
    if get_origin(kind) is UnionType:
        (kind,) = (one for one in get_args(kind) if one is not NoneType)
        return None if document is None else _read(kind, document)
    if kind is Length:
        return Length(document)
    if is_dataclass(kind):
        known = get_type_hints(kind)
        there = {one.name for one in fields(kind)} & document.keys()
        return kind(**{name: _read(known[name], document[name]) for name in there})  # type: ignore[operator]
    if issubclass(kind, Enum):
        return kind(document)
    return document
