"""The air that wood lives in: how damp, how warm, and what wood makes of it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from app.core.errors import WorkshopError
from app.core.length import Unit
from app.core.moisture import equilibrium

# Where the sorption equation was held against the handbook's table.
DRIEST_AIR, DAMPEST_AIR = Fraction(0), Fraction(95)
COLDEST, HOTTEST = Fraction(-1), Fraction(93)
TENTH = Fraction(1, 10)


@dataclass(frozen=True, slots=True)
class Climate:
    """Relative humidity in percent and temperature in °C, both to a tenth."""

    humidity: Fraction
    celsius: Fraction

    @property
    def fahrenheit(self) -> Fraction:
        """The temperature in °F, exactly."""
        return self.celsius * 9 / 5 + 32

    @property
    def moisture(self) -> Fraction:
        """What wood comes to in it: percent, to a tenth as the handbook prints it.

        Source: Wood Handbook, FPL-GTR-190 (2010), equation 4-5 and table 4-2.
        """
        return _moisture(self)

    @property
    def numbers(self) -> tuple[int, int]:
        """To keep: tenths of a percent, tenths of a degree Celsius."""
        return round(self.humidity * 10), round(self.celsius * 10)

    @classmethod
    def of_numbers(cls, humidity: int, celsius: int) -> Climate:
        """From what was kept; ValueError for air the table does not hold."""
        if type(humidity) is not int or type(celsius) is not int:
            raise ValueError("a climate is kept in whole tenths")
        air = cls(humidity * TENTH, celsius * TENTH)
        if not (
            DRIEST_AIR <= air.humidity <= DAMPEST_AIR
            and COLDEST <= air.celsius <= HOTTEST
        ):
            raise ValueError(f"no air is like {air.text(Unit.MILLIMETRE)}")
        return air

    def text(self, unit: Unit) -> str:
        """``30 % at 70 °F``."""
        return _text(self, unit)

    def degrees(self, unit: Unit) -> str:
        """The temperature as the shop's system has it; reads back to the same."""
        if unit is Unit.INCH:
            return f"{figure(self.fahrenheit)} °F"
        return f"{figure(self.celsius)} °C"


# A design asks for the same three airs many times over.
@lru_cache(maxsize=64)
def _moisture(air: Climate) -> Fraction:
    reached = equilibrium(float(air.fahrenheit), float(air.humidity))
    return Fraction(round(reached * 10), 10)


@lru_cache(maxsize=64)
def _text(air: Climate, unit: Unit) -> str:
    return f"{figure(air.humidity)} % at {air.degrees(unit)}"


def figure(number: Fraction) -> str:
    """A number to a tenth, whole where it is."""
    return f"{float(number):.1f}".removesuffix(".0")


def read_humidity(text: str, *, input: str) -> Fraction:
    """Relative humidity as typed: ``45 %`` or ``45``. Raises WorkshopError."""
    plain = re.fullmatch(r"\s*([0-9]{1,3}(?:\.[0-9]{1,3})?)\s*%?\s*", text, re.ASCII)
    percent = Fraction(plain[1]) if plain else Fraction(-1)
    if not plain or not DRIEST_AIR <= percent <= DAMPEST_AIR:
        raise WorkshopError(
            f"“{text[:20]}” is no relative humidity this can reckon with. Type it like "
            f"45 %; {DRIEST_AIR} to {DAMPEST_AIR} % will do.",
            input=input,
            nearest=f"{DAMPEST_AIR} %" if percent > DAMPEST_AIR else "45 %",
        )
    return _tenths(percent)


def read_temperature(text: str, *, input: str) -> Fraction:
    """A temperature as typed, ``21 C`` or ``70 F``, in °C. Raises WorkshopError.

    The letter is asked for: 30 is a warm room in one and frost in the other.
    """
    pattern = r"\s*([-+−]?[0-9]{1,3}(?:\.[0-9]{1,3})?)\s*(?:°|deg)?\s*([CFcf])\s*"
    plain = re.fullmatch(pattern, text)
    if not plain:
        raise WorkshopError(
            f"“{text[:20]}” is no temperature. Type it with its letter, like 21 C or "
            "70 F.",
            input=input,
            nearest="21 C",
        )
    degrees = Fraction(plain[1].replace("−", "-"))
    if plain[2] in "Ff":
        degrees = (degrees - 32) * 5 / 9
    celsius = _tenths(degrees)
    if not COLDEST <= celsius <= HOTTEST:
        raise WorkshopError(
            f"The moisture table holds from 31 to 199 °F ({COLDEST} to {HOTTEST} °C); "
            f"{text.strip()[:20]} is beyond it.",
            input=input,
            nearest=f"{COLDEST if celsius < COLDEST else HOTTEST} C",
        )
    return celsius


def _tenths(number: Fraction) -> Fraction:
    return Fraction(round(number * 10), 10)
