"""Strip patterns: which species lies in which row of which side.

A wall or board that is laminated is glued up as a panel of strips and cut across
into the sides. Sides with the same strips in the same order come from one panel,
and where they may be turned upside down, so do those that read the same from the
other edge. Each panel costs its own allowance in length, each further piece of it
a kerf: which way takes least wood is reckoned, not assumed. Plane arithmetic, no
source.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from string import ascii_uppercase

from app.core.length import Length, mm

Column = tuple[str, ...]
# Longer boards are hard to come by, and longer panels to handle: common practice,
# no source.
LONGEST = mm(2400)


@dataclass(frozen=True, slots=True)
class Pattern:
    """Rows from the bottom up, each with one species for every side in order."""

    rows: tuple[tuple[str, ...], ...]

    @property
    def sides(self) -> int:
        """How many sides, slices or boards each row runs through."""
        return len(self.rows[0])

    def column(self, side: int) -> Column:
        """The strips of one side, bottom up; sides from 0, round and round."""
        return tuple(row[side % self.sides] for row in self.rows)

    def shares(self, side: int = 0) -> tuple[tuple[str, Fraction], ...]:
        """How much of a side's width each species is, its rows alike."""
        found = Counter(self.column(side))
        return tuple((name, Fraction(n, len(self.rows))) for name, n in found.items())

    @property
    def columns(self) -> tuple[Column, ...]:
        """Every side's strips."""
        return tuple(self.column(side) for side in range(self.sides))

    @property
    def species(self) -> tuple[str, ...]:
        """Each species once, in the order met from the bottom row up."""
        return tuple(dict.fromkeys(name for row in self.rows for name in row))

    @property
    def same_all_round(self) -> bool:
        """Whether every side has the same strips."""
        return len(set(self.columns)) == 1


def repeated(names: tuple[str, ...], rows: int, sides: int = 1) -> Pattern:
    """Even bands: the species repeat from the bottom row up, alike on all sides."""
    return Pattern(tuple((names[i % len(names)],) * sides for i in range(rows)))


@dataclass(frozen=True, slots=True)
class Cut:
    """How sides come off their panels.

    ``wall`` is one side along the strips; ``strip_width`` and ``thickness`` are a
    strip's blank. ``over_length`` is what each panel is longer by. A panel is no
    longer than ``longest``, unless one side is. ``may_turn``: a side may stand
    upside down, since nothing is cut into the panel before.
    """

    wall: Length
    strip_width: Length
    thickness: Length
    kerf: Length
    over_length: Length
    spares: int = 0
    may_turn: bool = False
    longest: Length = LONGEST

    def length(self, pieces: int) -> Length:
        """A panel for so many sides, its allowance included."""
        return self.wall * pieces + self.kerf * (pieces - 1) + self.over_length

    @property
    def most(self) -> int:
        """How many sides the longest panel gives, at least one."""
        room = self.longest.nm - self.over_length.nm + self.kerf.nm
        return max(room // (self.wall.nm + self.kerf.nm), 1)


@dataclass(frozen=True, slots=True)
class Panel:
    """Equal panels that sides are cut from.

    ``column`` is their strips, bottom up; ``sides`` all that come from them, from
    0, in the order cut; those in ``turned`` stand upside down. ``each`` pieces come
    from one panel, the ``spares`` last. ``letter`` names it at the bench.
    """

    letter: str
    column: Column
    sides: tuple[int, ...]
    turned: tuple[int, ...]
    quantity: int
    each: int
    spares: int
    length: Length

    @property
    def strips(self) -> Counter[str]:
        """Strips to rip for all of them, by species."""
        return Counter({name: n * self.quantity for name, n in self.one.items()})

    @property
    def one(self) -> Counter[str]:
        """Strips in one of them, by species."""
        return Counter(self.column)

    def wood(self, cut: Cut) -> int:
        """All their strips before they are jointed, cubic nanometres."""
        face = len(self.column) * cut.strip_width.nm * self.length.nm
        return face * cut.thickness.nm * self.quantity


@dataclass(frozen=True, slots=True)
class Way:
    """One way to get every side out of panels, with the wood its strips take."""

    key: str
    name: str
    panels: tuple[Panel, ...]
    wood: int

    @property
    def count(self) -> int:
        """How many panels are glued up."""
        return sum(panel.quantity for panel in self.panels)

    @property
    def strips(self) -> Counter[str]:
        """Strips to rip, by species, in the order first met."""
        found: Counter[str] = Counter()
        for panel in self.panels:
            found.update(panel.strips)
        return found


def panels(pattern: Pattern, cut: Cut) -> tuple[Panel, ...]:
    """The panels of the way that takes least wood; of two such, the fewer panels."""
    return ways(pattern, cut)[0].panels


def ways(pattern: Pattern, cut: Cut) -> tuple[Way, ...]:
    """Every way worth comparing, the best first."""
    alike, turned = _alike(pattern, False), _alike(pattern, True)
    tried = [
        ("alike", "A panel for pieces that are alike", alike, cut.most),
        ("apart", "A panel for each piece", alike, 1),
    ]
    if cut.may_turn:
        name = "A panel for pieces alike, or alike when turned"
        tried.insert(0, ("turned", name, turned, cut.most))
    found: list[Way] = []
    for key, name, groups, most in tried:
        made = _panels(groups, cut, most)
        if all(made != way.panels for way in found):
            found.append(Way(key, name, made, sum(one.wood(cut) for one in made)))
    return tuple(sorted(found, key=lambda way: (way.wood, way.count)))


Group = tuple[Column, list[tuple[int, bool]]]


def _alike(pattern: Pattern, may_turn: bool) -> list[Group]:
    """Sides by their strips: each group with its sides, and whether turned."""
    found: dict[Column, list[tuple[int, bool]]] = {}
    for side, column in enumerate(pattern.columns):
        turned = may_turn and column not in found and column[::-1] in found
        found.setdefault(column[::-1] if turned else column, []).append((side, turned))
    return list(found.items())


def _panels(groups: list[Group], cut: Cut, most: int) -> tuple[Panel, ...]:
    """Each group's panels; the spares come from the group with the most sides."""
    largest = max(range(len(groups)), key=lambda i: (len(groups[i][1]), -i))
    found: list[Panel] = []
    for i, (column, members) in enumerate(groups):
        rest, spares = members, cut.spares if i == largest else 0
        pairs = _split(len(members) + spares, most)
        # All from the equal panels that give most, so that they are one kind of part.
        host = max(pairs, key=lambda pair: pair[0] * pair[1])
        for quantity, each in pairs:
            extra = spares if (quantity, each) == host else 0
            pieces = max(quantity * each - extra, 0)
            taken, rest = rest[:pieces], rest[pieces:]
            made = Panel(
                letter(len(found)),
                column,
                tuple(side for side, _ in taken),
                tuple(side for side, turned in taken if turned),
                quantity,
                each,
                quantity * each - len(taken),
                cut.length(each),
            )
            found.append(made)
    return tuple(found)


def _split(pieces: int, most: int) -> list[tuple[int, int]]:
    """So many pieces on as few panels as will do, as evenly as they go.

    Pairs of how many panels and how many pieces on each.
    """
    count = -(-pieces // most)
    each, more = divmod(pieces, count)
    pairs = [(more, each + 1), (count - more, each)]
    return [(quantity, size) for quantity, size in pairs if quantity]


def equal_panels(pattern: Pattern, cut: Cut, count: int) -> tuple[Panel, ...]:
    """``count`` equal panels for sides that are all alike, the last ones not full."""
    each = -(-(pattern.sides + cut.spares) // count)
    sides = tuple(range(pattern.sides))
    column, long = pattern.column(0), cut.length(each)
    return (Panel("A", column, sides, (), count, each, cut.spares, long),)


def letter(place: int) -> str:
    """A, B … Z, AA, AB …; places from 0."""
    first, last = divmod(place, len(ascii_uppercase))
    return (letter(first - 1) if first else "") + ascii_uppercase[last]
