"""The shop as the arithmetic sees it: machines, allowances, policies."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, fields, replace
from fractions import Fraction

from app.core.angle import Angle
from app.core.climate import Climate
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
    # From which size on an offcut counts in full; a smaller one counts less.
    offcut_full_length: Length = inches("48")
    offcut_full_width: Length = inches("6")
    # What the saw takes while a plan's boards are cut up; nothing: no limit known.
    widest_crosscut: Length = Length(0)
    longest_rip: Length = Length(0)
    shortest_sawn: Length = Length(0)
    # How long a plan of cuts may be looked for, seconds; it mostly ends sooner.
    plan_seconds: int = 10
    # Wide parts may be glued up from strips no narrower; nothing: each from one board.
    glue_narrowest: Length = Length(0)
    # Boards up to so wide are resawn on edge; nothing: the shop resaws none. Then
    # what such a cut takes, and what flattening both faces takes off each board.
    resaw_height: Length = Length(0)
    resaw_kerf: Length = inches("1/16")
    resaw_allowance: Length = inches("1/16")
    most_tilt: Angle = field(default_factory=lambda: Angle.of(45))
    most_gauge: Angle = field(default_factory=lambda: Angle.of(60))
    # What sanding takes off each face of a planed piece; nothing: planing includes it.
    sanding: Length = Length(0)
    longest_crosscut: Length = inches("24")
    shortest_jointed: Length = inches("12")
    shortest_planed: Length = inches("12")
    widest_planed: Length = inches("12")
    narrowest_rip: Length = inches("3/4")
    # The shop as the wood is measured there, then a heated room in winter and a
    # damp summer: what is built must live in both.
    air_now: Climate = Climate(Fraction(45), Fraction(20))
    air_dry: Climate = Climate(Fraction(30), Fraction(20))
    air_damp: Climate = Climate(Fraction(65), Fraction(25))


# What a form's arithmetic takes from the shop, by the words for a sentence; the
# unit counts too, since rough sizes go up to the marks of its tape.
DESIGNED_BY = {
    "kerf": "kerf",
    "over_length": "allowance in length",
    "over_width": "allowance in width",
    "over_thickness": "allowance in thickness",
    "most_tilt": "limit of tilt",
    "most_gauge": "limit of the mitre gauge",
    "sanding": "allowance for sanding",
    "longest_crosscut": "longest crosscut",
    "shortest_jointed": "shortest piece for the jointer",
    "shortest_planed": "shortest piece for the planer",
    "widest_planed": "widest board for the planer",
    "narrowest_rip": "narrowest rip",
    "air_now": "air",
    "air_dry": "driest climate",
    "air_damp": "dampest climate",
}
# A climate is kept as two numbers, each under the climate's name and its own.
HUMIDITY, CELSIUS = "_humidity", "_celsius"


def numbers(shop: Shop, names: Iterable[str]) -> dict[str, int]:
    """Settings to keep: lengths in nm, angles in thousandths of a degree.

    A climate: tenths of a percent and of a degree Celsius.
    """
    found: dict[str, int] = {}
    for name in names:
        value = getattr(shop, name)
        if isinstance(value, int):
            found[name] = value
        elif isinstance(value, Climate):
            found[name + HUMIDITY], found[name + CELSIUS] = value.numbers
        elif isinstance(value, Angle):
            found[name] = round(value.degrees * 1000)
        else:
            found[name] = value.nm
    return found


def with_numbers(shop: Shop, kept: Mapping[str, int]) -> Shop:
    """The shop with what was kept in place of its own; what it lacks is left out."""
    changes: dict[str, Length | Angle | Climate | int] = {}
    for item in fields(Shop):
        name, known = item.name, getattr(shop, item.name)
        if isinstance(known, Climate) and {name + HUMIDITY, name + CELSIUS} <= {*kept}:
            pair = (kept[name + HUMIDITY], kept[name + CELSIUS])
            changes[name] = Climate.of_numbers(*pair)
        elif isinstance(known, int) and name in kept:
            changes[name] = kept[name]
        elif isinstance(known, Length) and name in kept:
            changes[name] = Length(kept[name])
        elif isinstance(known, Angle) and name in kept:
            changes[name] = Angle.of(kept[name] / 1000)
    return replace(shop, **changes)  # type: ignore[arg-type]


def design_facts(shop: Shop) -> dict[str, int | str]:
    """What a design is worked out with, to keep beside its inputs."""
    return {"unit": shop.unit.value, **numbers(shop, DESIGNED_BY)}


def as_designed(shop: Shop, kept: Mapping[str, int | str]) -> Shop:
    """The shop as it was when a design was kept, shown as it is read today.

    Nothing kept: the shop as it is.
    """
    names = numbers(shop, DESIGNED_BY)
    settled = {name: int(kept[name]) for name in names if name in kept}
    unit = Unit(str(kept.get("unit", shop.unit.value)))
    return replace(with_numbers(shop, settled), unit=unit)


def changed(then: Shop, now: Shop) -> tuple[str, ...]:
    """Words for what a design is worked out with and is no longer the same."""
    return tuple(
        words
        for name, words in DESIGNED_BY.items()
        if getattr(then, name) != getattr(now, name)
    )
