"""Reading single values of a cutting job: lengths, counts, ids, each fault named.

Every refusal is a WorkshopError with the path of the input at fault.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Any

from app.core.errors import WorkshopError
from app.core.length import LONGEST_NM, NM_PER_INCH, NM_PER_MM, Length, Unit

Document = dict[str, Any]
ENDLESS = 10**15  # more than any count or price
MOST = 100_000  # blanks of one kind; more is a slip of the finger


def refused(path: str, message: str) -> WorkshopError:
    """The error for an input, by its path in the job."""
    return WorkshopError(message, input=path)


def objects(given: Any, name: str, *, needed: bool = True) -> list[Document]:
    """A list of objects; nothing at all is an empty one unless ``needed``."""
    if given is None and not needed:
        return []
    if not isinstance(given, list):
        raise refused(name, f"The job needs a list of {name}.")
    return [an_object(one, f"{name}[{at}]") for at, one in enumerate(given)]


def an_object(given: Any, path: str) -> Document:
    """An object with named values."""
    if not isinstance(given, dict):
        raise refused(path, f"The job needs {path} as an object with its values.")
    return given


def needed(facts: Document, name: str, path: str) -> Any:
    """A value that must be there."""
    if facts.get(name) is None:
        raise refused(f"{path}.{name}", f"{path} needs its {name}.")
    return facts[name]


def an_id(given: Any, path: str) -> str:
    """An id as its caller wrote it, as text."""
    if isinstance(given, bool) or not isinstance(given, str | int):
        raise refused(path, f"{path} must be text or a whole number.")
    return str(given)


def one_of(
    facts: Document, name: str, allowed: Sequence[Any], other: Any, path: str = ""
) -> Any:
    """One of a few values; ``other`` where nothing is given."""
    given = facts.get(name, other)
    if given not in allowed or isinstance(given, bool):
        words = ", ".join("null" if one is None else str(one) for one in allowed)
        where = f"{path}.{name}" if path else name
        raise refused(where, f"“{given}” is not possible for {where}; use {words}.")
    # A whole number may be written 2.0.
    return next(one for one in allowed if one == given)


def a_period(facts: Document, periods: Sequence[str], path: str) -> str:
    """One of the job's periods; empty where none is given."""
    given = facts.get("period")
    if given is None:
        return ""
    where = f"{path}.period"
    found = an_id(given, where)
    if not periods:
        message = f"{where} is given, but the job has no “periods”: list them in order."
        raise refused(where, message)
    return named(found, periods, where)


def named(found: str, ids: Sequence[str], path: str) -> str:
    """An id that must be among others."""
    if found not in ids:
        few = ", ".join(f"“{one}”" for one in ids[:6]) + ("…" if len(ids) > 6 else "")
        there = f"use one of {few}" if ids else "there is none"
        raise refused(path, f"{path} is “{found}”, which is not there; {there}.")
    return found


def refuse_twins(ids: Sequence[str], name: str, key: str = ".id") -> None:
    """Each id once."""
    for one, times in Counter(ids).items():
        if times > 1:
            raise refused(
                f"{name}[{ids.index(one)}]{key}",
                f"Two {name} have the id “{one}”; give each its own.",
            )


def text(facts: Document, name: str, path: str) -> str:
    """Words; nothing where none are given."""
    given = facts.get(name) or ""
    if not isinstance(given, str):
        raise refused(f"{path}.{name}", f"{path}.{name} must be text.")
    return given.strip()


def flag(facts: Document, name: str, path: str) -> bool:
    """Yes or no; no where nothing is given."""
    given = facts.get(name)
    if given is not None and not isinstance(given, bool):
        raise refused(f"{path}.{name}", f"{path}.{name} is either true or false.")
    return bool(given)


def whole(given: Any) -> int | None:
    """A whole number, or None where it is none."""
    if isinstance(given, bool) or not isinstance(given, int | Decimal | float):
        return None
    # Compared before it is divided: 1e99999 is short to write.
    return int(given) if -ENDLESS < given < ENDLESS and given == given // 1 else None


def quantity(facts: Document, path: str, *, endless: bool) -> int | None:
    """How many; None for as many as wanted, where that is possible."""
    given = facts.get("quantity", 1)
    if given is None and endless:
        return None
    found = whole(given)
    if found is None or not 0 <= found <= MOST:
        what = f"a whole number up to {MOST}" + (", or null" if endless else "")
        raise refused(f"{path}.quantity", f"{path}.quantity must be {what}.")
    return found


def cost(facts: Document, path: str) -> int | None:
    """A price in minor units; None for what is on the rack."""
    given = facts.get("cost")
    if given is None:
        return None
    found = whole(given)
    if found is None or found < 0:
        raise refused(
            f"{path}.cost", f"{path}.cost must be whole minor units, such as cents."
        )
    return found


def unknown(given: object, known: set[str], path: str) -> Iterator[str]:
    """A sentence for each key that no one reads."""
    for key in sorted(map(str, set(given) - known)) if isinstance(given, dict) else ():
        if path:
            yield f"“{path}.{key}” is not known and was not used."
        else:
            yield f"“{key}” is no key of a job and was not used."


def a_length(given: Any, path: str, unit: Unit) -> Length:
    """A number in the job's unit, or text as a maker types it."""
    if isinstance(given, str):
        return Length.read(given, unit, input=path)
    if isinstance(given, float):
        given = Decimal(repr(given))
    if isinstance(given, bool) or not isinstance(given, int | Decimal):
        raise refused(path, f"{path} is not a length: write a number or text.")
    if isinstance(given, Decimal) and not given.is_finite():
        raise refused(path, f"{path} is not a number.")
    if given < 0:
        raise refused(path, f"{path} is {given}; a size cannot be negative.")
    # Compared before it is multiplied out: 1e999999 is short to write.
    if given > LONGEST_NM:
        raise refused(path, f"{path} is longer than 100 m.")
    per = NM_PER_INCH if unit is Unit.INCH else NM_PER_MM
    found = Length.nearest(Fraction(given) * per)
    if found.nm > LONGEST_NM:
        raise refused(path, f"{path} is longer than 100 m.")
    return found


def a_size(given: Any, path: str, unit: Unit) -> Length:
    """A length that is not nothing."""
    found = a_length(given, path, unit)
    if not found:
        raise refused(path, f"{path} is nothing; it needs a size.")
    return found
