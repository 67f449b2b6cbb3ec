"""The command: see the package."""

from __future__ import annotations

import argparse
from datetime import date

from tests.benchmarks.cutting import (
    everyday,
    one_dimension,
    report,
    series,
    two_dimensions,
    workshop,
)
from tests.benchmarks.cutting.asked import Asked

SECTIONS = {
    "one_dimension": one_dimension,
    "two_dimensions": two_dimensions,
    "workshop": workshop,
    "everyday": everyday,
    "series": series,
}

ORDER = [title for one in SECTIONS.values() for title in one.TITLES]


def main() -> None:
    """Measure, print the sections, and put them into the report."""
    asked = argparse.ArgumentParser(
        prog="python -m tests.benchmarks.cutting",
        description="Hold the planner against published jobs and other ways.",
    )
    families = [name for one in SECTIONS.values() for name in one.FAMILIES]
    asked.add_argument("--only", choices=SECTIONS, action="append", default=[])
    asked.add_argument("--family", choices=families, action="append", default=[])
    asked.add_argument(
        "--every", type=int, default=8, help="every how manieth instance"
    )
    asked.add_argument("--seconds", type=float, help="instead of each section's own")
    asked.add_argument(
        "--rivals",
        type=int,
        default=1,
        help="every how manieth of them other ways are tried on; 0: never",
    )
    asked.add_argument("--print", action="store_true", help="leave the report as it is")
    options = asked.parse_args()
    chosen = Asked(
        tuple(options.family),
        options.every,
        options.seconds,
        options.rivals,
        date.today(),  # noqa: DTZ011  the day of the shop
    )
    made = []
    for name, one in SECTIONS.items():
        wanted = not options.only or name in options.only
        if wanted and any(chosen.wants(family) for family in one.FAMILIES):
            made += one.sections(chosen)
            print(*made, sep="\n", flush=True)
            if not options.print:
                report.write(made, ORDER)


if __name__ == "__main__":
    main()
