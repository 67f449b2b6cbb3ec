"""How much wood a design takes, by the true volume, and what it weighs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from app.core.design import Design
from app.core.length import Unit
from app.core.measure import (
    BOARD_FOOT_NM3,
    CUBIC_METRE_NM3,
    board_feet,
    cubic_metres,
    in_board_feet,
    in_litres,
)
from app.core.moisture import grams
from app.core.part import GlueUp
from app.core.shop import Shop
from app.core.size import Group, Kind, Size, in_unit
from app.core.table import Table
from app.core.wood import Species, species_or_plain

EXACT = f"1 board foot is 144 in³, {BOARD_FOOT_NM3 / CUBIC_METRE_NM3:.9f} m³, exactly"
BLANK = "the glued blank, before it is turned"
WEIGHS = "Wood Handbook FPL-GTR-190 ch. 4 and 5: specific gravity at 12 % moisture"


@dataclass(frozen=True, slots=True)
class Wood:
    """What one species comes to: nm³ in the finished parts and to the saw."""

    name: str
    species: Species | None
    finished: int
    rough: int

    @property
    def grams(self) -> Fraction | None:
        """Of the finished parts at 12 percent; None where it is not known."""
        return grams(self.finished, self.species) if self.species else None


def woods(design: Design) -> list[Wood]:
    """Every species of the design, the most first; spares only to the saw."""
    finished: dict[str, int] = {}
    rough: dict[str, int] = {}
    for name, volume in _finished(design):
        finished[name] = finished.get(name, 0) + volume
    for name, volume in _rough(design):
        rough[name] = rough.get(name, 0) + volume
    found = []
    for name in dict.fromkeys((*finished, *rough)):
        known = species_or_plain(name)
        wood = known if isinstance(known, Species) else None
        pair = (finished.get(name, 0), rough.get(name, 0))
        found.append(Wood(known.name, wood, *pair))
    return sorted(_merged(found), key=lambda one: (-one.finished, -one.rough, one.name))


def _merged(found: list[Wood]) -> Iterator[Wood]:
    """One line a species, by whichever of its names it was called."""
    by_name: dict[str, list[Wood]] = {}
    for one in found:
        by_name.setdefault(one.name.casefold(), []).append(one)
    for same in by_name.values():
        volumes = (sum(o.finished for o in same), sum(o.rough for o in same))
        yield Wood(same[0].name, same[0].species, *volumes)


def _finished(design: Design) -> Iterator[tuple[str, int]]:
    """By the shares a part tells, else by those of the panel it is cut from."""
    shares = {one.key: tuple(_shares(one)) for one in design.glue_ups}
    for part in design.parts:
        if part.spare:
            continue
        volume = part.volume * part.quantity
        for name, share in part.woods or shares.get(part.glue_up, ()):
            yield name, round(volume * share)
        if not part.woods and part.glue_up not in shares:
            yield part.species, volume


def _shares(glue_up: GlueUp) -> Iterator[tuple[str, Fraction]]:
    widths = [strip.finished_width.nm * strip.quantity for strip in glue_up.strips]
    for strip, width in zip(glue_up.strips, widths, strict=True):
        yield strip.species, Fraction(width, sum(widths))


def _rough(design: Design) -> Iterator[tuple[str, int]]:
    """What goes to the saw: strips, and the parts that come from no panel."""
    for glue_up in design.glue_ups:
        for strip in glue_up.strips:
            count = strip.quantity * glue_up.quantity
            yield strip.species, strip.blank.volume * count
    for part in design.parts:
        if not part.glue_up:
            yield part.species, part.blank.volume * part.quantity


def wood_sizes(found: list[Wood], turned: int | None = None) -> list[Size]:
    """Board feet and cubic metres of both, and the weight.

    ``turned`` is the wood left, nm³, of a blank that goes on the lathe.
    """
    whole = "the finished build" if turned is None else BLANK
    finished = [(one.name, one.finished) for one in found]
    rough = [(one.name, one.rough) for one in found]
    part = "finished part" if turned is None else "part of the glued blank"
    made = [
        *_volumes("finished", f"Wood in {whole}", finished, part),
        *_volumes("rough", "Wood to the saw, rough", rough, "blank and strip"),
    ]
    known = [one for one in found if one.species]
    if known:
        unknown = [one.name for one in found if not one.species]
        made.append(_weight(known, unknown, whole))
        if turned is not None:
            made.append(_turned_weight(made[-1], finished, turned))
    return made


def _volumes(
    key: str, label: str, woods: list[tuple[str, int]], each: str
) -> list[Size]:
    volume = sum(one for _, one in woods)
    by_wood = (f"{name} {float(cubic_metres(one)):.4g}" for name, one in woods if one)
    formula = f"true volume of every {each}, by geometry"
    feet = Size(
        f"{key}_board_feet",
        f"{label}, board feet",
        Kind.VOLUME,
        board_feet(volume),
        f"{formula}, in board feet",
        f"{float(cubic_metres(volume)):.6g} m³ / "
        f"{BOARD_FOOT_NM3 / CUBIC_METRE_NM3:.9f} m³",
        EXACT,
        "board feet",
        Group.TAKES,
    )
    metres = Size(
        f"{key}_cubic_metres",
        f"{label}, cubic metres",
        Kind.VOLUME,
        cubic_metres(volume),
        formula,
        f"({' + '.join(by_wood)}) m³",
        "solid geometry",
        "m³",
        Group.TAKES,
    )
    return [feet, metres]


def _weight(known: list[Wood], unknown: list[str], whole: str) -> Size:
    without = f", without {', '.join(unknown)}" if unknown else ""
    each = (
        f"{float(cubic_metres(one.finished)):.4g} m³ × 1000 × "
        f"{float(one.species.specific_gravity):.2f} × 1.12"
        for one in known
        if one.species and one.finished
    )
    return Size(
        "weight",
        f"Weight of {whole}{without}",
        Kind.MASS,
        sum((one.grams or Fraction(0) for one in known), Fraction(0)),
        "volume × 1000 kg/m³ × specific gravity at 12 % moisture × 1.12 for the water "
        "in it, each species for itself",
        " + ".join(each),
        WEIGHS,
        "g",
        Group.TAKES,
    )


def _turned_weight(blank: Size, finished: list[tuple[str, int]], turned: int) -> Size:
    """What the lathe leaves, its species as they are shared in the blank."""
    sawn = sum(volume for _, volume in finished)
    assert isinstance(blank.value, Fraction)
    left, whole = (float(cubic_metres(one)) for one in (turned, sawn))
    return Size(
        "turned_weight",
        "Weight when it is turned, about",
        Kind.MASS,
        blank.value * Fraction(turned, sawn),
        "weight of the glued blank × wood left / wood in the blank: as if all its "
        "species were turned away alike",
        f"{float(blank.value):.0f} g × {left:.4g} m³ / {whole:.4g} m³",
        WEIGHS,
        "g",
        Group.TAKES,
    )


def wood_table(found: list[Wood], shop: Shop, *, turned: bool = False) -> Table:
    """A row a species; ``turned``: the parts are a blank for the lathe."""

    def read(volume: int) -> str:
        systems = [in_board_feet(volume), in_litres(volume)]
        here, there = systems if shop.unit is Unit.INCH else reversed(systems)
        return f"{here} ({there})" if shop.display.both else here

    as_glued = "Glued, not yet turned" if turned else "Finished"
    rows = tuple(
        (
            one.name,
            read(one.finished),
            read(one.rough),
            "not known" if one.grams is None else in_unit(one.grams, "g", shop.display),
        )
        for one in found
    )
    return Table(
        "wood_by_species",
        "Wood by species",
        ("Species", as_glued, "To the saw", f"Weight, {as_glued.lower()}"),
        rows,
        "True volumes; what a yard counts and charges is rounded by its own rule. "
        "Weight: volume × 1000 × specific gravity × 1.12",
        WEIGHS,
        Group.TAKES,
    )
