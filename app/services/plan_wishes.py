"""What the maker wants of a plan: boards bound, preferred or left out, rounds of cuts.

Wishes are kept beside the plan's job; planning again keeps them until they are
taken back.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from app.core.cutting.job import Job, Pin, Stock
from app.core.document import from_plain, to_plain
from app.core.errors import WorkshopError
from app.core.length import show

# Rounds of cuts that stay easy to follow at the saw; common practice, no source.
STAGES = 3
ROUNDS = {"2": 2, "3": 3, "free": None}
FIRST = ("either", "crosscut", "rip")
MOST = 40  # more than a person types
Choices = tuple[tuple[str, str], ...]  # ids with words


@dataclass(frozen=True, slots=True)
class Wishes:
    """``pins`` bind blanks to stock, firmly or where it costs no money.

    ``without`` are the ids of stock that this plan leaves alone; ``stages`` and
    ``first`` are the job's.
    """

    pins: tuple[Pin, ...] = ()
    without: tuple[str, ...] = ()
    stages: int | None = STAGES
    first: str = "either"

    def on(self, job: Job) -> Job:
        """The job as wished. A pin whose blank or stock is gone binds nothing."""
        stock = tuple(one for one in job.stock if one.id not in self.without)
        kept = tuple(pin for pin in self.pins if not lost(pin, job, self.without))
        return replace(
            job, stock=stock, pins=kept, stages=self.stages, first=self.first
        )

    def less(self, number: int) -> Wishes:
        """Without one of them, counted as ``told`` lists them."""
        rest = [one for at, one in enumerate(self._all()) if at != number]
        if len(rest) == len(self._all()):
            raise WorkshopError(
                "That wish was taken back already. Open the page again to see "
                "those that stand."
            )
        return replace(
            self,
            pins=tuple(one for one in rest if isinstance(one, Pin)),
            without=tuple(one for one in rest if isinstance(one, str)),
            stages=self.stages if "stages" in self._names(rest) else STAGES,
            first=self.first if "first" in self._names(rest) else "either",
        )

    def renamed(self, bought: Mapping[str, str]) -> Wishes:
        """The wishes after stock got other ids: the dealer's boards were bought."""
        pins = tuple(
            replace(pin, stock=bought.get(pin.stock, pin.stock)) for pin in self.pins
        )
        return replace(self, pins=pins)

    def _all(self) -> list[Pin | str | tuple[str, ...]]:
        policy = [("stages",)] if self.stages != STAGES else []
        policy += [("first",)] if self.first != "either" else []
        return [*self.pins, *self.without, *policy]

    def _names(self, rest: list[Pin | str | tuple[str, ...]]) -> set[str]:
        return {one[0] for one in rest if isinstance(one, tuple)}


@dataclass(frozen=True, slots=True)
class WishLine:
    """One wish in words. ``gone`` is why it binds nothing, empty while it does."""

    words: str
    gone: str = ""


def told(wishes: Wishes, job: Job) -> tuple[WishLine, ...]:
    """Every wish in words; ``job`` is as the shop has it, without the wishes."""
    blanks = {one.id: one.name or one.id for one in job.blanks}
    stock = {one.id: one.name or one.id for one in job.stock}
    lines = [
        WishLine(_pin(pin, blanks, stock), lost(pin, job, wishes.without))
        for pin in wishes.pins
    ]
    lines += [
        WishLine(
            f"{stock.get(key, key)} is left out",
            "" if key in stock else f"{key} is not on the rack any more.",
        )
        for key in wishes.without
    ]
    if wishes.stages != STAGES:
        rounds = "Any number of" if wishes.stages is None else f"{wishes.stages}"
        lines.append(WishLine(f"{rounds} rounds of cuts"))
    if wishes.first != "either":
        way = "crosscut to length" if wishes.first == "crosscut" else "rip"
        lines.append(WishLine(f"First cut on a board: {way}"))
    return tuple(lines)


def lost(pin: Pin, job: Job, without: tuple[str, ...] = ()) -> str:
    """Why a pin binds nothing, as a sentence; empty while it does."""
    if pin.stock in without:
        return f"{pin.stock} is left out of this plan."
    if pin.stock not in {one.id for one in job.stock}:
        return (
            f"{pin.stock} is not on the rack or on offer any more, so the blanks go "
            "where they fit best."
        )
    if pin.blank not in {one.id for one in job.blanks}:
        return "None of these blanks is left to cut."
    return ""


def _pin(pin: Pin, blanks: dict[str, str], stock: dict[str, str]) -> str:
    much = "Every" if pin.quantity is None else f"{pin.quantity} ×"
    board = stock.get(pin.stock, pin.stock)
    where = f"out of {board}" if pin.firm else f"rather out of {board}"
    return f"{much} {blanks.get(pin.blank, pin.blank)} {where}"


def blank_choices(job: Job) -> Choices:
    """The blanks a wish may name: the id and how a person knows it."""
    return tuple((one.id, one.name or one.id) for one in job.blanks)


def board_choices(job: Job) -> Choices:
    """The boards of the rack that a wish may name."""
    found = (one for one in job.stock if one.cost is None)
    return tuple((one.id, f"{one.name or one.id}: {_board(one, job)}") for one in found)


def _board(stock: Stock, job: Job) -> str:
    sizes = (stock.thickness, stock.width, stock.length)
    figures = (show(one, job.display).figure for one in sizes if one)
    kind = "offcut " if stock.offcut else ""
    return f"{stock.species} {kind}{' × '.join(figures)}"


def document(wishes: Wishes) -> dict[str, Any]:
    """The wishes to keep."""
    found: dict[str, Any] = to_plain(wishes)
    return found


def of(kept: Mapping[str, Any]) -> Wishes:
    """The wishes of a plan, from the document of its job."""
    if "wishes" in kept:
        return from_plain(Wishes, kept["wishes"])
    # Plans made before there were wishes knew these two.
    job = kept["job"]
    return Wishes(stages=job.get("stages", STAGES), first=job.get("first", "either"))


def read(form: Mapping[str, str], without: tuple[str, ...]) -> Wishes:
    """The wishes as typed; ``without`` are the boards that were ticked.

    Raises WorkshopError naming the field at fault.
    """
    first = form.get("first", "either")
    if first not in FIRST:
        raise WorkshopError(
            "Choose which cut comes first from the list.", input="first"
        )
    rounds = form.get("rounds", str(STAGES))
    if rounds not in ROUNDS:
        raise WorkshopError(
            "Choose the rounds of cuts from the list: 2, 3 or free.", input="rounds"
        )
    rows = range(min(MOST, sum(1 for key in form if key.endswith("-blank"))))
    pins = tuple(pin for row in rows if (pin := _typed_pin(form, f"pin-{row}")))
    return Wishes(pins, tuple(dict.fromkeys(without)), ROUNDS[rounds], first)


def _typed_pin(form: Mapping[str, str], row: str) -> Pin | None:
    """One row of the form; a row without a blank is no wish."""
    blank, stock = form.get(f"{row}-blank", ""), form.get(f"{row}-stock", "")
    if not blank and not stock:
        return None
    if not blank or not stock:
        missing = "stock" if blank else "blank"
        raise WorkshopError(
            "A wish names a blank and a board. Choose both, or neither.",
            input=f"{row}-{missing}",
        )
    firm = form.get(f"{row}-how", "must") != "rather"
    return Pin(blank, stock, _count(form, f"{row}-quantity"), firm)


def _count(form: Mapping[str, str], field: str) -> int | None:
    text = form.get(field, "").strip()
    if not text:
        return None
    if not (text.isascii() and text.isdecimal() and 0 < int(text[:6]) <= 9999):
        raise WorkshopError(
            f"“{text[:20]}” is no number of blanks. Type a whole number, or leave it "
            "empty for all of them.",
            input=field,
        )
    return int(text[:6])
