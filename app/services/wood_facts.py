"""One species: what it weighs, how it moves, what a piece of it comes to.

The JSON document of the ``wood`` command.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from app.core.climate import Climate, read_humidity, read_temperature
from app.core.inputs import LONGEST, refuse
from app.core.length import Length, show
from app.core.measure import BOARD_FOOT_NM3, CUBIC_METRE_NM3, board_feet, cubic_metres
from app.core.moisture import grams, moved
from app.core.plain_text import check_text
from app.core.shop import Shop
from app.core.size import Group, Kind, Size
from app.core.wood import Species, species
from app.core.wood_moves_told import change
from app.services.sizing import size_record

HANDBOOK = "Wood Handbook FPL-GTR-190 (2010)"
EMC = f"{HANDBOOK}, equation 4-5, held against table 4-2"
WEIGHT = f"{HANDBOOK}, chapters 4 and 5: specific gravity at 12 % moisture"
BOARD_FOOT = "144 in³, US Navy engineering-aid training text"
CUTS = ("flat", "quarter")


@dataclass(frozen=True, slots=True)
class Asked:
    """What was typed after the species; empty where it was not."""

    width: str = ""
    thickness: str = ""
    length: str = ""
    cut: str = "flat"
    from_rh: str = ""
    to_rh: str = ""
    temperature: str = ""


def wood_document(name: str, asked: Asked, shop: Shop) -> dict[str, Any]:
    """A species with its sizes, each with its working.

    Raises WorkshopError naming what was typed wrongly: ``species``, ``width``,
    ``thickness``, ``length``, ``cut``, ``from_rh``, ``to_rh`` or ``temperature``.
    """
    check_text(name, input="species")
    wood = species(name, input="species")
    if asked.cut not in CUTS:
        raise refuse("cut", f"“{asked.cut[:20]}” is neither flat nor quarter.", "flat")
    piece = _Piece(wood, asked, shop)
    sizes = [*piece.of_the_wood(), *piece.amounts(), *piece.movement()]
    return {
        "species": wood.name,
        "botanical": wood.botanical,
        "sizes": [size_record(size, shop) for size in sizes],
        "sources": _sources(wood, sizes),
    }


def _sources(wood: Species, sizes: list[Size]) -> list[str]:
    """Where the species' row was read, how sure it is, and what the sizes name."""
    row = f"{wood.source} ({wood.confidence})"
    note = [wood.note[0].upper() + wood.note[1:]] if wood.note else []
    return list(dict.fromkeys((row, *note, *(size.source for size in sizes))))


class _Piece:
    """A piece of one species, in the shop's display."""

    def __init__(self, wood: Species, asked: Asked, shop: Shop) -> None:
        self.wood, self.asked, self.shop = wood, asked, shop
        self.width = self._length("width")
        self.thickness = self._length("thickness")
        self.length = self._length("length")

    def _length(self, name: str) -> Length | None:
        text: str = getattr(self.asked, name)
        if not text:
            return None
        check_text(text, input=name)
        found = Length.read(text, self.shop.unit, input=name)
        if not Length(0) < found <= LONGEST:
            longest = self._show(LONGEST)
            nearest = longest if found else "1 in"
            message = f"A {name} is more than nothing and at most {longest}."
            raise refuse(name, message, nearest)
        return found

    def _show(self, length: Length) -> str:
        return show(length, self.shop.display).text

    def of_the_wood(self) -> list[Size]:
        """What holds of any piece."""
        wood = self.wood
        gravity = wood.specific_gravity
        rates = (
            ("tangential", wood.coefficient_tangential, wood.shrinkage_tangential),
            ("radial", wood.coefficient_radial, wood.shrinkage_radial),
        )
        density = Size(
            "density",
            "Density at 12 % moisture",
            Kind.RATIO,
            gravity * 1120,
            "specific gravity at 12 % × 1000 kg/m³ × 1.12 for the water in it",
            f"{float(gravity):.2f} × 1000 × 1.12",
            WEIGHT,
            "kg/m3",
        )
        found = [density]
        for way, coefficient, shrinkage in rates:
            found += [_coefficient(wood, way, coefficient), _shrinkage(way, shrinkage)]
        return found

    def amounts(self) -> list[Size]:
        """Board feet, cubic metres and weight, where all three sides are known."""
        sides = (self.length, self.width, self.thickness)
        if not all(sides):
            return []
        volume = 1
        for side in sides:
            volume *= side.nm if side else 0
        by = " × ".join(self._show(side) for side in sides if side)
        feet, metres = board_feet(volume), cubic_metres(volume)
        foot = BOARD_FOOT_NM3 / CUBIC_METRE_NM3
        return [
            Size(
                "board_feet",
                "Board feet, true volume",
                Kind.VOLUME,
                feet,
                "length × width × thickness, over the volume of a board foot",
                f"{by} / {foot:.9f} m³",
                BOARD_FOOT,
                "board feet",
            ),
            Size(
                "cubic_metres",
                "Cubic metres",
                Kind.VOLUME,
                metres,
                "length × width × thickness",
                by,
                "solid geometry",
                "m³",
            ),
            Size(
                "mass",
                "Weight at 12 % moisture",
                Kind.MASS,
                grams(volume, self.wood),
                "volume × density",
                f"{float(metres):.6g} m³ × "
                f"{float(self.wood.specific_gravity * 1120):g} kg/m³",
                WEIGHT,
                "g",
            ),
        ]

    def movement(self) -> list[Size]:
        """Between two airs: what the wood comes to, and each side's change."""
        airs = self._airs()
        if airs is None:
            return []
        start, end = airs
        found = [
            self._moisture("emc_from", "Moisture at the start", start),
            self._moisture("emc_to", "Moisture at the end", end),
        ]
        for name, side in (("width", self.width), ("thickness", self.thickness)):
            if side:
                found.append(self._change(name, side, start.moisture, end.moisture))
        return found

    def _airs(self) -> tuple[Climate, Climate] | None:
        asked = self.asked
        if not (asked.from_rh or asked.to_rh):
            if asked.temperature:
                message = "A temperature needs both humidities: type from-rh and to-rh."
                raise refuse("from_rh", message, "45 %")
            return None
        for name in ("from_rh", "to_rh"):
            if not getattr(asked, name):
                message = "Movement is between two humidities: type both."
                raise refuse(name, message, "45 %")
        warm = self.shop.air_now.celsius
        if asked.temperature:
            warm = read_temperature(asked.temperature, input="temperature")
        return (
            Climate(read_humidity(asked.from_rh, input="from_rh"), warm),
            Climate(read_humidity(asked.to_rh, input="to_rh"), warm),
        )

    def _moisture(self, key: str, label: str, air: Climate) -> Size:
        return Size(
            key,
            label,
            Kind.RATIO,
            air.moisture,
            "what wood comes to in air of this humidity and temperature, to a tenth",
            air.text(self.shop.unit),
            EMC,
            "%",
        )

    def _change(self, name: str, side: Length, start: Fraction, end: Fraction) -> Size:
        """Flat-sawn width lies along the rings; quarter-sawn width across them."""
        tangential = (name == "width") == (self.asked.cut == "flat")
        way = "tangential" if tangential else "radial"
        moves = moved(side, self.wood, tangential=tangential, start=start, end=end)
        return Size(
            f"{name}_change",
            f"Change of {name}, {self.asked.cut}-sawn, {way}",
            Kind.LENGTH,
            moves.change,
            f"{name} × change for each percent × percents of moisture; below 0 it "
            "shrinks",
            f"{self._show(side)} × {moves.values}",
            moves.source,
            group=Group.MOVES,
        )


def _coefficient(wood: Species, way: str, coefficient: Fraction) -> Size:
    return Size(
        f"coefficient_{way}",
        f"Change for each percent of moisture, {way}",
        Kind.RATIO,
        coefficient,
        "share of the size for each percent of moisture, between 6 and 14 %",
        f"{float(coefficient):.5f}",
        f"{HANDBOOK}, {wood.coefficient_basis}",
    )


def _shrinkage(way: str, shrinkage: Fraction) -> Size:
    return Size(
        f"shrinkage_{way}",
        f"Shrinkage from green to oven-dry, {way}",
        Kind.RATIO,
        shrinkage,
        "percent of the green size",
        f"{float(shrinkage):g} %",
        f"{HANDBOOK}, tables 4-3 and 4-4",
        "%",
    )


def in_words(document: dict[str, Any], shop: Shop) -> str:
    """The document for reading: a line a size, then the sources.

    A movement is less than a tape shows, so it is told finer.
    """
    lines = [f"{document['species']} ({document['botanical']})"]
    for size in document["sizes"]:
        text = change(Length(size["nm"]), shop) if "nm" in size else size["text"]
        lines.append(f"{size['label']}: {text}")
    lines += ["", "Sources:", *(f"  {source}" for source in document["sources"])]
    return "\n".join(lines)
