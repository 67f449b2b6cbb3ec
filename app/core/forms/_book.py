"""Writing sizes down with their working, in the shop's display."""

from __future__ import annotations

from fractions import Fraction

from app.core.angle import Angle
from app.core.forms._bench import shop_text
from app.core.length import Length
from app.core.shop import Shop
from app.core.size import Kind, Size

TRADE = "common practice, no source"
GEOMETRY = "plane geometry"


class Book:
    """Makes a form's sizes; ``show`` gives the texts for their working."""

    def __init__(self, shop: Shop) -> None:
        self.shop = shop

    def show(self, length: Length) -> str:
        return shop_text(length, self.shop)

    def length(
        self,
        key: str,
        label: str,
        value: Length,
        formula: str,
        values: str = "",
        source: str = GEOMETRY,
    ) -> Size:
        return Size(key, label, Kind.LENGTH, value, formula, values, source)

    def angle(
        self,
        key: str,
        label: str,
        value: Angle,
        formula: str,
        values: str = "",
        source: str = GEOMETRY,
    ) -> Size:
        return Size(key, label, Kind.ANGLE, value, formula, values, source)

    def count(
        self,
        key: str,
        label: str,
        value: int,
        formula: str,
        values: str = "",
        source: str = GEOMETRY,
    ) -> Size:
        return Size(key, label, Kind.COUNT, value, formula, values, source)

    def volume(
        self,
        key: str,
        label: str,
        nm3: int | Fraction,
        formula: str,
        values: str = "",
        source: str = GEOMETRY,
    ) -> Size:
        return Size(key, label, Kind.VOLUME, round(nm3), formula, values, source, "nm3")
