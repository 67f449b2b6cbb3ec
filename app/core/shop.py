"""The shop as the arithmetic sees it: machines, allowances, policies."""

from __future__ import annotations

from dataclasses import dataclass, field

from app.core.angle import Angle
from app.core.length import Display, Length, Unit, inches


@dataclass(frozen=True, slots=True)
class Shop:
    """What a workspace sets once and every design and plan uses.

    The defaults are common practice, no source; each can be changed.
    """

    unit: Unit = Unit.INCH
    display: Display = field(default_factory=Display)
    currency: str = "USD"
    kerf: Length = inches("1/8")
    end_trim: Length = inches("1/2")
    edge_trim: Length = inches("1/8")
    # Over size by: what jointing, squaring and planing will take off a blank.
    over_length: Length = inches("1/2")
    over_width: Length = inches("1/8")
    over_thickness: Length = inches("1/16")
    keep_length: Length = inches("8")
    keep_width: Length = inches("1")
    plane_most: Length = inches("3/8")
    most_tilt: Angle = field(default_factory=lambda: Angle.of(45))
    most_gauge: Angle = field(default_factory=lambda: Angle.of(60))
