"""One way through a job: the rack first, then the least costly boards."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property

from app.core.cutting.effort import Work
from app.core.cutting.fit import clear, suits, trims, ways, within_limits
from app.core.cutting.job import Job, Stock
from app.core.cutting.order import changes, sawing_order
from app.core.cutting.pattern import Filler, Pattern, Shape
from app.core.cutting.strategy import Strategy, ordered, rounds


@dataclass(frozen=True, slots=True)
class Laid:
    """A pattern on a stock (by its place in the job), ``copies`` times."""

    stock: int
    pattern: Pattern
    copies: int


def used_up(job: Job, laid: Laid) -> int:
    """What is no longer good for anything but this job, nm².

    An offcut counts by its share of the board once more: one long offcut is
    worth more than the same wood in three short ones.
    """
    keep, stock = job.keep, job.stock[laid.stock]
    face = stock.length.nm * (stock.width.nm if stock.width else 1)
    kept = [
        box[2] * box[3]
        for box in laid.pattern.waste
        if box[2] >= keep.length.nm and (job.one_dimensional or box[3] >= keep.width.nm)
    ]
    return face - sum(area * area for area in kept) // face


@dataclass
class Run:
    """One strategy carried through. After ``go``: what is laid, what is left."""

    job: Job
    way: Strategy
    meter: Work
    laid: list[Laid] = field(default_factory=list)
    left: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.left = [blank.quantity for blank in self.job.blanks]
        self._there = [one.quantity for one in self.job.stock]
        self._orders = [self._ordered(one) for one in self.job.stock]

    def go(self) -> None:
        """Lay out all that fits: stock without cost, then the cheapest."""
        for number in self._free():
            while self._there[number] != 0:
                pattern = self._try(number, self.left)
                if not pattern.pieces:
                    break
                self._use(number, pattern)
        while any(self.left):
            found = self._cheapest()
            if found is None:
                return
            self._use(*found)

    def instead(self, laid: Sequence[Laid]) -> Run:
        """The same job laid out like this."""
        other = Run(self.job, self.way, self.meter, list(laid))
        for one in laid:
            for shape, _ in one.pattern.pieces:
                other.left[shape.blank] -= one.copies
        return other

    @cached_property
    def score(self) -> tuple[int, ...]:
        """Less is better: unplaced, cost, whole boards, wood used up, set-ups, cuts."""
        return (
            self._unplaced(),
            sum(self._cost(laid.stock) * laid.copies for laid in self.laid),
            sum(
                laid.copies
                for laid in self.laid
                if not self.job.stock[laid.stock].offcut
            ),
            sum(used_up(self.job, laid) * laid.copies for laid in self.laid),
            sum(self._settings(laid.pattern) for laid in self.laid),
            sum(len(laid.pattern.cuts) * laid.copies for laid in self.laid),
        )

    def _unplaced(self) -> int:
        return sum(
            left * ways(blank)[0][0] * ways(blank)[0][1]
            for blank, left in zip(self.job.blanks, self.left, strict=True)
        )

    def _settings(self, pattern: Pattern) -> int:
        return changes(sawing_order(pattern.cuts, self.job.display))

    def _cost(self, number: int) -> int:
        return self.job.stock[number].cost or 0

    def _free(self) -> list[int]:
        """Offcuts, then boards that need no planing, small or large first."""
        free = [n for n, one in enumerate(self.job.stock) if not one.cost]
        sign = -1 if self.way.big_first else 1

        def rank(number: int) -> tuple[bool, bool, int, int, int]:
            stock = self.job.stock[number]
            size = stock.length.nm * (stock.width.nm if stock.width else 1)
            thick = stock.thickness.nm if stock.thickness else 0
            to_buy = stock.cost is not None
            return (to_buy, not stock.offcut, thick, sign * size, number)

        return sorted(free, key=rank)

    def _ordered(self, stock: Stock) -> Filler:
        shapes = [
            Shape(number, along, across, turned)
            for number, blank in enumerate(self.job.blanks)
            if suits(stock, blank, self.job.plane)
            for along, across, turned in ways(blank)
        ]
        saw = self.job.saw
        return Filler(
            ordered(shapes, self.way.order),
            [],
            saw.kerf.nm,
            self.way.look,
            self.meter.tick,
            rounds(self.job),
        )

    def _try(self, number: int, left: list[int]) -> Pattern:
        """This stock laid out with what is wanted; ``left`` stays as it is."""
        stock, base = self.job.stock[number], self._orders[number]
        length, width = clear(stock, self.job)
        if not (length and width) or not any(base.orders.values()):
            return Pattern()
        filler = Filler(
            base.orders,
            left.copy(),
            base.kerf,
            base.look,
            base.tick,
            base.top,
            self.job.machine,
        )
        whole = (0, 0, stock.length.nm, stock.width.nm if stock.width else 1)
        saw = (base.kerf, *trims(stock, self.job.saw))
        box, after = filler.made.trim(whole, saw)
        if not all(
            within_limits(cut.direction, cut.box, self.job.machine)
            for cut in filler.made.cuts
        ):
            return Pattern()
        filler.fill(box, self.way.first, base.top, after)
        return filler.made

    def _use(self, number: int, pattern: Pattern) -> None:
        """Take the pattern as often as stock and demand allow."""
        needs = Counter(shape.blank for shape, _ in pattern.pieces)
        copies = min(self.left[blank] // need for blank, need in needs.items())
        there = self._there[number]
        if there is not None:
            copies = min(copies, there)
            self._there[number] = there - copies
        for blank, need in needs.items():
            self.left[blank] -= need * copies
        self.laid.append(Laid(number, pattern, copies))

    def _cheapest(self) -> tuple[int, Pattern] | None:
        """The stock that holds the most wood wanted for its price."""
        found: list[tuple[Fraction, int, int]] = []
        patterns: dict[int, Pattern] = {}
        for number, stock in enumerate(self.job.stock):
            if not stock.cost or self._there[number] == 0:
                continue
            pattern = self._try(number, self.left)
            if pattern.pieces:
                patterns[number] = pattern
                found.append((Fraction(stock.cost, pattern.area), stock.cost, number))
        if not found:
            return None
        number = min(found)[-1]
        return number, patterns[number]
