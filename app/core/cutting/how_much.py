"""How much of a dealer's random-width boards to buy for certain blanks.

The blanks are laid out on several piles of boards as they come, one board after
the other, with the saw's kerf and trims, as at the saw: what that takes on average
and at worst is what to buy. No flat percentage is added.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from app.core.cutting.job import Blank, Saw
from app.core.cutting.one_by_one import MOST_BOARDS, one_by_one
from app.core.cutting.random_widths import Must, RandomWidths, chosen, holds, musts
from app.core.length import Length
from app.core.receiving import Per

PILES = 8  # so many make the average; the worst of them is the bad day


@dataclass(frozen=True, slots=True)
class Amount:
    """How much to buy, in the unit the boards are sold by.

    ``average`` and ``most`` are over the piles; ``blanks`` is what of it ends up in
    the blanks, at the thickness that is charged. ``boards`` are the counts, on
    average and at most.
    """

    average: Fraction
    most: Fraction
    blanks: Fraction
    boards: tuple[int, int]
    musts: tuple[Must, ...]

    def waste(self, bought: Fraction) -> int:
        """What of an amount is no blank in the end but kerf, trim, scrap or left over.

        In whole percent.
        """
        return round(100 * (1 - self.blanks / bought)) if bought else 0


@lru_cache(maxsize=64)
def how_much(line: RandomWidths, blanks: tuple[Blank, ...], saw: Saw) -> Amount | None:
    """What these blanks take of the line; None where one finds no board at all."""
    if not all(holds(line, blank, saw) for blank in blanks):
        return None
    needed = musts(line, blanks, saw)
    piles = [chosen(line, needed, seed, MOST_BOARDS) for seed in range(PILES)]
    found = [one_by_one(pile, blanks, saw) for pile in piles]
    sums = [sum(line.amount(b.width, b.length) for b in boards) for boards in found]
    counts = [len(boards) for boards in found]
    wood = [
        line.amount(blank.width or Length(0), blank.length) * blank.quantity
        for blank in blanks
    ]
    return Amount(
        sold(Fraction(sum(sums), PILES), line.per),
        sold(Fraction(max(sums)), line.per),
        sum(wood, Fraction(0)),
        (-(-sum(counts) // PILES), max(counts)),
        needed,
    )


def sold(amount: Fraction, per: Per) -> Fraction:
    """Up to what a dealer writes on the bill: whole board feet.

    Cubic metres go to the thousandth, square metres to the hundredth. Common
    practice, no source.
    """
    parts = {Per.CUBIC_METRE: 1000, Per.SQUARE_METRE: 100}.get(per, 1)
    return Fraction(-(-amount * parts // 1), parts)
