"""What a form asks for: reading typed inputs, naming each fault."""

from __future__ import annotations

import re
from dataclasses import MISSING, Field, dataclass, field, fields
from difflib import get_close_matches
from enum import StrEnum
from fractions import Fraction
from typing import Any, TypeVar

from app.core.errors import WorkshopError
from app.core.length import Display, Length, Unit, mm, show
from app.core.plain_text import check_text
from app.core.shop import Shop
from app.core.volume_typed import Volume

# Nothing a form makes is longer; a longer number is a slip of the finger.
LONGEST = mm(5000)
NOTHING = Length(0)


class Ask(StrEnum):
    """The kind of an input."""

    LENGTH = "length"
    VOLUME = "volume"
    COUNT = "count"
    RATIO = "ratio"
    CHOICE = "choice"
    SPECIES = "species"  # species names, separated by commas; one or more
    TEXT = "text"
    FILE = "file"  # text of a file, or on the command line its path


@dataclass(frozen=True, slots=True)
class Input:
    """One input of a form, for pages and ``size --list``.

    ``least`` and ``most`` bound lengths, counts and ratios; a length of
    nothing is refused unless ``least`` is Length(0).
    """

    key: str
    label: str
    kind: Ask
    default: str
    required: bool
    choices: tuple[str, ...]
    help: str
    least: Any = None
    most: Any = None


class FaultyInputs(WorkshopError):
    """Typed inputs that cannot be read: the first fault, and all by field."""

    def __init__(self, faults: tuple[WorkshopError, ...]) -> None:
        first = faults[0]
        super().__init__(str(first), input=first.input, nearest=first.nearest)
        self.faults = {fault.input: str(fault) for fault in reversed(faults)}


def ask(
    label: str,
    kind: Ask,
    *,
    default: Any = MISSING,
    choices: tuple[str, ...] = (),
    help: str = "",
    least: Any = None,
    most: Any = None,
) -> Any:
    """Declare one field of a form's ``Inputs``. None as default: may stay empty."""
    metadata = {"label": label, "kind": kind, "choices": choices, "help": help}
    bounds = {"least": least, "most": most}
    return field(default=default, metadata=metadata | bounds)


def listed(inputs: type, unit: Unit = Unit.INCH) -> tuple[Input, ...]:
    """The inputs a form asks for, in order; defaults as typed in ``unit``."""
    return tuple(_listed(item, unit) for item in fields(inputs))


def _listed(item: Field[Any], unit: Unit) -> Input:
    required = item.default is MISSING
    default = "" if required else typed(item.default, unit)
    return Input(item.name, default=default, required=required, **item.metadata)


def typed(value: Any, unit: Unit = Unit.INCH) -> str:
    """A value as it would be typed; reading it gives the same value."""
    if value is None:
        return ""
    if isinstance(value, Length):
        return _typed_length(value, unit)
    if isinstance(value, Volume):
        return value.typed(unit)
    if isinstance(value, tuple):
        return ", ".join(value)
    return str(value)


def _typed_length(length: Length, unit: Unit) -> str:
    fraction = show(length, Display(denominator=64))
    if unit is Unit.INCH and not fraction.hidden:
        return fraction.text
    whole, rest = divmod(length.nm, 1_000_000)
    return f"{whole}.{rest:06d}".rstrip("0").rstrip(".") + " mm"


T = TypeVar("T")


def read(inputs: type[T], given: dict[str, str], shop: Shop) -> T:
    """Typed text to a form's ``Inputs``; a bare number is in the shop's unit.

    An empty text is the default. Raises FaultyInputs with a sentence for every
    field at fault, unknown names included.
    """
    asked = {item.key: item for item in listed(inputs, shop.unit)}
    faults = [_unknown(key, asked) for key in given if key not in asked]
    values: dict[str, Any] = {}
    for key, item in asked.items():
        text = given.get(key, "")
        try:
            check_text(text, input=key)
            if text.strip():
                values[key] = _READERS[item.kind](item, text, shop)
            elif item.required:
                raise refuse(key, f"{item.label} is missing. {item.help}".strip())
        except WorkshopError as error:
            faults.append(error)
    if faults:
        raise FaultyInputs(tuple(faults))
    return inputs(**values)


def _unknown(key: str, asked: dict[str, Input]) -> WorkshopError:
    nearest = (get_close_matches(key, asked, 1, 0.5) or [""])[0]
    hint = f"Did you mean {nearest}?" if nearest else f"It asks for {', '.join(asked)}."
    message = f"This form does not ask for “{_short(key)}”. {hint}"
    return WorkshopError(message, input=key, nearest=nearest)


def refuse(key: str, message: str, nearest: str = "") -> WorkshopError:
    """A refusal that names its input."""
    return WorkshopError(message, input=key, nearest=nearest)


def _short(text: str) -> str:
    return text if len(text) <= 40 else text[:40] + "…"


def _read_length(item: Input, text: str, shop: Shop) -> Length:
    length = Length.read(text, shop.unit, input=item.key)
    least = NOTHING if item.least is None else item.least
    if not length and least == NOTHING and item.least is None:
        mark = "1/64 in" if shop.unit is Unit.INCH else "0.1 mm"
        raise refuse(item.key, f"{item.label} must be more than nothing.", mark)
    _within(item, length, least, item.most or LONGEST, shop)
    return length


def _read_volume(item: Input, text: str, shop: Shop) -> Volume:
    volume = Volume.read(text, shop.unit, input=item.key)
    if not volume.nm3:
        raise refuse(item.key, f"{item.label} must be more than nothing.")
    _within(item, volume, item.least or volume, item.most or volume, shop)
    return volume


def _read_count(item: Input, text: str, shop: Shop) -> int:
    plain = text.strip()
    if not re.fullmatch(r"\+?[0-9]{1,9}", plain, re.ASCII):
        raise refuse(item.key, *_not_whole(item, plain))
    count = int(plain)
    _within(item, count, item.least or 0, item.most or 10_000, shop)
    return count


def _not_whole(item: Input, text: str) -> tuple[str, str]:
    """The sentence for what is no whole number, and the nearest that is."""
    least = item.least or 0
    if re.fullmatch(r"-[0-9.]{1,12}", text, re.ASCII):
        return f"{item.label} cannot be negative; {least} is the least.", str(least)
    if re.fullmatch(r"[0-9]{1,9}\.[0-9]{1,9}", text, re.ASCII):
        nearest = max(round(Fraction(text)), least)
        return f"{item.label} must be a whole number, not {text}.", str(nearest)
    shown = f"“{_short(text)}” is not a whole number"
    return f"{item.label}: {shown}. Type it in figures, like {max(least, 6)}.", ""


def _read_ratio(item: Input, text: str, shop: Shop) -> Fraction:
    plain, percent = re.sub(r"\s*%$", "", text.strip()), text.strip().endswith("%")
    pattern = r"[0-9]{1,6}(\.[0-9]{1,9})?|[0-9]{1,4}/[1-9][0-9]{0,3}"
    if not re.fullmatch(pattern, plain, re.ASCII):
        message = f"“{_short(text)}” is not a share. Type it like 0.5, 1/2 or 50 %."
        raise refuse(item.key, f"{item.label}: {message}")
    ratio = Fraction(plain) / (100 if percent else 1)
    _within(item, ratio, item.least or Fraction(0), item.most or Fraction(1), shop)
    return ratio


def _within(item: Input, value: Any, least: Any, most: Any, shop: Shop) -> None:
    """Refuse a value outside its bounds, with the nearer bound as what works."""
    if least <= value <= most:
        return
    bound, word = (least, "least") if value < least else (most, "most")
    near, was = (typed(number, shop.unit) for number in (bound, value))
    message = f"{item.label} {was} will not do; {near} is the {word}."
    raise refuse(item.key, message, near)


def _read_choice(item: Input, text: str, shop: Shop) -> str:
    plain = text.strip().lower()
    if plain not in item.choices:
        nearest = (get_close_matches(plain, item.choices, 1, 0.4) or [""])[0]
        choices = ", ".join(item.choices)
        message = f"{item.label} is one of {choices}; “{_short(text)}” is none of them."
        raise refuse(item.key, message, nearest)
    return plain


def _read_species(item: Input, text: str, shop: Shop) -> tuple[str, ...]:
    names = [" ".join(name.split()) for name in re.split(r"[,\n]", text)]
    names = [name for name in names if name]
    if not names:
        raise refuse(item.key, f"{item.label}: name at least one species.")
    if len(names) > 40 or any(len(name) > 60 for name in names):
        raise refuse(item.key, f"{item.label}: at most 40 names of 60 letters each.")
    return tuple(names)  # the maker's own words; the wood table knows its aliases


def _read_text(item: Input, text: str, shop: Shop) -> str:
    return text


_READERS = {
    Ask.LENGTH: _read_length,
    Ask.VOLUME: _read_volume,
    Ask.COUNT: _read_count,
    Ask.RATIO: _read_ratio,
    Ask.CHOICE: _read_choice,
    Ask.SPECIES: _read_species,
    Ask.TEXT: _read_text,
    Ask.FILE: _read_text,
}

__all__ = ["Ask", "FaultyInputs", "Input", "ask", "listed", "read", "refuse", "typed"]
