"""How far a plan can be from the best possible one, as a share and in words."""

from __future__ import annotations

from fractions import Fraction

from app.core.cutting.plan import Plan
from app.core.cutting.totals import levels, size, totals


def value_of_parts(plan: Plan) -> Fraction:
    """What the parts are worth in money, minor units: their area at the least price.

    A price is that of a piece of stock by its whole face. Nothing where no stock
    has a price.
    """
    rates = [Fraction(one.cost, size(one)) for one in plan.job.stock if one.cost]
    return totals(plan).parts * min(rates, default=Fraction(0))


def gap(plan: Plan) -> Fraction | None:
    """How much less a plan could cost at most, as a share of the parts' value.

    0: nothing costs less. None where nothing is known: blanks found no place, or
    none were placed. A share of the cost itself would say nothing where free
    offcuts give most of the parts.
    """
    money = next(one for one in levels(plan) if one.objective == "cost")
    if plan.unplaced:
        return None
    if money.value == money.bound:
        return Fraction(0)
    value = value_of_parts(plan)
    return Fraction(money.value - money.bound) / value if value else None


def in_words(plan: Plan) -> str:
    """The proof in one sentence; a share is rounded up to a tenth of a percent."""
    found = gap(plan)
    if plan.unplaced:
        return "Nothing is proven: some parts found no place."
    if found is None:
        return "Nothing is proven."
    if not found:
        return "Proven: nothing costs less."
    tenths = -(-found * 1000 // 1)
    return (
        f"At most {tenths // 10}.{tenths % 10} % of the value of the parts from the "
        "best possible."
    )
