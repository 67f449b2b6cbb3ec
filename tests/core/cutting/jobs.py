"""Random jobs: boards, blanks, kerfs and trims such as a shop has, and worse."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from random import Random

from app.core.cutting.job import (
    Area,
    Blank,
    Job,
    Keep,
    Machine,
    OffcutValue,
    Pin,
    Saw,
    Stock,
)
from app.core.length import Length, inches

NONE = Length(0)
SPECIES = ("walnut", "cherry", "")
MARKS = ("defects", "pins", "machine", "periods", "offcut value")


def random_job(seed: int) -> Job:
    """One job of stock and blanks alone, the same for the same seed."""
    dice = Random(seed)
    return _job(dice, flat=dice.random() < 0.25)


def marked_job(seed: int) -> Job:
    """One job with some of all that can be said beside stock and blanks."""
    dice = Random(f"marked {seed}")
    return _marked(dice, _job(dice, flat=dice.random() < 0.2))


def random_bars(seed: int) -> Job:
    """The same without widths."""
    dice = Random(f"bars {seed}")
    return _marked(dice, _job(dice, flat=True))


def marks_of(job: Job) -> list[str]:
    """Which of the marks a job has."""
    there = (
        any(one.defects for one in job.stock),
        bool(job.pins),
        job.machine != Machine(),
        len(job.periods) > 1,
        job.offcut_value != OffcutValue(),
    )
    return [name for name, has in zip(MARKS, there, strict=True) if has]


def _job(dice: Random, flat: bool) -> Job:
    stock = [_stock(dice, flat, n) for n in range(dice.randint(1, 6))]
    blanks = [_blank(dice, flat, n) for n in range(dice.randint(1, 9))]
    if dice.random() < 0.5:
        # One wood, and a dealer who sells it: so that most finds a place.
        stock = [replace(one, species="", thickness=None) for one in stock]
        stock += [_catalogue(dice, flat, n) for n in range(dice.randint(1, 3))]
        if dice.random() < 0.1:
            blanks = [replace(one, quantity=one.quantity * 3) for one in blanks]
    return Job(
        saw=_saw(dice, flat),
        keep=Keep(dice.choice([NONE, inches("8")]), dice.choice([NONE, inches("1")])),
        stock=tuple(stock),
        blanks=tuple(blanks),
        stages=dice.choice([2, 3, None]),
        first=dice.choice(["crosscut", "rip", "either"]),
        plane=dice.choice([NONE, inches("3/8")]),
    )


def _length(dice: Random, low: int, high: int) -> Length:
    # Mostly on a ruler's lines, so that pieces end at edges; now and then not.
    step = 25_400_000 // 4 if dice.random() < 0.8 else 12_347
    return Length(
        dice.randint(low * 25_400_000 // step, high * 25_400_000 // step) * step
    )


def _saw(dice: Random, flat: bool) -> Saw:
    kerf = dice.choice([NONE, inches("1/8"), inches("3/32"), Length(1)])
    end = dice.choice([NONE, inches("1/2"), inches("1/16")])
    edge = dice.choice([NONE, inches("1/8"), inches("1/4")])
    return Saw(kerf, end, NONE if flat else edge)


def _stock(dice: Random, flat: bool, number: int) -> Stock:
    offcut = dice.random() < 0.3
    return Stock(
        f"stock-{number}",
        _length(dice, 2, 30 if offcut else 96),
        None if flat else _length(dice, 1, 10),
        dice.choice([None, inches("3/4"), inches("1")]),
        quantity=dice.choice([1, 1, 2, 5, None]),
        cost=None if offcut else dice.choice([None, 0, 1200, 4800]),
        species=dice.choice(SPECIES),
        offcut=offcut,
        trimmed=offcut and number % 2 == 0,
    )


def _catalogue(dice: Random, flat: bool, number: int) -> Stock:
    """Fits anything, as many as wanted, at a price by its size."""
    feet, wide = dice.choice([4, 6, 8]), dice.choice([4, 6, 8, 12])
    return Stock(
        f"catalogue-{number}",
        inches(str(12 * feet)),
        None if flat else inches(str(wide)),
        quantity=None,
        cost=feet * (1 if flat else wide) * dice.randint(80, 120),
    )


def _blank(dice: Random, flat: bool, number: int) -> Blank:
    return Blank(
        f"blank-{number}",
        _length(dice, 1, 40),
        None if flat else _length(dice, 1, 6),
        dice.choice([None, inches("3/4"), inches("1")]),
        quantity=dice.choice([1, 1, 2, 4, 12]),
        species=dice.choice(SPECIES),
        may_turn=dice.random() < 0.3,
    )


def _marked(dice: Random, job: Job) -> Job:
    names = [name for name in MARKS if dice.random() < 0.5] or [dice.choice(MARKS)]
    if "periods" in names:
        job = in_periods(dice, job)
    if "defects" in names:
        stock = tuple(replace(one, defects=_defects(dice, one)) for one in job.stock)
        job = replace(job, stock=stock)
    if "pins" in names:
        job = replace(job, pins=_pins(dice, job))
    if "machine" in names:
        job = replace(job, machine=_machine(dice))
    if "offcut value" in names:
        value = OffcutValue(_length(dice, 1, 90), _length(dice, 1, 12))
        job = replace(job, offcut_value=value)
    return job


def in_periods(dice: Random, job: Job) -> Job:
    """The job in two to four periods, its blanks and some stock spread over them."""
    periods = tuple(f"part-{n}" for n in range(1, dice.randint(2, 4) + 1))

    def some(often: float) -> str:
        return dice.choice(periods) if dice.random() < often else ""

    return replace(
        job,
        periods=periods,
        stock=tuple(replace(one, period=some(0.3)) for one in job.stock),
        blanks=tuple(replace(one, period=some(0.9)) for one in job.blanks),
    )


def _defects(dice: Random, stock: Stock) -> tuple[Area, ...]:
    """None, a few knots and splits, or many; some over an edge's whole length."""
    found = []
    for _ in range(dice.choice([0, 1, 1, 2, 3, 6])):
        x, length = _span(dice, stock.length, 4)
        y, width = (NONE, NONE) if stock.width is None else _span(dice, stock.width, 2)
        if stock.width and dice.random() < 0.15:
            x, length = NONE, stock.length
        found.append(Area(x, y, length, width))
    return tuple(found)


def _span(dice: Random, most: Length, high: int) -> tuple[Length, Length]:
    start = min(_length(dice, 0, 90), Length(most.nm - 1))
    if start.nm and dice.random() < 0.6:
        start = Length(dice.randrange(most.nm))
    size = min(Length(dice.choice([1, 25_400_000 // 8, high * 25_400_000])), most)
    return start, min(size, most - start)


def _pins(dice: Random, job: Job) -> tuple[Pin, ...]:
    """Pins that a maker might set: mostly where the blank can lie at all."""
    found = []
    for blank in job.blanks:
        if dice.random() < 0.4:
            stock = dice.choice(_same_wood(job, blank) or job.stock)
            many = dice.choice([None, dice.randint(1, blank.quantity)])
            found.append(Pin(blank.id, stock.id, many, firm=dice.random() < 0.5))
    return tuple(found)


def _same_wood(job: Job, blank: Blank) -> Sequence[Stock]:
    return [one for one in job.stock if one.species in {"", blank.species}]


def _machine(dice: Random) -> Machine:
    def perhaps(low: int, high: int) -> Length | None:
        return _length(dice, low, high) if dice.random() < 0.6 else None

    return Machine(perhaps(4, 12), perhaps(20, 96), perhaps(2, 14))
