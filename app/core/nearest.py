"""A refusal's nearest value, proven to work with all that was typed beside it."""

from __future__ import annotations

from collections.abc import Callable

from app.core.errors import WorkshopError
from app.core.inputs import Ask, Input, typed
from app.core.length import NM_PER_INCH, NM_PER_MM, Length, Unit
from app.core.shop import Shop

# Gives the refusal of one input's text, None where it works.
Attempt = Callable[[str], WorkshopError | None]
HOPS, HALVINGS = 3, 5


def proven(
    refusal: WorkshopError,
    item: Input,
    given: str,
    example: str,
    attempt: Attempt,
    shop: Shop,
) -> str:
    """The refusal's own nearest where it works, else one as near as it was found.

    An input's bound may be beyond what the others allow: then values between it, or
    what was ``given``, and the default or the ``example`` are halved. Empty where
    neither of these works.
    """
    text = refusal.nearest
    for _ in range(HOPS):
        again = attempt(text) if text else refusal
        if again is None:
            return text
        if again.input != item.key or again.nearest in ("", text):
            break
        text = again.nearest
    works = next(
        (one for one in (item.default, example) if one and attempt(one) is None), ""
    )
    far = refusal.nearest or _told(given, item, shop)
    return _between(far, works, item, attempt, shop) if far and works else ""


def _told(given: str, item: Input, shop: Shop) -> str:
    """What was typed where it can be read; nothing is near to what cannot."""
    if item.kind not in (Ask.LENGTH, Ask.COUNT):
        return ""
    try:
        return _text(_number(given, item, shop), item, shop)
    except (WorkshopError, ValueError):
        return ""


def _between(far: str, works: str, item: Input, attempt: Attempt, shop: Shop) -> str:
    """As near to ``far`` as a few halvings find; on the tape's marks."""
    if item.kind not in (Ask.LENGTH, Ask.COUNT):
        return works
    mark = 1
    if item.kind is Ask.LENGTH:
        mark = NM_PER_INCH // 16 if shop.unit is Unit.INCH else NM_PER_MM
    bad, good = (_number(text, item, shop) // mark for text in (far, works))
    for _ in range(HALVINGS):
        middle = (bad + good) // 2
        if middle in (bad, good):
            break
        tried = _text(middle * mark, item, shop)
        if attempt(tried) is None:
            works, good = tried, middle
        else:
            bad = middle
    return works


def _number(text: str, item: Input, shop: Shop) -> int:
    return int(text) if item.kind is Ask.COUNT else Length.read(text, shop.unit).nm


def _text(number: int, item: Input, shop: Shop) -> str:
    return str(number) if item.kind is Ask.COUNT else typed(Length(number), shop.unit)
