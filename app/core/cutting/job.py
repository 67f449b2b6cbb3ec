"""The cutting job: what is wanted, what there is, how the saw cuts."""

from __future__ import annotations

from dataclasses import dataclass

from app.core.length import Display, Length


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
class Stock:
    """Equal pieces of stock.

    ``width`` None: one-dimensional. ``quantity`` None: as many as wanted.
    ``cost`` None: it is on the rack already. ``trimmed``: its ends and edges are
    sawn already, so no trims are taken off it.
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


@dataclass(frozen=True, slots=True)
class Blank:
    """Equal blanks wanted. Length runs along the grain unless it ``may_turn``."""

    id: str
    length: Length
    width: Length | None = None
    thickness: Length | None = None
    quantity: int = 1
    species: str = ""
    may_turn: bool = False
    name: str = ""


@dataclass(frozen=True, slots=True)
class Job:
    """Everything a planner needs. ``stages`` None: any guillotine pattern.

    ``first`` is crosscut, rip or either. ``plane`` is the most that may be
    planed away where stock is thicker than a blank. ``display`` is how the
    set-ups of the cuts are written.
    """

    saw: Saw
    keep: Keep
    stock: tuple[Stock, ...]
    blanks: tuple[Blank, ...]
    stages: int | None = None
    first: str = "either"
    plane: Length = Length(0)
    display: Display = Display()

    @property
    def one_dimensional(self) -> bool:
        """Whether nothing has a width: only lengths are cut."""
        widths = [one.width for one in self.stock]
        widths += [one.width for one in self.blanks]
        return all(width is None for width in widths)
