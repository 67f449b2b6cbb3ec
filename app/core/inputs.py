"""What a form asks for: reading typed inputs, naming each fault."""

from __future__ import annotations

from dataclasses import MISSING, Field, dataclass, field, fields
from enum import StrEnum
from typing import Any

from app.core.errors import WorkshopError
from app.core.length import Display, Length, Unit, show


class Ask(StrEnum):
    """The kind of an input."""

    LENGTH = "length"
    COUNT = "count"
    RATIO = "ratio"
    CHOICE = "choice"
    SPECIES = "species"  # species names, separated by commas; one or more
    TEXT = "text"
    FILE = "file"  # text of a file, or on the command line its path


@dataclass(frozen=True, slots=True)
class Input:
    """One input of a form, for pages and ``size --list``."""

    key: str
    label: str
    kind: Ask
    default: str
    required: bool
    choices: tuple[str, ...]
    help: str


def ask(
    label: str,
    kind: Ask,
    *,
    default: Any = MISSING,
    choices: tuple[str, ...] = (),
    help: str = "",
) -> Any:
    """Declare one field of a form's ``Inputs``. None as default: may stay empty."""
    metadata = {"label": label, "kind": kind, "choices": choices, "help": help}
    return field(default=default, metadata=metadata)


def listed(inputs: type) -> tuple[Input, ...]:
    """The inputs a form asks for, in order."""
    return tuple(_listed(item) for item in fields(inputs))


def _listed(item: Field[Any]) -> Input:
    facts = item.metadata
    required = item.default is MISSING
    return Input(
        item.name,
        facts["label"],
        facts["kind"],
        "" if required else typed(item.default),
        required,
        tuple(facts["choices"]),
        facts["help"],
    )


def typed(value: Any) -> str:
    """A value as it would be typed."""
    if value is None:
        return ""
    if isinstance(value, Length):
        return (
            f"{value.nm / 1_000_000:.6f}".rstrip("0").rstrip(".") + " mm"
            if (show(value, Display(denominator=64)).hidden)
            else show(value, Display(denominator=64)).text
        )
    if isinstance(value, tuple):
        return ", ".join(value)
    return str(value)


def refuse(key: str, message: str, nearest: str = "") -> WorkshopError:
    """A refusal that names its input."""
    return WorkshopError(message, input=key, nearest=nearest)


__all__ = ["Ask", "Input", "Unit", "ask", "listed", "refuse", "typed"]
