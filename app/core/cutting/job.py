"""The cutting job: what is wanted, what there is, how the saw cuts."""

from __future__ import annotations

from dataclasses import dataclass

from app.core.length import Display, Length, inches


@dataclass(frozen=True, slots=True)
class Saw:
    """Kerf, and what comes off each end and edge of stock, kerf included."""

    kerf: Length
    end_trim: Length = Length(0)
    edge_trim: Length = Length(0)


@dataclass(frozen=True, slots=True)
class Keep:
    """The smallest leftover worth keeping."""

    length: Length
    width: Length


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle on a piece of stock: x along the grain, y across it."""

    x: Length
    y: Length
    length: Length
    width: Length


@dataclass(frozen=True, slots=True)
class Machine:
    """What the saw can do; None: nothing is known to limit it.

    ``longest_crosscut`` and ``longest_rip`` are the longest cuts it takes.
    ``shortest_piece`` is the least length along the grain of a piece that may
    be cut at all: what comes off may be shorter, what is held may not.
    """

    longest_crosscut: Length | None = None
    longest_rip: Length | None = None
    shortest_piece: Length | None = None


@dataclass(frozen=True, slots=True)
class Pin:
    """Blanks that the maker wants out of a certain stock, by their ids.

    ``quantity`` None: all of them. ``firm``: they go there or stay without a
    place; else they are preferred there wherever that costs no money.
    """

    blank: str
    stock: str
    quantity: int | None = None
    firm: bool = True


@dataclass(frozen=True, slots=True)
class Resaw:
    """How thick stock may be sawn into thinner boards, on edge.

    ``kerf`` is what each such cut takes, ``height`` the widest board the saw takes
    on edge, ``allowance`` what flattening both faces takes off each board after.
    """

    kerf: Length
    height: Length
    allowance: Length


@dataclass(frozen=True, slots=True)
class OffcutValue:
    """From which size on an offcut counts in full; a smaller one counts less.

    Common practice, no source: half a board is worth more than four quarters.
    """

    full_length: Length = inches("48")
    full_width: Length = inches("6")


@dataclass(frozen=True, slots=True)
class Stock:
    """Equal pieces of stock.

    ``width`` None: one-dimensional. ``quantity`` None: as many as wanted.
    ``cost`` None: it is on the rack already. ``trimmed``: its ends and edges are
    sawn already, so no trims are taken off it. ``defects`` are areas on it to cut
    around. ``period``: from when it may be used or bought; empty: from the first.
    """

    id: str
    length: Length
    width: Length | None = None
    thickness: Length | None = None
    quantity: int | None = 1
    cost: int | None = None
    species: str = ""
    offcut: bool = False
    name: str = ""
    trimmed: bool = False
    defects: tuple[Area, ...] = ()
    period: str = ""


@dataclass(frozen=True, slots=True)
class Blank:
    """Equal blanks wanted. Length runs along the grain unless it ``may_turn``.

    ``period``: when they are cut; empty: in the first. ``only``: the ids of the
    stock they may come from; empty: any that suits. ``narrowest``: it may be glued
    up from strips no narrower; None: it comes from one board. ``joint`` is what
    jointing takes at each glue line, off both strips together.
    """

    id: str
    length: Length
    width: Length | None = None
    thickness: Length | None = None
    quantity: int = 1
    species: str = ""
    may_turn: bool = False
    name: str = ""
    period: str = ""
    only: tuple[str, ...] = ()
    narrowest: Length | None = None
    joint: Length = Length(0)


@dataclass(frozen=True, slots=True)
class Job:
    """Everything a planner needs. ``stages`` None: any guillotine pattern.

    ``first`` is crosscut, rip or either. ``plane`` is the most that may be
    planed away where stock is thicker than a blank. ``display`` is how the
    set-ups of the cuts are written. ``periods`` are the parts of a series in the
    order of time: what one leaves over, a later one may use. ``resaw`` None: the
    shop resaws nothing.
    """

    saw: Saw
    keep: Keep
    stock: tuple[Stock, ...]
    blanks: tuple[Blank, ...]
    stages: int | None = None
    first: str = "either"
    plane: Length = Length(0)
    display: Display = Display()
    periods: tuple[str, ...] = ()
    pins: tuple[Pin, ...] = ()
    machine: Machine = Machine()
    offcut_value: OffcutValue = OffcutValue()
    resaw: Resaw | None = None

    def when(self, period: str) -> int:
        """The place of a period in time; what has none belongs to the first."""
        return self.periods.index(period) if period else 0

    @property
    def one_dimensional(self) -> bool:
        """Whether nothing has a width: only lengths are cut."""
        widths = [one.width for one in self.stock]
        widths += [one.width for one in self.blanks]
        return all(width is None for width in widths)
