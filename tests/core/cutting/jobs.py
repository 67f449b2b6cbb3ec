"""Random jobs: boards, blanks, kerfs and trims such as a shop has, and worse."""

from __future__ import annotations

from random import Random

from app.core.cutting.job import Blank, Job, Keep, Saw, Stock
from app.core.length import Length, inches

NONE = Length(0)
SPECIES = ("walnut", "cherry", "")


def random_job(seed: int) -> Job:
    """One job, the same for the same seed."""
    dice = Random(seed)
    flat = dice.random() < 0.25
    return Job(
        saw=_saw(dice, flat),
        keep=Keep(dice.choice([NONE, inches("8")]), dice.choice([NONE, inches("1")])),
        stock=tuple(_stock(dice, flat, n) for n in range(dice.randint(1, 6))),
        blanks=tuple(_blank(dice, flat, n) for n in range(dice.randint(1, 9))),
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
