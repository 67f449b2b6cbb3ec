"""Jobs of plates: how many are needed, blanks lying as they are given."""

from __future__ import annotations

from tests.benchmarks.cutting import decreasing, direct
from tests.benchmarks.cutting.asked import Asked
from tests.benchmarks.cutting.report import Section, missed, table
from tests.benchmarks.cutting.tally import (
    BESIDE,
    HEAD,
    Found,
    Way,
    beside,
    measure,
    row,
)

TITLES = ("Plates", "Plates beside other ways")
SECONDS = {"class_2bp": 10.0, "furniture_a": 20.0}
FAMILIES = tuple(SECONDS)
WAYS: dict[str, Way] = {
    "guillotine first fit": lambda one, _: decreasing.boards(one, best_fit=False),
    "guillotine best fit": lambda one, _: decreasing.boards(one, best_fit=True),
}
if direct.THERE:
    WAYS["constraint solver (no guillotine)"] = direct.rectangles
NOTE = (
    "The fits saw each piece out of a corner of the first, or tightest, rectangle that "
    "holds it; the better of two orders counts, by area and by width. The constraint "
    "model asks only that pieces do not overlap, so its plans need not come off a saw."
)
if not direct.THERE:
    NOTE += " The constraint solver was not installed, so it has no column."


def sections(asked: Asked) -> list[Section]:
    """Measure it all and say what came of it."""
    found = {
        family: [
            measure(one, asked.seconds or limit, WAYS if asked.rival(n) else None)
            for n, one in enumerate(asked.of(family))
        ]
        for family, limit in SECONDS.items()
        if asked.wants(family)
    }
    most = asked.seconds or max(SECONDS.values())
    limits = ", ".join(f"{name} {s:g} s" for name, s in SECONDS.items())
    said = asked.words(most) + ("" if asked.seconds else f" ({limits}.)")
    rows = [row(name, these) for name, these in found.items()]
    parts = [said, table(HEAD, rows), "Above the best known:"]
    parts.append(missed([one.miss() for one in _above(found)], "None."))
    made = [Section(TITLES[0], "\n\n".join(parts))]
    if asked.rivals:
        other = [asked.beside(most), BESIDE, beside(found), NOTE]
        made.append(Section(TITLES[1], "\n\n".join(other)))
    return made


def _above(found: dict[str, list[Found]]) -> list[Found]:
    return [one for these in found.values() for one in these if one.above > 0]
