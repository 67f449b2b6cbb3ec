"""Jobs of lengths against published ones: ``python -m tests.benchmarks.lengths``.

Plans every ``--every``-th instance of each family in ``--seconds`` and sets what
the planner needs beside the best value known and beside what first-fit and
best-fit decreasing need, in the same run. Seconds are those of the processor, so
that what else the machine does counts as little as it can.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable
from dataclasses import dataclass, field
from time import process_time
from typing import Any

from app.core.cutting.solve import solve
from app.core.cutting.totals import levels
from tests.conftest import shared
from tests.core.cutting.checker import check
from tests.core.cutting.published import known, read

FAMILIES = (
    "falkenauer_u",
    "falkenauer_t",
    "scholl1",
    "scholl2",
    "scholl3",
    "schwerin",
    "waescher_gau",
    "hard28",
    "generated_1d_multi_length",
)
# Work without end: here the clock decides.
ENDLESS = 10**15
HEAD = (
    "| family | instances | at the best known | proven | worst above | mean gap "
    "| mean s | max s | first fit at it | best fit at it |\n"
    "| --- |" + " ---: |" * 9
)


@dataclass
class Row:
    """One family's results."""

    name: str
    best: int = 0
    proven: int = 0
    above: list[float] = field(default_factory=list)
    gaps: list[float] = field(default_factory=list)
    taken: list[float] = field(default_factory=list)
    fits: list[list[bool]] = field(default_factory=list)

    def line(self) -> str:
        """The row of the table; money is compared in percent, pieces by number."""
        worst = max(self.above)
        far = f"{worst:.2%}" if self.name.startswith("gen") else f"{worst:.0f}"
        first, best = (sum(one) for one in zip(*self.fits, strict=True))
        count = len(self.taken)
        cells = (
            self.name,
            count,
            self.best,
            self.proven,
            far,
            f"{sum(self.gaps) / count:.2%}",
            f"{sum(self.taken) / count:.2f}",
            f"{max(self.taken):.2f}",
            first,
            best,
        )
        return "| " + " | ".join(map(str, cells)) + " |"


def decreasing(instance: dict[str, Any], best_fit: bool) -> int:
    """What first fit or best fit decreasing pays; a new stick is the cheapest a length.

    Sticks without a price are used up first, the shortest that holds the piece.
    """
    kerf = instance["kerf"]
    stock = [
        [one["length"] + kerf, one["quantity"], one["cost"]]
        for one in instance["stock"]
    ]
    opened: list[int] = []
    paid = 0
    for size in sorted(_sizes(instance), reverse=True):
        fitting = [n for n, room in enumerate(opened) if room >= size]
        if fitting:
            fullest = min(fitting, key=opened.__getitem__)
            opened[fullest if best_fit else fitting[0]] -= size
            continue
        usable = [one for one in stock if one[0] >= size and one[1] != 0]
        new = min(usable, key=lambda one: (one[2] / one[0], one[0]))
        if new[1] is not None:
            new[1] -= 1
        paid += new[2]
        opened.append(new[0] - size)
    return paid


def _sizes(instance: dict[str, Any]) -> list[int]:
    return [
        one["length"] + instance["kerf"]
        for one in instance["items"]
        for _ in range(one["quantity"])
    ]


def clock(seconds: float) -> Callable[[], float]:
    """How many seconds are left from now on."""
    end = process_time() + seconds
    return lambda: end - process_time()


def measured(
    family: str, every: int, seconds: float, tell: Callable[[str], None]
) -> Row:
    """One family's row; what is not proven is told at once."""
    path = shared("benchmarks/cutting") / f"{family}.json"
    row = Row(family)
    for instance in json.loads(path.read_text(encoding="utf-8"))[::every]:
        began = process_time()
        plan = solve(read(instance), work=ENDLESS, left=clock(seconds))
        row.taken.append(process_time() - began)
        check(plan)
        assert not plan.unplaced
        low, best = known(instance)
        cost = levels(plan)[0]
        assert cost.bound <= best, f"{instance['name']}: the bound is too high"
        above = cost.value - best
        row.best += above <= 0
        row.proven += cost.proven
        row.above.append(above / best if family.startswith("gen") else above)
        row.gaps.append((cost.value - cost.bound) / cost.value)
        row.fits.append([decreasing(instance, fit) <= best for fit in (False, True)])
        if above > 0 or not cost.proven:
            reach = f"{cost.bound} to {cost.value}, known {low:.0f} to {best:.0f}"
            tell(f"{instance['name']}: {reach}, {row.taken[-1]:.2f} s")
    return row


def main() -> None:
    """Print the table."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--family", choices=FAMILIES, action="append")
    asked.add_argument("--every", type=int, default=8)
    asked.add_argument("--seconds", type=float, default=5.0)
    asked.add_argument("--tell", action="store_true", help="name what is not proven")
    options = asked.parse_args()
    tell: Callable[[str], None] = print if options.tell else lambda text: None
    rows = [
        measured(family, options.every, options.seconds, tell)
        for family in options.family or FAMILIES
    ]
    print(HEAD, *(row.line() for row in rows), sep="\n")


if __name__ == "__main__":
    main()
