"""Reading a cutting job as people and programs write it, naming each fault."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from fractions import Fraction
from typing import Any

from app.core.cutting.job import Blank, Job, Keep, Saw, Stock
from app.core.errors import WorkshopError
from app.core.length import LONGEST_NM, NM_PER_INCH, NM_PER_MM, Display, Length, Unit
from app.core.shop import Shop

Document = dict[str, Any]
JOB_KEYS = {"unit", "saw", "keep", "stages", "first", "stock", "parts", "plane"}
LATER_KEYS = {"periods", "pins", "machine", "offcut_value"}
STOCK_KEYS = {"id", "length", "width", "thickness", "quantity", "cost", "species"}
STOCK_KEYS |= {"offcut", "period", "defects", "name", "trimmed"}
PART_KEYS = {"id", "length", "width", "thickness", "quantity", "species", "may_turn"}
PART_KEYS |= {"period", "name"}
ENDLESS = 10**15  # more than any count or price
MOST = 100_000  # blanks of one kind; more is a slip of the finger


def read_job(document: Document) -> tuple[Job, list[str]]:
    """The job, and a sentence for each thing in it that this version leaves out.

    Raises WorkshopError with the path of the input at fault: what would give a
    plan that cannot be sawn (defects, pins, periods) is refused.
    """
    if not isinstance(document, dict):
        raise WorkshopError("The job must be an object with stock and parts.")
    _refuse_what_is_not_planned_for(document)
    unit = _unit(document)
    reader = _Reader(unit)
    warnings = _warnings(document)
    job = Job(
        saw=reader.saw(document.get("saw")),
        keep=reader.keep(document.get("keep")),
        stock=tuple(reader.stock(_list(document, "stock"))),
        blanks=tuple(reader.parts(_list(document, "parts"))),
        stages=_one_of(document, "stages", (None, 2, 3), None),
        first=_one_of(document, "first", ("crosscut", "rip", "either"), "either"),
        plane=reader.length(document.get("plane", 0), "plane"),
        display=Display(unit, 64),
    )
    _refuse_mixed_widths(job)
    return job, warnings


def _refuse_what_is_not_planned_for(document: Document) -> None:
    if document.get("pins"):
        raise _refused(
            "pins", "This version cannot pin parts to stock. Leave pins out."
        )
    if document.get("periods"):
        raise _refused(
            "periods",
            "This version plans one period at a time. Give one job for each period.",
        )
    for name in ("stock", "parts"):
        for at, one in enumerate(_list(document, name)):
            if isinstance(one, dict) and one.get("period") is not None:
                raise _refused(
                    f"{name}[{at}].period",
                    "This version plans one period at a time. Leave period out.",
                )
            if isinstance(one, dict) and one.get("defects"):
                raise _refused(
                    f"{name}[{at}].defects",
                    "This version cannot plan around defects. Give the sound parts of "
                    "the board as stock of their own.",
                )


def _warnings(document: Document) -> list[str]:
    found = []
    if document.get("machine") is not None:
        found.append(
            "The machine limits were not used: check every cut against what your "
            "saw can do before you make it."
        )
    if document.get("offcut_value") is not None:
        found.append(
            "The value of offcuts was not used: leftovers count by area alone."
        )
    if document.get("keep") is None:
        found.append("Nothing was said about what is worth keeping; 8 in by 1 in was.")
    if any(map(_trims_again, document["stock"])):
        found.append(
            "Offcuts are trimmed like boards: give them “trimmed”: true where their "
            "ends and edges are sawn already."
        )
    unknown = sorted(map(str, set(document) - JOB_KEYS - LATER_KEYS))
    found += [f"“{key}” is no key of a job and was not used." for key in unknown]
    for name, known in (("stock", STOCK_KEYS), ("parts", PART_KEYS)):
        for at, one in enumerate(document[name]):
            for key in sorted(map(str, set(one) - known)) if _is_dict(one) else ():
                found.append(f"“{name}[{at}].{key}” is not known and was not used.")
    return found


def _trims_again(one: object) -> bool:
    return isinstance(one, dict) and bool(one.get("offcut")) and "trimmed" not in one


def _is_dict(one: object) -> bool:
    return isinstance(one, dict)


def _refused(path: str, message: str) -> WorkshopError:
    return WorkshopError(message, input=path)


def _unit(document: Document) -> Unit:
    given = document.get("unit", "in")
    if given not in ("in", "mm"):
        raise _refused("unit", f"“{given}” is no unit of a job; write in or mm.")
    return Unit(given)


def _list(document: Document, name: str) -> list[Any]:
    found = document.get(name)
    if not isinstance(found, list):
        raise _refused(name, f"The job needs a list of {name}.")
    return found


def _one_of(document: Document, name: str, allowed: tuple[Any, ...], other: Any) -> Any:
    given = document.get(name, other)
    if given not in allowed or isinstance(given, bool):
        words = ", ".join("null" if one is None else str(one) for one in allowed)
        raise _refused(name, f"“{given}” is not possible for {name}; use {words}.")
    # A whole number may be written 2.0.
    return next(one for one in allowed if one == given)


def _refuse_mixed_widths(job: Job) -> None:
    if job.one_dimensional:
        return
    found = [(f"stock[{n}]", one.id, one.width) for n, one in enumerate(job.stock)]
    found += [(f"parts[{n}]", one.id, one.width) for n, one in enumerate(job.blanks)]
    for path, name, width in found:
        if width is None:
            raise _refused(
                f"{path}.width",
                f"“{name}” has no width while others have. Give every piece a "
                "width, or none for a job of lengths only.",
            )


class _Reader:
    """Reads lengths in the job's unit."""

    def __init__(self, unit: Unit) -> None:
        self.unit = unit

    def saw(self, given: Any) -> Saw:
        found = _object(given, "saw")
        return Saw(
            self.length(_needed(found, "kerf", "saw"), "saw.kerf"),
            self.length(found.get("end_trim", 0), "saw.end_trim"),
            self.length(found.get("edge_trim", 0), "saw.edge_trim"),
        )

    def keep(self, given: Any) -> Keep:
        if given is None:
            return Keep(Shop().keep_length, Shop().keep_width)
        found = _object(given, "keep")
        return Keep(
            self.length(found.get("length", 0), "keep.length"),
            self.length(found.get("width") or 0, "keep.width"),
        )

    def stock(self, given: list[Any]) -> list[Stock]:
        found = []
        for at, one in enumerate(given):
            path = f"stock[{at}]"
            facts = _object(one, path)
            found.append(
                Stock(
                    _id(facts, path),
                    *self._sizes(facts, path),
                    quantity=_quantity(facts, path, endless=True),
                    cost=_cost(facts, path),
                    species=_text(facts, "species", path),
                    offcut=_flag(facts, "offcut", path),
                    name=_text(facts, "name", path),
                    trimmed=_flag(facts, "trimmed", path),
                )
            )
        _refuse_twins([one.id for one in found], "stock")
        return found

    def parts(self, given: list[Any]) -> list[Blank]:
        found = []
        for at, one in enumerate(given):
            path = f"parts[{at}]"
            facts = _object(one, path)
            found.append(
                Blank(
                    _id(facts, path),
                    *self._sizes(facts, path),
                    quantity=_quantity(facts, path, endless=False) or 0,
                    species=_text(facts, "species", path),
                    may_turn=_flag(facts, "may_turn", path),
                    name=_text(facts, "name", path),
                )
            )
        _refuse_twins([one.id for one in found], "parts")
        return [one for one in found if one.quantity]

    def _sizes(
        self, facts: Document, path: str
    ) -> tuple[Length, Length | None, Length | None]:
        length = self._positive(_needed(facts, "length", path), f"{path}.length")
        width = facts.get("width")
        thickness = facts.get("thickness")
        return (
            length,
            None if width is None else self._positive(width, f"{path}.width"),
            None
            if thickness is None
            else self._positive(thickness, f"{path}.thickness"),
        )

    def _positive(self, given: Any, path: str) -> Length:
        found = self.length(given, path)
        if not found:
            raise _refused(path, f"{path} is nothing; a piece needs a size.")
        return found

    def length(self, given: Any, path: str) -> Length:
        """A number in the job's unit, or text as a maker types it."""
        if isinstance(given, str):
            return Length.read(given, self.unit, input=path)
        if isinstance(given, float):
            given = Decimal(repr(given))
        if isinstance(given, bool) or not isinstance(given, int | Decimal):
            raise _refused(path, f"{path} is not a length: write a number or text.")
        if isinstance(given, Decimal) and not given.is_finite():
            raise _refused(path, f"{path} is not a number.")
        if given < 0:
            raise _refused(path, f"{path} is {given}; a size cannot be negative.")
        per = NM_PER_INCH if self.unit is Unit.INCH else NM_PER_MM
        # Compared before it is multiplied out: 1e999999 is short to write.
        if given > LONGEST_NM:
            raise _refused(path, f"{path} is longer than 100 m.")
        found = Length.nearest(Fraction(given) * per)
        if found.nm > LONGEST_NM:
            raise _refused(path, f"{path} is longer than 100 m.")
        return found


def _object(given: Any, path: str) -> Document:
    if not isinstance(given, dict):
        raise _refused(path, f"The job needs {path} as an object with its sizes.")
    return given


def _needed(facts: Document, name: str, path: str) -> Any:
    if facts.get(name) is None:
        raise _refused(f"{path}.{name}", f"{path} needs its {name}.")
    return facts[name]


def _id(facts: Document, path: str) -> str:
    given = _needed(facts, "id", path)
    if isinstance(given, bool) or not isinstance(given, str | int):
        raise _refused(f"{path}.id", f"{path}.id must be text or a whole number.")
    return str(given)


def _refuse_twins(ids: list[str], name: str) -> None:
    for one, times in Counter(ids).items():
        if times > 1:
            raise _refused(
                f"{name}[{ids.index(one)}].id",
                f"Two {name} have the id “{one}”; give each its own.",
            )


def _text(facts: Document, name: str, path: str) -> str:
    given = facts.get(name) or ""
    if not isinstance(given, str):
        raise _refused(f"{path}.{name}", f"{path}.{name} must be text.")
    return given.strip()


def _flag(facts: Document, name: str, path: str) -> bool:
    given = facts.get(name)
    if given is not None and not isinstance(given, bool):
        raise _refused(f"{path}.{name}", f"{path}.{name} is either true or false.")
    return bool(given)


def _whole(given: Any) -> int | None:
    if isinstance(given, bool) or not isinstance(given, int | Decimal | float):
        return None
    # Compared before it is divided: 1e99999 is short to write.
    return int(given) if -ENDLESS < given < ENDLESS and given == given // 1 else None


def _quantity(facts: Document, path: str, *, endless: bool) -> int | None:
    given = facts.get("quantity", 1)
    if given is None and endless:
        return None
    found = _whole(given)
    if found is None or not 0 <= found <= MOST:
        what = f"a whole number up to {MOST}" + (", or null" if endless else "")
        raise _refused(f"{path}.quantity", f"{path}.quantity must be {what}.")
    return found


def _cost(facts: Document, path: str) -> int | None:
    given = facts.get("cost")
    if given is None:
        return None
    found = _whole(given)
    if found is None or found < 0:
        raise _refused(
            f"{path}.cost", f"{path}.cost must be whole minor units, such as cents."
        )
    return found
