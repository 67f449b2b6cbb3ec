"""A size that is no length, read in either system."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app.core.length import Display, Unit
from app.core.size import Kind, Size

INCH, METRIC = Display(Unit.INCH), Display(Unit.MILLIMETRE)


# Exact units, NIST SP 811 (2008), appendix B.8: 1 lb 453.59237 g, 1 US fl oz
# 29.5735295625 ml, 1 ft² 0.09290304 m²; 1 board foot of walnut weighs 3.2046 lb and
# walnut 616 kg/m³, lumber measure computed from them.
@pytest.mark.parametrize(
    ("kind", "value", "unit", "inch", "metric"),
    [
        (Kind.MASS, Fraction("1453.60"), "g", "3.2 lb", "1.45 kg"),
        (Kind.MASS, 100, "g", "3.53 oz", "100 g"),
        (Kind.MASS, Fraction("453.59237"), "g", "1 lb", "454 g"),
        (Kind.VOLUME, 30, "ml", "1.01 fl oz", "30 ml"),
        (Kind.VOLUME, Fraction("946.352946"), "ml", "1 qt", "946 ml"),
        (Kind.VOLUME, 2500, "ml", "2.64 qt", "2.5 l"),
        (Kind.AREA, 92_903_040_000_000_000, "nm2", "1 ft²", "929 cm²"),
        (Kind.AREA, 10**18, "nm2", "10.76 ft²", "1 m²"),
        (Kind.AREA, 10**16, "nm2", "15.5 in²", "100 cm²"),
        (Kind.RATIO, 616, "kg/m3", "38.46 lb/ft³", "616 kg/m³"),
        (Kind.VOLUME, Fraction("1.5"), "board feet", "1.5 board feet", None),
        (Kind.MONEY, 1250, "EUR", "12.50 EUR", None),
        (Kind.COUNT, 12, "", "12", None),
    ],
)
def test_a_size_reads_in_the_shops_own_units(
    kind: Kind, value: Fraction | int, unit: str, inch: str, metric: str | None
) -> None:
    size = Size("key", "Label", kind, value, "formula", unit=unit)
    assert size.text(INCH) == inch
    assert size.text(METRIC) == (metric or inch)


def test_a_shop_that_shows_both_systems_has_the_other_in_brackets() -> None:
    both = Display(Unit.INCH, both=True)
    assert Size("w", "W", Kind.MASS, 100, "f", unit="g").text(both) == "3.53 oz (100 g)"
    foot = Size("w", "W", Kind.VOLUME, 2, "f", unit="board feet")
    assert foot.text(both) == "2 board feet"
