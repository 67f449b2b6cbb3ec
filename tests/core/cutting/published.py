"""Published instances as jobs, and the best values known for them.

The instances lie in ``benchmarks/cutting`` of the shared folder; the README there
names the source of each family and says what the known values mean.
"""

from __future__ import annotations

import json
from typing import Any

from app.core.cutting.job import Blank, Job, Keep, Saw, Stock
from app.core.length import Length
from tests.conftest import shared

NM = 1000  # a unit of an instance; any whole number would do

Instance = dict[str, Any]


def instances(family: str) -> list[Instance]:
    """All instances of a family."""
    path = shared("benchmarks/cutting") / f"{family}.json"
    found: list[Instance] = json.loads(path.read_text(encoding="utf-8"))
    return found


def read(instance: Instance) -> Job:
    """An instance as a job; the episodes of a series are its periods."""
    flat = instance["kind"] == "1d"
    keep = instance.get("keep_min", {"length": 0, "width": 0})
    stock = tuple(
        Stock(
            f"stock-{n}",
            Length(one["length"] * NM),
            _wide(one, flat),
            quantity=one["quantity"],
            cost=one["cost"],
        )
        for n, one in enumerate(instance["stock"])
    )
    episodes = instance.get("episodes", ())
    return Job(
        Saw(Length(instance["kerf"] * NM)),
        Keep(Length(keep["length"] * NM), Length(keep["width"] * NM)),
        stock,
        tuple(_blanks(instance, flat)),
        periods=tuple(f"episode-{n}" for n in range(len(episodes))),
    )


def _blanks(instance: Instance, flat: bool) -> list[Blank]:
    if "episodes" not in instance:
        return [_blank(f"item-{n}", one, flat) for n, one in _each(instance["items"])]
    return [
        _blank(f"item-{episode}-{n}", one, flat, f"episode-{episode}")
        for episode, items in _each(instance["episodes"])
        for n, one in _each(items)
    ]


def _each(found: list[Any]) -> list[tuple[int, Any]]:
    return list(enumerate(found))


def _blank(name: str, one: Instance, flat: bool, period: str = "") -> Blank:
    size = Length(one["length"] * NM), _wide(one, flat)
    return Blank(name, *size, None, one["quantity"], period=period)


def _wide(facts: Instance, flat: bool) -> Length | None:
    return None if flat else Length(facts["width"] * NM)


def known(instance: Instance) -> tuple[float, float]:
    """A bound that no guillotine plan beats, and the best value known."""
    bounds, best = [0.0], []
    for record in instance["known"]:
        if "rotation" in record["variant"] or "-stage" in record["variant"]:
            continue
        if "value" in record["objective"] or "fits" in record["objective"]:
            continue
        bounds.append(record.get("optimum", record.get("lower_bound", 0)))
        found = record.get("optimum", record.get("best_known"))
        if found is not None:
            best.append(found)
    return max(bounds), min(best)


def optimum(instance: Instance) -> int | None:
    """The optimum for blanks that keep their direction, where it is known."""
    low, best = known(instance)
    return int(best) if low == best else None
