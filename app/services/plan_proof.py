"""How good a plan is, aim by aim: its value, and what no plan can beat, in words."""

from __future__ import annotations

from dataclasses import dataclass

from app.core.cutting import proof
from app.core.cutting.plan import Plan
from app.core.cutting.totals import Level, levels
from app.core.length import Unit
from app.core.money import Money
from app.core.shop import Shop

SQUARE_FOOT = (12 * 25_400_000) ** 2  # nm²
SQUARE_METRE = 10**18
# In the order in which they count.
AIMS = {
    "cost": "Money for new wood",
    "offcut_value": "Offcuts worth keeping",
    "set_ups": "Set-ups of fence and stop",
    "cuts": "Cuts",
    "stock_pieces": "Boards cut up",
}


@dataclass(frozen=True, slots=True)
class AimLine:
    """One aim: what this plan has, and what no plan can beat."""

    aim: str
    value: str
    bound: str
    proven: bool


@dataclass(frozen=True, slots=True)
class ProofView:
    """The proof in one sentence, and aim by aim."""

    words: str
    lines: tuple[AimLine, ...]


def view(plan: Plan, shop: Shop) -> ProofView:
    """The proof of a plan; a gap is a percentage of the value of the parts."""
    known = {one.objective: one for one in levels(plan)}
    lines = tuple(
        AimLine(
            words,
            _figure(name, known[name].value, shop),
            _bound(known[name], shop),
            known[name].proven,
        )
        for name, words in AIMS.items()
        if name in known
    )
    return ProofView(proof.in_words(plan), lines)


def face(area: int, shop: Shop) -> str:
    """An area in nm², in the shop's unit: square feet or square metres."""
    if shop.unit is Unit.INCH:
        return f"{area / SQUARE_FOOT:.1f} ft²"
    return f"{area / SQUARE_METRE:.2f} m²"


def _figure(name: str, value: int, shop: Shop) -> str:
    if name == "cost":
        return str(Money(value, shop.currency))
    return face(value, shop) if name == "offcut_value" else str(value)


def _bound(level: Level, shop: Shop) -> str:
    figure = _figure(level.objective, level.bound, shop)
    most = level.objective == "offcut_value"
    return f"{'at most' if most else 'at least'} {figure}"
