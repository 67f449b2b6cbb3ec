"""Frozen values as plain JSON documents, and back without loss."""

from __future__ import annotations

from dataclasses import MISSING, fields, is_dataclass
from enum import Enum
from functools import cache
from types import NoneType, UnionType
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

from app.core.errors import WorkshopError
from app.core.length import Length

Value = TypeVar("Value")
PLAIN = (int, str, bool, NoneType)


def to_plain(value: Any) -> Any:
    """A dataclass as a dict, a tuple as a list, a length as whole nanometres."""
    kind: Any = type(value)
    if kind in PLAIN:
        return value
    if isinstance(value, Length):
        return value.nm
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, tuple):
        return [to_plain(item) for item in value]
    if is_dataclass(value):
        return {name: to_plain(getattr(value, name)) for name in _names(kind)}
    return value


@cache
def _names(kind: type) -> tuple[str, ...]:
    return tuple(item.name for item in fields(kind))


def from_plain(kind: type[Value], plain: Any) -> Value:
    """The value that ``to_plain`` was given.

    A field that is missing takes its default: it was added later. A field that
    is not known, or holds another kind of thing, is refused.
    """
    read: Value = _read(kind, plain, kind.__name__)
    return read


def _read(kind: Any, plain: Any, where: str) -> Any:
    if kind is Length:
        return Length(_read(int, plain, where))
    if is_dataclass(kind):
        return _read_value(kind, plain, where)
    origin = get_origin(kind)
    if origin is tuple:
        return _read_row(get_args(kind)[0], plain, where)
    if origin in {Union, UnionType}:
        if plain is None:
            return None
        return _read(next(k for k in get_args(kind) if k is not NoneType), plain, where)
    if issubclass(kind, Enum):
        return kind(_one_of(kind, plain, where))
    if type(plain) is not kind:
        raise _strange(plain, where)
    return plain


def _one_of(kind: type[Enum], plain: Any, where: str) -> Any:
    if plain not in [one.value for one in kind]:
        raise _strange(plain, where)
    return plain


def _strange(plain: Any, where: str) -> WorkshopError:
    return WorkshopError(f"{where} holds {plain!r}, which does not belong there.")


def _read_row(kind: Any, plain: Any, where: str) -> tuple[Any, ...]:
    if not isinstance(plain, list):
        raise WorkshopError(f"{where} must be a list.")
    return tuple(_read(kind, item, f"{where} {i}") for i, item in enumerate(plain, 1))


def _read_value(kind: Any, plain: Any, where: str) -> Any:
    if not isinstance(plain, dict):
        raise WorkshopError(f"{where} must be an object.")
    known = {item.name: item for item in fields(kind)}
    if unknown := sorted(set(plain) - set(known)):
        raise WorkshopError(
            f"{where} has “{unknown[0]}”, which this version of Stockthread does not "
            "know. Was it written by a newer one?"
        )
    hints = _hints(kind)
    for name, item in known.items():
        if name not in plain and item.default is MISSING:
            raise WorkshopError(f"{where} lacks “{name}”.")
    return kind(
        **{name: _read(hints[name], plain[name], f"{where}, {name}") for name in plain}
    )


@cache
def _hints(kind: type) -> dict[str, Any]:
    return get_type_hints(kind)
