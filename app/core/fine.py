"""Small lengths in decimals: gaps and movements are finer than a tape's marks."""

from __future__ import annotations

from fractions import Fraction

from app.core.length import NM_PER_INCH, NM_PER_MM, Display, Length, Unit


def fine(length: Length, display: Display = Display()) -> str:
    """A small length as a feeler gauge reads it: ``0.012 in``, ``0.31 mm``."""
    units = [display.unit]
    if display.both:
        units.append(Unit.MILLIMETRE if display.unit is Unit.INCH else Unit.INCH)
    texts = [_decimal(length, unit) for unit in units]
    return texts[0] + (f" ({texts[1]})" if display.both else "")


def _decimal(length: Length, unit: Unit) -> str:
    per, places = (NM_PER_INCH, 3) if unit is Unit.INCH else (NM_PER_MM, 2)
    shown = round(Fraction(length.nm, per), places)
    if length and not shown:
        return f"under {float(Fraction(1, 10**places)):.{places}f} {unit.value}"
    return f"{float(shown):.{places}f} {unit.value}"
