"""Jobs of lengths: published families, and sticks of several lengths with prices."""

from __future__ import annotations

from statistics import mean

from tests.benchmarks.cutting import arc_flow, decreasing, direct
from tests.benchmarks.cutting.asked import Asked
from tests.benchmarks.cutting.report import Section, missed, share, table
from tests.benchmarks.cutting.tally import (
    BESIDE,
    HEAD,
    Found,
    Way,
    beside,
    measure,
    row,
)

TITLES = ("Lengths", "Lengths beside other ways")
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
PRICED = "generated_1d_multi_length"
SECONDS = 5.0
# From so many pieces on, prices are held against the relaxation.
MANY = 100
WAYS: dict[str, Way] = {
    "first fit decreasing": lambda one, _: decreasing.sticks(one, best_fit=False),
    "best fit decreasing": lambda one, _: decreasing.sticks(one, best_fit=True),
    "arc-flow model": arc_flow.lengths,
}
if direct.THERE:
    WAYS["constraint solver"] = direct.lengths


def sections(asked: Asked) -> list[Section]:
    """Measure it all and say what came of it."""
    seconds = asked.seconds or SECONDS
    found = {
        family: [
            measure(one, seconds, WAYS if asked.rival(n) else None)
            for n, one in enumerate(asked.of(family))
        ]
        for family in FAMILIES
        if asked.wants(family)
    }
    rows = [row(name, these, name == PRICED) for name, these in found.items()]
    parts = [asked.words(seconds), table(HEAD, rows), "Above the best known:"]
    above = [one for these in found.values() for one in these if one.above > 0]
    parts.append(missed([one.miss() for one in above], "None."))
    if PRICED in found:
        parts.append(_relaxation(found[PRICED]))
    made = [Section(TITLES[0], "\n\n".join(parts))]
    if asked.rivals:
        other = [asked.beside(seconds), BESIDE, beside(found), NOTE]
        made.append(Section(TITLES[1], "\n\n".join(other)))
    return made


NOTE = (
    "The arc-flow model is solved by the solver that this planner uses inside; the "
    "constraint model says how many of each kind come out of each stick."
)
if not direct.THERE:
    NOTE += " The constraint solver was not installed, so it has no column."


def _relaxation(found: list[Found]) -> str:
    """The plans with prices against the planner's own bound."""
    many = [one for one in found if one.pieces >= MANY]
    if not many:
        return ""
    gaps = ", ".join(f"`{one.name}` {share(one.gap, 2)}" for one in many)
    return (
        f"Several lengths with prices, from {MANY} pieces on, above the planner's "
        f"bound: {share(mean(one.gap for one in many), 2)} in the mean, "
        f"{share(max(one.gap for one in many), 2)} at the most ({gaps})."
    )
