"""A size: a number with its name, its working and its source."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from app.core.angle import Angle
from app.core.fine import fine
from app.core.length import NM_PER_INCH, NM_PER_MM, Display, Length, Unit, show
from app.core.money import Money


class Kind(StrEnum):
    """What a size measures."""

    LENGTH = "length"
    ANGLE = "angle"
    AREA = "area"
    VOLUME = "volume"
    MASS = "mass"
    COUNT = "count"
    RATIO = "ratio"
    MONEY = "money"


class Group(StrEnum):
    """What a size or a table is read for, so that a page can keep them together."""

    BUILD = "build"  # the sizes of the thing itself
    SURE = "sure"  # how far a small error carries
    MOVES = "moves"  # what the air does to the wood
    TAKES = "takes"  # wood, glue, finish and abrasives it takes


@dataclass(frozen=True, slots=True)
class Size:
    """One computed number that a reader can check.

    ``value`` is a Length, an Angle, or a plain number in ``unit``.
    ``formula`` is the rule in words; ``values`` the same rule with the numbers
    in it; ``source`` a publication, or 'common practice, no source'.
    """

    key: str
    label: str
    kind: Kind
    value: Length | Angle | Fraction | int
    formula: str
    values: str = ""
    source: str = "plane geometry"
    unit: str = ""
    group: Group = Group.BUILD

    @property
    def working(self) -> str:
        """The formula in words, then with its values."""
        return f"{self.formula} = {self.values}" if self.values else self.formula

    def in_decimals(self, display: Display) -> bool:
        """Whether it is read off a gauge: a gap or a movement between two marks."""
        if not isinstance(self.value, Length):
            return False
        small = self.group in (Group.SURE, Group.MOVES)
        return small and bool(show(self.value, display).hidden)

    def text(self, display: Display = Display()) -> str:
        """The size as shown, rounded once."""
        if isinstance(self.value, Length):
            if self.in_decimals(display):
                return fine(self.value, display)
            return str(show(self.value, display))
        if isinstance(self.value, Angle):
            return str(self.value)
        if self.kind is Kind.MONEY:
            return str(Money(int(self.value), self.unit))
        if self.unit in _SHOWN:
            return in_unit(self.value, self.unit, display)
        number = (
            f"{float(self.value):,.4g}"
            if self.kind is not Kind.COUNT
            else f"{self.value}"
        )
        return f"{number} {self.unit}".strip()


# Exact: NIST SP 811 (2008), appendix B.8; 1 US gallon is 231 in³ and 128 fl oz.
GRAMS_PER_POUND = Fraction("453.59237")
ML_PER_FLUID_OUNCE = Fraction("29.5735295625")
KG_M3_PER_LB_FT3 = GRAMS_PER_POUND / 1000 / Fraction("0.3048") ** 3


def in_unit(value: Fraction | int, unit: str, display: Display) -> str:
    """A plain number kept in ``unit`` as the shop's system shows it.

    The other system follows in brackets where the display asks for both.
    """
    shown = {system: text(Fraction(value)) for system, text in _SHOWN[unit].items()}
    here = shown.pop(display.unit)
    (there,) = shown.values()
    return f"{here} ({there})" if display.both and there != here else here


def _figure(value: Fraction, unit: str) -> str:
    return f"{float(value):,.4g} {unit}"


def _stepped(
    small: tuple[Fraction | int, str], large: tuple[Fraction | int, str]
) -> Callable[[Fraction], str]:
    """In the small unit until there is one of the large, three figures either way."""

    def shown(value: Fraction) -> str:
        per, unit = large if abs(value) >= large[0] else small
        return f"{float(value / per):,.3g} {unit}"

    return shown


_SQUARE_INCH, _SQUARE_CM = NM_PER_INCH**2, (10 * NM_PER_MM) ** 2
# Areas and volumes are kept in whole nm² and nm³ and read in the shop's units.
_SHOWN: dict[str, dict[Unit, Callable[[Fraction], str]]] = {
    "nm2": {
        Unit.INCH: lambda nm2: (
            _figure(nm2 / _SQUARE_INCH, "in²")
            if nm2 < 144 * _SQUARE_INCH
            else _figure(nm2 / (144 * _SQUARE_INCH), "ft²")
        ),
        # From a tenth of a square metre: four figures of cm² say less.
        Unit.MILLIMETRE: lambda nm2: (
            _figure(nm2 / _SQUARE_CM, "cm²")
            if nm2 < 1000 * _SQUARE_CM
            else _figure(nm2 / (10_000 * _SQUARE_CM), "m²")
        ),
    },
    "nm3": {
        Unit.INCH: lambda nm3: _figure(nm3 / NM_PER_INCH**3, "in³"),
        Unit.MILLIMETRE: lambda nm3: _figure(nm3 / (100 * NM_PER_MM) ** 3, "litres"),
    },
    "g": {
        Unit.INCH: _stepped((GRAMS_PER_POUND / 16, "oz"), (GRAMS_PER_POUND, "lb")),
        Unit.MILLIMETRE: _stepped((1, "g"), (1000, "kg")),
    },
    "ml": {
        Unit.INCH: _stepped(
            (ML_PER_FLUID_OUNCE, "fl oz"), (32 * ML_PER_FLUID_OUNCE, "qt")
        ),
        Unit.MILLIMETRE: _stepped((1, "ml"), (1000, "l")),
    },
    "kg/m3": {
        Unit.INCH: lambda value: _figure(value / KG_M3_PER_LB_FT3, "lb/ft³"),
        Unit.MILLIMETRE: lambda value: _figure(value, "kg/m³"),
    },
}
