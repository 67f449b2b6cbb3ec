"""Thousands of random jobs through the checker: ``python -m tests.long_cutting``."""

from __future__ import annotations

import argparse

from app.core.cutting.solve import solve
from app.core.cutting.totals import totals
from tests.core.cutting.checker import check
from tests.core.cutting.jobs import random_job


def main() -> None:
    """Plan and check ``--jobs`` random jobs from ``--from`` on."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--jobs", type=int, default=10_000)
    asked.add_argument("--from", type=int, default=1_000, dest="start")
    options = asked.parse_args()
    for seed in range(options.start, options.start + options.jobs):
        try:
            plan = solve(random_job(seed), work=100_000)
            check(plan)
            sums = totals(plan)
            assert sums.stock == sums.parts + sums.kerf + sums.offcuts + sums.scrap
        except AssertionError as fault:
            raise SystemExit(f"job {seed}: {fault}") from fault
    print(f"{options.jobs} jobs planned and sawn over again without a fault")


if __name__ == "__main__":
    main()
