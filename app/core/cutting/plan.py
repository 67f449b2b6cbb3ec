"""A cutting plan as a value: layouts, cuts, leftovers, what stayed out."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.core.cutting.job import Area, Job
from app.core.length import Length


class Direction(StrEnum):
    """Which way a cut runs: along the grain or across it."""

    RIP = "rip"
    CROSSCUT = "crosscut"


@dataclass(frozen=True, slots=True)
class Placed:
    """One blank on the stock."""

    blank: str
    area: Area
    turned: bool = False


@dataclass(frozen=True, slots=True)
class Leftover:
    """What is left: an offcut where ``keep``, else scrap.

    ``used_in`` is the period in which a kept one is cut up in its turn: then it is
    left over only until then, and what comes of it stands in the same layout.
    """

    area: Area
    keep: bool
    used_in: str = ""


@dataclass(frozen=True, slots=True)
class Cut:
    """One straight cut through ``of``, edge to edge, with its near side ``at``.

    ``at`` is measured from the stock's corner: x for a crosscut, y for a rip.
    ``kerf`` is the wood it turns to dust: less than the saw's where less is left.
    ``set_up`` is the fence or stop setting in words; equal words, equal setting.

    ``number`` is its place in the order of the whole plan, from 1; 0 before the
    plan was put in order. ``against`` says in words which edge goes to the fence,
    or which end to the stop. ``round`` is the round of parallel cuts it belongs
    to, 0 for a ``trim``. ``setting`` is what stays between fence or stop and blade,
    or what a trim takes off; ``period`` is when it is made.
    """

    direction: Direction
    at: Length
    kerf: Length
    of: Area
    set_up: str = ""
    number: int = 0
    against: str = ""
    round: int = 0
    setting: Length = Length(0)
    trim: bool = False
    period: str = ""


@dataclass(frozen=True, slots=True)
class Layout:
    """How ``copies`` equal pieces of one stock are cut, in sawing order.

    ``period``: when the stock is taken or bought.
    """

    stock: str
    copies: int
    pieces: tuple[Placed, ...]
    leftovers: tuple[Leftover, ...]
    cuts: tuple[Cut, ...]
    period: str = ""


@dataclass(frozen=True, slots=True)
class Unplaced:
    """Blanks that found no place, and why."""

    blank: str
    quantity: int
    why: str


@dataclass(frozen=True, slots=True)
class Bound:
    """What no plan for the blanks that were placed can come below."""

    objective: str
    least: int


@dataclass(frozen=True, slots=True)
class Plan:
    """The planner's answer to one job, with the bounds it worked out, if any."""

    job: Job
    layouts: tuple[Layout, ...]
    unplaced: tuple[Unplaced, ...] = ()
    bounds: tuple[Bound, ...] = ()
