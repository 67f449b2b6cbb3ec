"""Series: all parts planned together, against one part after the other."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from statistics import median

from app.core.cutting.series import joint, part_by_part
from tests.benchmarks.cutting.asked import Asked
from tests.benchmarks.cutting.measuring import Answer, planned
from tests.benchmarks.cutting.report import Section, missed, share, table
from tests.core.cutting.published import Instance, read

TITLES = ("Series",)
FAMILIES = ("generated_series",)
SECONDS = 24.0
HEAD = (
    "series",
    "together",
    "best known",
    "part by part",
    "best known",
    "saved",
    "bound",
    "gap",
    "s",
)


@dataclass(frozen=True)
class Two:
    """One series both ways, with the best values known of both."""

    name: str
    joint: Answer
    alone: int
    best_joint: int
    best_alone: int

    @property
    def saved(self) -> float:
        """What planning together saves."""
        return 1 - self.joint.value / self.alone

    def miss(self) -> str:
        """The line that says what was missed."""
        return (
            f"`{self.name}`: together {self.joint.value} (best known "
            f"{self.best_joint}), part by part {self.alone}"
        )


def sections(asked: Asked) -> list[Section]:
    """Measure it all and say what came of it."""
    seconds = asked.seconds or SECONDS
    found = [_both(one, seconds) for one in asked.of(FAMILIES[0])]
    above = [
        one.miss() for one in found if one.joint.value > min(one.best_joint, one.alone)
    ]
    said = (
        f"{asked.words(seconds)} Part by part has the same seconds, shared equally by "
        "the parts; what a part leaves over, the next ones may use. Together never "
        f"dearer than the best known: {_count(found, best=True)} of {len(found)}; than "
        f"part by part: {_count(found, best=False)} of {len(found)}. Saved in the "
        f"middle: {share(median(one.saved for one in found))}, from "
        f"{share(min(one.saved for one in found))} to "
        f"{share(max(one.saved for one in found))}."
    )
    rows = [_row(one) for one in found]
    parts = [said, table(HEAD, rows), "Dearer than one of them:"]
    return [Section(TITLES[0], "\n\n".join([*parts, missed(above, "None.")]))]


def _count(found: list[Two], best: bool) -> int:
    return sum(
        one.joint.value <= (one.best_joint if best else one.alone) for one in found
    )


def _both(instance: Instance, seconds: float) -> Two:
    job = read(instance)
    together = planned(job, seconds, by=joint)
    apart = planned(job, seconds, by=part_by_part)
    records = {one["variant"]: one["best_known"] for one in instance["known"]}
    two = Two(
        instance["name"],
        together,
        apart.value,
        records["all episodes planned together"],
        records["each episode planned alone, leftovers carried over"],
    )
    print(two.miss(), file=sys.stderr, flush=True)
    return two


def _row(one: Two) -> list[object]:
    return [
        one.name,
        one.joint.value,
        one.best_joint,
        one.alone,
        one.best_alone,
        share(one.saved),
        one.joint.bound,
        share(one.joint.gap),
        f"{one.joint.seconds:.1f}",
    ]
