"""Workshop jobs: unique boards with prices, free offcuts, kerf, grain that is fixed."""

from __future__ import annotations

from fractions import Fraction
from statistics import median

from tests.benchmarks.cutting.asked import Asked
from tests.benchmarks.cutting.report import Section, missed, share, table
from tests.benchmarks.cutting.tally import BESIDE, Found, beside, measure
from tests.benchmarks.cutting.two_dimensions import NOTE, WAYS
from tests.core.cutting.published import Instance

TITLES = ("Workshop jobs", "Workshop jobs beside other ways")
FAMILIES = ("generated_workshop",)
SECONDS = 20.0
# Jobs of up to so many pieces are small enough to hope for a proof.
FEW = 30
GREEDY = "guillotine best fit"
HEAD = (
    "job",
    "pieces",
    "plan",
    "best known",
    "against it",
    "bound",
    "gap",
    "gap of the parts' value",
    "proven",
    "below best fit",
    "s",
)


def sections(asked: Asked) -> list[Section]:
    """Measure it all and say what came of it."""
    seconds = asked.seconds or SECONDS
    jobs = asked.of(FAMILIES[0])
    fits = {name: way for name, way in WAYS.items() if "fit" in name}
    found = [
        measure(one, seconds, WAYS if asked.rival(n) else fits)
        for n, one in enumerate(jobs)
    ]
    worth = [_worth(one) for one in jobs]
    rows = [_row(one, value) for one, value in zip(found, worth, strict=True)]
    parts = [asked.words(seconds), _summary(found, worth), table(HEAD, rows)]
    dearer = [one.miss() for one in found if one.above > 0]
    parts += ["Dearer than the best known:", missed(dearer, "None.")]
    made = [Section(TITLES[0], "\n\n".join(parts))]
    if asked.rivals:
        tried = {"generated_workshop": [f for f in found if set(f.others) == set(WAYS)]}
        other = [asked.beside(seconds), BESIDE, beside(tried), NOTE]
        made.append(Section(TITLES[1], "\n\n".join(other)))
    return made


def _worth(instance: Instance) -> Fraction:
    """What the wood of the parts costs at the mean price of the boards on offer."""
    priced = [one for one in instance["stock"] if one["cost"]]
    rate = Fraction(
        sum(one["cost"] for one in priced),
        sum(one["length"] * one["width"] for one in priced),
    )
    wood = [one["length"] * one["width"] * one["quantity"] for one in instance["items"]]
    return rate * int(sum(wood))


def _gap(one: Found, worth: Fraction) -> float:
    return float((one.answer.value - one.answer.bound) / worth)


def _saved(one: Found) -> float:
    greedy = one.others[GREEDY]
    return (greedy - one.answer.value) / max(greedy, 1) if greedy else 0.0


def _row(one: Found, worth: Fraction) -> list[object]:
    return [
        one.name,
        one.pieces,
        one.answer.value,
        one.best,
        f"{one.above / max(one.best, 1) * 100:+.2f} %",
        one.answer.bound,
        share(one.gap),
        share(_gap(one, worth)),
        "yes" if one.answer.proven else "no",
        "best fit finds no plan" if one.others[GREEDY] is None else share(_saved(one)),
        f"{one.answer.seconds:.1f}",
    ]


def _summary(found: list[Found], worth: list[Fraction]) -> str:
    few = [one for one in found if one.pieces <= FEW]
    gaps = [_gap(one, value) for one, value in zip(found, worth, strict=True)]
    greedy = [_saved(one) for one in found if one.others[GREEDY]]
    return (
        f"Not dearer than the best known: {sum(one.above <= 0 for one in found)} of "
        f"{len(found)}, cheaper: {sum(one.above < 0 for one in found)}. Above the "
        f"planner's bound in the middle: {share(median(one.gap for one in found))} "
        f"of the cost, {share(median(gaps))} of the value of the parts (their "
        "wood at the mean price of the boards on offer, since free offcuts would blow "
        f"up a share of the cost). Cheaper than guillotine best fit in the middle: "
        f"{share(median(greedy)) if greedy else 'no plan of best fit'}. Proven: "
        f"{sum(one.answer.proven for one in few)} of {len(few)} jobs up to {FEW} "
        "pieces."
    )
