"""Reading a cutting job as people and programs write it, naming each fault."""

from __future__ import annotations

from collections.abc import Iterator

from app.core.cutting.job import (
    Blank,
    Job,
    Keep,
    Machine,
    OffcutValue,
    Saw,
    Stock,
)
from app.core.length import Display, Length, Unit
from app.core.shop import Shop
from app.services.job_marks import DEFECT_KEYS, defects, pins
from app.services.job_reader import (
    Document,
    a_length,
    a_period,
    a_size,
    an_id,
    an_object,
    cost,
    flag,
    needed,
    objects,
    one_of,
    quantity,
    refuse_twins,
    refused,
    text,
    unknown,
)

JOB_KEYS = {"unit", "saw", "keep", "stages", "first", "stock", "parts", "plane"}
JOB_KEYS |= {"periods", "pins", "machine", "offcut_value"}
SIZES = {"id", "length", "width", "thickness", "quantity", "species", "period", "name"}
KEYS = {
    "stock": SIZES | {"cost", "offcut", "defects", "trimmed"},
    "parts": SIZES | {"may_turn"},
    "pins": {"part", "stock", "quantity", "prefer"},
    "saw": {"kerf", "end_trim", "edge_trim"},
    "keep": {"length", "width"},
    "machine": {"longest_crosscut", "longest_rip", "shortest_piece"},
    "offcut_value": {"full_length", "full_width"},
}
LISTS = ("stock", "parts", "pins")


def read_job(document: Document) -> tuple[Job, list[str]]:
    """The job, and a sentence for each thing in it that is not used.

    Raises WorkshopError with the path of the input at fault.
    """
    job = _Reader(an_object(document, "the job")).job()
    return job, [*_warnings(document), *_unused(job)]


def _warnings(document: Document) -> list[str]:
    found = []
    if document.get("keep") is None:
        found.append("Nothing was said about what is worth keeping; 8 in by 1 in was.")
    if any(map(_trims_again, document["stock"])):
        found.append(
            "Offcuts are trimmed like boards: give them “trimmed”: true where their "
            "ends and edges are sawn already."
        )
    found += unknown(document, JOB_KEYS, "")
    for name, known in KEYS.items():
        given = document.get(name)
        if name not in LISTS:
            found += unknown(given, known, name)
            continue
        for at, one in enumerate(given or ()):
            found += unknown(one, known, f"{name}[{at}]")
            for n, spot in enumerate(one.get("defects") or ()):
                found += unknown(spot, DEFECT_KEYS, f"{name}[{at}].defects[{n}]")
    return found


def _unused(job: Job) -> Iterator[str]:
    machine = job.machine
    if job.one_dimensional and (machine.longest_crosscut or machine.longest_rip):
        yield (
            "A job without widths has no rips, and its crosscuts no length: the "
            "machine's longest cuts were not used. Check them at the saw."
        )


def _trims_again(one: Document) -> bool:
    return bool(one.get("offcut")) and "trimmed" not in one


class _Reader:
    """Reads one job's document, lengths in its unit."""

    def __init__(self, document: Document) -> None:
        self.document = document
        given = document.get("unit") or "in"
        if given not in list(Unit):
            raise refused("unit", f"“{given}” is no unit of a job; write in or mm.")
        self.unit = Unit(given)
        self.periods = self._periods()

    def job(self) -> Job:
        """All of it."""
        document = self.document
        stock, parts = self._stock(), self._parts()
        job = Job(
            saw=self._saw(),
            keep=self._keep(),
            stock=tuple(stock),
            blanks=tuple(one for one in parts if one.quantity),
            stages=one_of(document, "stages", (None, 2, 3), None),
            first=one_of(document, "first", ("crosscut", "rip", "either"), "either"),
            plane=self._length(document, "plane"),
            display=Display(self.unit, 64),
            periods=self.periods,
            pins=tuple(pins(document.get("pins"), stock, parts)),
            machine=self._machine(),
            offcut_value=self._offcut_value(),
        )
        _refuse_mixed_widths(job)
        return job

    def _length(self, facts: Document, name: str, path: str = "") -> Length:
        given = facts.get(name)
        where = f"{path}.{name}" if path else name
        return Length(0) if given is None else a_length(given, where, self.unit)

    def _sized(self, facts: Document, name: str, path: str) -> Length | None:
        given = facts.get(name)
        return None if given is None else a_size(given, f"{path}.{name}", self.unit)

    def _object(self, name: str) -> Document:
        given = self.document.get(name)
        return {} if given is None else an_object(given, name)

    def _periods(self) -> tuple[str, ...]:
        given = self.document.get("periods") or []
        if not isinstance(given, list):
            raise refused("periods", "periods must be a list of ids in order of time.")
        found = [an_id(one, f"periods[{at}]") for at, one in enumerate(given)]
        if "" in found:
            path = f"periods[{found.index('')}]"
            raise refused(path, f"{path} is empty; give each period an id.")
        refuse_twins(found, "periods", key="")
        return tuple(found)

    def _saw(self) -> Saw:
        facts = an_object(self.document.get("saw"), "saw")
        return Saw(
            a_length(needed(facts, "kerf", "saw"), "saw.kerf", self.unit),
            self._length(facts, "end_trim", "saw"),
            self._length(facts, "edge_trim", "saw"),
        )

    def _keep(self) -> Keep:
        if self.document.get("keep") is None:
            return Keep(Shop().keep_length, Shop().keep_width)
        facts = self._object("keep")
        return Keep(
            self._length(facts, "length", "keep"), self._length(facts, "width", "keep")
        )

    def _machine(self) -> Machine:
        facts = self._object("machine")
        return Machine(
            self._sized(facts, "longest_crosscut", "machine"),
            self._sized(facts, "longest_rip", "machine"),
            self._sized(facts, "shortest_piece", "machine"),
        )

    def _offcut_value(self) -> OffcutValue:
        facts, usual = self._object("offcut_value"), OffcutValue()
        return OffcutValue(
            self._sized(facts, "full_length", "offcut_value") or usual.full_length,
            self._sized(facts, "full_width", "offcut_value") or usual.full_width,
        )

    def _stock(self) -> list[Stock]:
        found = []
        for at, facts in enumerate(objects(self.document.get("stock"), "stock")):
            path = f"stock[{at}]"
            length, width, thickness = self._sizes(facts, path)
            found.append(
                Stock(
                    an_id(needed(facts, "id", path), f"{path}.id"),
                    length,
                    width,
                    thickness,
                    quantity=quantity(facts, path, endless=True),
                    cost=cost(facts, path),
                    species=text(facts, "species", path),
                    offcut=flag(facts, "offcut", path),
                    name=text(facts, "name", path),
                    trimmed=flag(facts, "trimmed", path),
                    defects=tuple(defects(facts, path, (length, width), self.unit)),
                    period=a_period(facts, self.periods, path),
                )
            )
        refuse_twins([one.id for one in found], "stock")
        return found

    def _parts(self) -> list[Blank]:
        found = []
        for at, facts in enumerate(objects(self.document.get("parts"), "parts")):
            path = f"parts[{at}]"
            found.append(
                Blank(
                    an_id(needed(facts, "id", path), f"{path}.id"),
                    *self._sizes(facts, path),
                    quantity=quantity(facts, path, endless=False) or 0,
                    species=text(facts, "species", path),
                    may_turn=flag(facts, "may_turn", path),
                    name=text(facts, "name", path),
                    period=a_period(facts, self.periods, path),
                )
            )
        refuse_twins([one.id for one in found], "parts")
        return found

    def _sizes(
        self, facts: Document, path: str
    ) -> tuple[Length, Length | None, Length | None]:
        length = a_size(needed(facts, "length", path), f"{path}.length", self.unit)
        sizes = (self._sized(facts, name, path) for name in ("width", "thickness"))
        return length, *sizes  # type: ignore[return-value]


def _refuse_mixed_widths(job: Job) -> None:
    if job.one_dimensional:
        return
    found = [(f"stock[{n}]", one.id, one.width) for n, one in enumerate(job.stock)]
    found += [(f"parts[{n}]", one.id, one.width) for n, one in enumerate(job.blanks)]
    for path, name, width in found:
        if width is None:
            raise refused(
                f"{path}.width",
                f"“{name}” has no width while others have. Give every piece a "
                "width, or none for a job of lengths only.",
            )
