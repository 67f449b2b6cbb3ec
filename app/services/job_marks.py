"""Reading what is marked on a cutting job's wood: defects and pins."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from app.core.cutting.job import Area, Blank, Pin, Stock
from app.core.length import Display, Length, Unit, show
from app.services.job_reader import (
    Document,
    a_length,
    a_size,
    an_id,
    flag,
    named,
    needed,
    objects,
    quantity,
    refused,
)

DEFECT_KEYS = {"x", "y", "length", "width"}


def defects(
    facts: Document, path: str, size: tuple[Length, Length | None], unit: Unit
) -> Iterator[Area]:
    """Defects where they lie on their stock, in its own coordinates.

    ``path`` is the stock's. Stock without a width takes x and length alone.

    Raises WorkshopError where one is not wholly on the stock.
    """
    length, width = size
    given = objects(facts.get("defects"), f"{path}.defects", needed=False)
    for at, spot in enumerate(given):
        where = f"{path}.defects[{at}]"
        along = _span(spot, ("x", "length"), where, length, unit)
        across = (Length(0), Length(0))
        if width is not None:
            across = _span(spot, ("y", "width"), where, width, unit)
        elif spot.get("y") is not None or spot.get("width") is not None:
            message = f"{where}: the stock has no width; give x and length alone."
            raise refused(where, message)
        yield Area(along[0], across[0], along[1], across[1])


def _span(
    spot: Document, names: tuple[str, str], path: str, most: Length, unit: Unit
) -> tuple[Length, Length]:
    """From where on and how far a defect reaches one way."""
    start = a_length(needed(spot, names[0], path), f"{path}.{names[0]}", unit)
    size = a_size(needed(spot, names[1], path), f"{path}.{names[1]}", unit)
    if start + size > most:
        display = Display(unit, 64)
        raise refused(
            f"{path}.{names[1]}",
            f"{path} ends at {show(start + size, display)}, but its stock at "
            f"{show(most, display)}. Give {names[0]} and {names[1]} of what lies on "
            "the stock.",
        )
    return start, size


def pins(given: Any, stock: Sequence[Stock], parts: Sequence[Blank]) -> Iterator[Pin]:
    """Which parts the maker wants out of which stock.

    Raises WorkshopError for a part or stock that is not there, and where more is
    pinned than is wanted.
    """
    left = {one.id: one.quantity for one in parts}
    for at, facts in enumerate(objects(given, "pins", needed=False)):
        path = f"pins[{at}]"
        part = an_id(needed(facts, "part", path), f"{path}.part")
        on = an_id(needed(facts, "stock", path), f"{path}.stock")
        named(part, list(left), f"{path}.part")
        named(on, [one.id for one in stock], f"{path}.stock")
        count = None
        if facts.get("quantity") is not None:
            count = quantity(facts, path, endless=False)
        firm = not flag(facts, "prefer", path)
        if firm:
            left[part] -= _bound(count, left[part], part, path)
        if count != 0:
            yield Pin(part, on, count, firm)


def _bound(count: int | None, left: int, part: str, path: str) -> int:
    """How many of a part a firm pin takes."""
    if count is None and left:
        return left
    if count is None or count > left:
        many = f"{count} of" if count else "all of"
        raise refused(
            f"{path}.quantity",
            f"{path} pins {many} “{part}”, of which {left} are left to pin. Give the "
            "pins of one part quantities that add up to no more than its own.",
        )
    return count
