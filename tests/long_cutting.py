"""Thousands of random jobs through the checker: ``python -m tests.long_cutting``.

``--jobs 300`` is the short cut of it; ``--report FILE`` writes what came out, anew
after every hundred jobs. Every second job has pins, defects, periods, a machine's
limits or its own worth of offcuts.
"""

from __future__ import annotations

import argparse
from collections import Counter
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from statistics import median
from time import perf_counter

from app.core.cutting.job import Job
from app.core.cutting.plan import Plan
from app.core.cutting.proof import gap
from app.services.cut_jobs import planner_for
from tests.core.cutting.checker import check
from tests.core.cutting.jobs import marked_job, marks_of, random_job

TITLE = "# Random jobs through the checker"
WORK = 100_000
TWICE = 50  # every so many jobs are planned twice: the plans must be equal
TELL = 100  # after so many jobs a line says how far it is


@dataclass
class Tally:
    """What came out of all jobs."""

    kinds: Counter[str] = field(default_factory=Counter)
    counts: Counter[str] = field(default_factory=Counter)
    gaps: dict[int, Fraction] = field(default_factory=dict)
    seconds: dict[int, float] = field(default_factory=dict)
    faults: list[str] = field(default_factory=list)

    def take(self, seed: int, plan: Plan, seconds: float) -> None:
        """Count one plan that was sawn over again without a fault."""
        self.kinds.update(kinds_of(plan.job))
        self.seconds[seed] = seconds
        left_out = sum(one.quantity for one in plan.unplaced)
        self.counts["pieces wanted"] += sum(one.quantity for one in plan.job.blanks)
        self.counts["pieces without a place"] += left_out
        self.counts["plans with pieces without a place"] += bool(left_out)
        for layout in plan.layouts:
            self.counts["pieces of stock cut up"] += layout.copies
            self.counts["cuts"] += layout.copies * len(layout.cuts)
            self.counts["leftovers that a later period used"] += layout.copies * sum(
                bool(one.used_in) for one in layout.leftovers
            )
        far = gap(plan)
        if far is not None:
            self.gaps[seed] = far

    def report(self, jobs: int, start: int, work: int) -> str:
        """All of it as a page of plain text tables."""
        total = sum(self.seconds.values())
        slowest = max(self.seconds, key=lambda n: self.seconds[n], default=start)
        worst = max(self.gaps, key=lambda n: self.gaps[n], default=start)
        shares = sorted(self.gaps.values())
        proven = sum(not one for one in shares)
        facts = [
            ("jobs planned and sawn over again", f"{jobs}, from {start} on"),
            ("faults", str(len(self.faults))),
            *((name, str(count)) for name, count in self.counts.items()),
            ("plans with a gap to tell", str(len(shares))),
            ("of these proven", f"{proven} ({_percent(proven, len(shares))})"),
            ("median gap", _gap(median(shares)) if shares else "none"),
            ("worst gap", f"{_gap(max(shares, default=Fraction(0)))} (job {worst})"),
            ("seconds, planning and checking", f"{total:.0f}"),
            (
                "slowest job",
                f"{self.seconds.get(slowest, 0):.2f} s (job {slowest})",
            ),
        ]
        kinds = [(name, str(n)) for name, n in sorted(self.kinds.items())]
        how = (
            f"`python -m tests.long_cutting --jobs {jobs} --from {start} "
            f"--work {work}`. A gap is a share of the value of the parts."
        )
        parts = [TITLE, how, _table("what", facts), _table("jobs with", kinds)]
        if self.faults:
            parts.append("\n".join(f"- {one}" for one in self.faults))
        return "\n\n".join(parts) + "\n"


def _table(title: str, rows: list[tuple[str, str]]) -> str:
    lines = [f"| {title} | |", "|---|---|"]
    return "\n".join([*lines, *(f"| {name} | {value} |" for name, value in rows)])


def _percent(part: int, of: int) -> str:
    return f"{100 * part / of:.0f} %" if of else "none"


def _gap(share: Fraction) -> str:
    return f"{float(100 * share):.2f} %"


def kinds_of(job: Job) -> list[str]:
    """What is special about a job."""
    stages = {2: "two rounds", 3: "three rounds", None: "any number of rounds"}
    found = ["lengths alone" if job.one_dimensional else stages[job.stages]]
    if any(one.quantity is None and one.cost for one in job.stock):
        found.append("stock to buy at will")
    pieces = sum(one.quantity for one in job.blanks)
    size = "up to 10" if pieces <= 10 else "11 to 60" if pieces <= 60 else "over 60"
    return [*found, f"{size} pieces", *(marks_of(job) or ["nothing marked"])]


def job_of(seed: int) -> Job:
    """A plain job for an even number, one with marks for an odd one."""
    return marked_job(seed) if seed % 2 else random_job(seed)


def tried(seed: int, tally: Tally, work: int) -> None:
    """Plan one job, saw it over again and count it."""
    job, started = job_of(seed), perf_counter()
    try:
        planner = planner_for(job)
        plan = planner(job, work=work)
        check(plan)
        if seed % TWICE == 0:
            assert planner(job, work=work) == plan, "another plan the second time"
    except Exception as fault:
        words = str(fault).splitlines() or [type(fault).__name__]
        what = f"{type(fault).__name__}: {words[0]} ({', '.join(kinds_of(job))})"
        tally.faults.append(f"job {seed}: {what}")
        print(tally.faults[-1], flush=True)
        return
    tally.take(seed, plan, perf_counter() - started)


def main() -> None:
    """Plan and check ``--jobs`` random jobs from ``--from`` on."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--jobs", type=int, default=10_000)
    asked.add_argument("--from", type=int, default=1_000, dest="start")
    asked.add_argument("--work", type=int, default=WORK, help="looks a job")
    asked.add_argument("--report", type=Path, help="a file for what came out")
    options = asked.parse_args()
    tally = Tally()
    for done in range(1, options.jobs + 1):
        tried(options.start + done - 1, tally, options.work)
        if done % TELL and done < options.jobs:
            continue
        print(f"{done} jobs, {len(tally.faults)} with a fault", flush=True)
        report = tally.report(done, options.start, options.work)
        if options.report:
            options.report.write_text(report, encoding="utf-8")
    print(report)
    if tally.faults:
        raise SystemExit(f"{len(tally.faults)} of {options.jobs} jobs have a fault")


if __name__ == "__main__":
    main()
