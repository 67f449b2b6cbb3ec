"""Lengths that would do instead, on the marks of the maker's tape."""

from __future__ import annotations

from app.core.inputs import typed
from app.core.length import Length, Unit, inches, mm
from app.core.shop import Shop


def _mark(shop: Shop) -> int:
    return inches("1/64").nm if shop.unit is Unit.INCH else mm("0.1").nm


def down(length: Length, shop: Shop) -> Length:
    """Down to a mark of the tape; as it is where that leaves nothing of it."""
    whole = length.nm // _mark(shop) * _mark(shop)
    return Length(whole) if whole > 0 else length


def up(length: Length, shop: Shop, mark: Length | None = None) -> Length:
    """Up to a mark of the tape, or to a whole number of ``mark``."""
    step = mark.nm if mark else _mark(shop)
    return Length(-(-length.nm // step) * step)


def near(length: Length, shop: Shop) -> str:
    """As it would be typed."""
    return typed(length, shop.unit)
