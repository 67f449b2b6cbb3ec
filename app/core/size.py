"""A size: a number with its name, its working and its source."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from app.core.angle import Angle
from app.core.length import NM_PER_INCH, NM_PER_MM, Display, Length, Unit, show


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

    def text(self, display: Display = Display()) -> str:
        """The size as shown, rounded once."""
        if isinstance(self.value, Length):
            return str(show(self.value, display))
        if isinstance(self.value, Angle):
            return str(self.value)
        if self.unit in _SHOWN:
            return _SHOWN[self.unit][display.unit](Fraction(self.value))
        number = (
            f"{float(self.value):,.4g}"
            if self.kind is not Kind.COUNT
            else f"{self.value}"
        )
        return f"{number} {self.unit}".strip()


def _figure(value: Fraction, unit: str) -> str:
    return f"{float(value):,.4g} {unit}"


# Areas and volumes are kept in whole nm² and nm³ and read in the shop's units.
_SHOWN: dict[str, dict[Unit, Callable[[Fraction], str]]] = {
    "nm2": {
        Unit.INCH: lambda nm2: _figure(nm2 / NM_PER_INCH**2, "in²"),
        Unit.MILLIMETRE: lambda nm2: _figure(nm2 / (10 * NM_PER_MM) ** 2, "cm²"),
    },
    "nm3": {
        Unit.INCH: lambda nm3: _figure(nm3 / NM_PER_INCH**3, "in³"),
        Unit.MILLIMETRE: lambda nm3: _figure(nm3 / (100 * NM_PER_MM) ** 3, "litres"),
    },
}
