"""Rows as plain records and back: what a series folder holds of a table.

A record has every column but the row's own id and version; columns that point
at other rows are named by the caller, because ids mean nothing elsewhere.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from typing import Any, TypeVar

from sqlalchemy import Boolean, Column, Date, Integer, String, inspect
from sqlalchemy.types import JSON

from app.store.base import Base, Moment, WholeNumber

Row = TypeVar("Row", bound=Base)
OWN = frozenset({"id", "version"})


class BadRecord(ValueError):
    """A record that is no row of its table; the message names the key."""


def _columns(table: type[Base], leave: frozenset[str]) -> dict[str, Column[Any]]:
    found = inspect(table).column_attrs
    return {
        item.key: item.columns[0]  # type: ignore[misc]
        for item in found
        if item.key not in leave and item.key not in OWN
    }


def to_record(row: Base, leave: frozenset[str] = frozenset()) -> dict[str, Any]:
    """The row's columns as JSON values, without those in ``leave``."""
    names = _columns(type(row), leave)
    return {name: _plain(getattr(row, name)) for name in names}


def _plain(value: object) -> object:
    if isinstance(value, datetime | date):
        return value.isoformat()
    if isinstance(value, str):
        return value.replace("\r\n", "\n").replace("\r", "\n")
    return value


def from_record(table: type[Row], record: Mapping[str, Any], **pointers: object) -> Row:
    """A new row from a record; ``pointers`` are the columns it leaves out.

    Raises BadRecord where a key is missing, unknown or of the wrong kind.
    """
    columns = _columns(table, frozenset(pointers))
    if unknown := sorted(set(record) - set(columns)):
        raise BadRecord(f"“{unknown[0]}” is not known here.")
    values = {
        name: _read(name, column, record[name])
        for name, column in columns.items()
        if name in record
    }
    for name, column in columns.items():
        if name not in values and not column.nullable and column.default is None:
            raise BadRecord(f"“{name}” is missing.")
    return table(**values, **pointers)


def _read(name: str, column: Column[Any], value: Any) -> Any:
    if value is None:
        if column.nullable:
            return None
        raise BadRecord(f"“{name}” is empty.")
    try:
        return _as(column.type, value)
    except (TypeError, ValueError) as error:
        raise BadRecord(f"“{name}” cannot be {str(value)[:60]!r}.") from error


def _as(kind: Any, value: Any) -> Any:
    if isinstance(kind, Moment):
        moment = datetime.fromisoformat(value)
        if moment.tzinfo is None:
            raise ValueError("a moment needs its zone")
        return moment
    if isinstance(kind, Date):
        return date.fromisoformat(value)
    if isinstance(kind, JSON):
        return value
    if isinstance(kind, Boolean):
        return _exactly(bool, value)
    if isinstance(kind, Integer | WholeNumber):
        return _whole(kind, value)
    text = _exactly(str, value)
    if isinstance(kind, String) and kind.length and len(text) > kind.length:
        raise ValueError("it is too long")
    return text


def _whole(kind: Any, value: Any) -> int:
    number: int = _exactly(int, value)
    if not isinstance(kind, WholeNumber) and abs(number) >= 2**63:
        raise ValueError("it is too large")
    return number


def _exactly(kind: type, value: Any) -> Any:
    # True is an int to Python, and 1.0 would lose what it hides.
    if type(value) is not kind:
        raise TypeError(f"not {kind.__name__}")
    return value
