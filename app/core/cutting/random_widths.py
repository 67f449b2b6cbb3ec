"""Random-width boards, as a dealer sells them: what a pile of them may hold.

No two boards are equal and none is known before it is bought. So a plan is made
on boards drawn between the dealer's limits, always the same ones for the same
words, and says what to look for and how much to buy.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from random import Random

from app.core.cutting.fit import ways
from app.core.cutting.job import Blank, Saw
from app.core.length import Length, inches, mm
from app.core.movement import Piece, PieceKind
from app.core.part import Dimensions
from app.core.receiving import Per, tally

# Standard lengths of hardwood go by the foot (reference page on hardwood grades);
# widths by the quarter inch, and the metric steps: common practice, no source.
INCH_STEPS = (inches("1/4"), inches("12"))
METRIC_STEPS = (mm(5), mm(100))


@dataclass(frozen=True, slots=True)
class RandomWidths:
    """Boards between two widths and two lengths, sold by amount.

    ``charged`` is the thickness that the dealer reckons with, the rough one;
    ``rate`` is the price of one ``per``, minor units. ``metric``: sizes go by
    millimetres.
    """

    id: str
    species: str
    thickness: Length
    charged: Length
    widths: tuple[Length, Length]
    lengths: tuple[Length, Length]
    rate: int
    per: Per
    name: str
    metric: bool = False

    def amount(self, width: Length, length: Length) -> Fraction:
        """One board in the unit it is sold by."""
        return tally(self.per, self._piece(width, length), 1)

    def cost(self, width: Length, length: Length) -> int:
        """One board, minor units."""
        return round(self.rate * self.amount(width, length))

    def _piece(self, width: Length, length: Length) -> Piece:
        size = Dimensions(length, width, self.charged)
        return Piece(PieceKind.BOARD, self.species, size)

    @property
    def steps(self) -> tuple[Length, Length]:
        """The marks that widths and lengths go by."""
        return METRIC_STEPS if self.metric else INCH_STEPS


@dataclass(frozen=True, slots=True)
class Board:
    """One board of a pile."""

    width: Length
    length: Length


@dataclass(frozen=True, slots=True)
class Must:
    """So many of the boards must be at least this wide and this long, in all."""

    quantity: int
    width: Length
    length: Length


def drawn(line: RandomWidths, seed: int) -> Iterator[Board]:
    """Boards without end, every width and length of the line as likely as another."""
    # No secret: the same line must always give the same pile.
    dice = Random(seed)  # noqa: S311
    wide, long = line.steps
    while True:
        width = _between(line.widths, wide, dice.random())
        yield Board(width, _between(line.lengths, long, dice.random()))


def _between(limits: tuple[Length, Length], step: Length, share: float) -> Length:
    low, high = limits
    marks = (high.nm - low.nm) // step.nm + 1
    return Length(low.nm + int(share * marks) * step.nm)


def musts(line: RandomWidths, blanks: Iterable[Blank], saw: Saw) -> tuple[Must, ...]:
    """What some boards must be because not every board of the line would do.

    Blanks go end to end on boards as short as the line's shortest, the widest
    first: so many boards of that width serve whatever their length turns out to be.
    """
    bins: list[list[int]] = []  # width and length, nm
    for width, length in sorted(_demanding(line, blanks, saw), reverse=True):
        more = length - 2 * saw.end_trim.nm + saw.kerf.nm
        found = next((x for x in bins if x[1] + more <= line.lengths[0].nm), None)
        if found is None:
            bins.append([width, length])
        else:
            found[1] += more
    return _in_all(bins)


def _demanding(
    line: RandomWidths, blanks: Iterable[Blank], saw: Saw
) -> Iterator[tuple[int, int]]:
    """Width and length of the board that each such blank needs, nm."""
    end, edge = saw.end_trim.nm, saw.edge_trim.nm
    step = 1_000_000 if line.metric else inches("1/16").nm
    for blank in blanks:
        way = ways(blank)[0]
        length, width = way[0] + 2 * end, way[1] + 2 * edge
        fits_any = width <= line.widths[0].nm and length <= line.lengths[0].nm
        fits_one = width <= line.widths[1].nm and length <= line.lengths[1].nm
        if fits_one and not fits_any:
            marked = (-(-width // step) * step, -(-length // step) * step)
            yield from [marked] * blank.quantity


def _in_all(bins: Sequence[Sequence[int]]) -> tuple[Must, ...]:
    """Counts in all, from the most demanding on; what another says is left out."""
    found: list[Must] = []
    for width, length in sorted({(one[0], one[1]) for one in bins}, reverse=True):
        count = sum(one[0] >= width and one[1] >= length for one in bins)
        said = any(
            one.quantity >= count and one.width.nm >= width and one.length.nm >= length
            for one in found
        )
        if not said:
            found.append(Must(count, Length(width), Length(length)))
    return tuple(found)


def chosen(
    line: RandomWidths, needed: tuple[Must, ...], seed: int, most: int
) -> list[Board]:
    """So many boards: first those that must be there, then the rest as they come.

    A buyer goes through the pile for what must fit; where a whole pile has none,
    one just large enough is asked for.
    """
    source = drawn(line, seed)
    pile = [next(source) for _ in range(most)]
    taken: list[Board] = []
    for must in needed:
        while sum(_does(one, must) for one in taken) < must.quantity:
            found = next((one for one in pile if _does(one, must)), None)
            if found:
                pile.remove(found)
            taken.append(found or _just_enough(line, must))
    return [*taken, *pile][: max(most, len(taken))]


def holds(line: RandomWidths, blank: Blank, saw: Saw) -> bool:
    """Whether the largest board of the line has room for it."""
    along, across, _ = ways(blank)[0]
    long = along + 2 * saw.end_trim.nm <= line.lengths[1].nm
    return long and across + 2 * saw.edge_trim.nm <= line.widths[1].nm


def _does(board: Board, must: Must) -> bool:
    return board.width >= must.width and board.length >= must.length


def _just_enough(line: RandomWidths, must: Must) -> Board:
    wide, long = line.steps
    return Board(
        _up(must.width, line.widths, wide), _up(must.length, line.lengths, long)
    )


def _up(size: Length, limits: tuple[Length, Length], step: Length) -> Length:
    low, high = limits
    above = max(size.nm - low.nm, 0)
    return min(Length(low.nm + -(-above // step.nm) * step.nm), high)
