"""How far the shelves sag, with the working, and what would be stiffer."""

from __future__ import annotations

from fractions import Fraction

from app.core import closing
from app.core.forms._bench import shop_text
from app.core.forms._book import TRADE
from app.core.forms._carcass import Carcass
from app.core.length import Length, Unit, inches, mm
from app.core.shop import Shop
from app.core.size import Group, Kind, Size
from app.core.stiffness import CREEP, Stiffness, sag, second_moment
from app.core.table import Table

BEAM = "FPL-GTR-190 (2010), chapter 9, deflection of beams"
YEARS = "FPL-GTR-190 (2010), chapter 5, time under load; from memory"
THICKNESSES = {
    Unit.INCH: tuple(map(inches, ("1/2", "5/8", "3/4", "1", "1 1/4", "1 1/2"))),
    Unit.MILLIMETRE: tuple(map(mm, (12, 15, 18, 22, 25, 30))),
}


def sag_sizes(carcass: Carcass, shop: Shop) -> tuple[Size, ...]:
    """Sag at once and after years, and what would go unseen; none if unpublished."""
    modulus = carcass.modulus
    if modulus is None:
        return ()
    loaded = _sagged(carcass, carcass.load)
    whole = _sagged(carcass, carcass.load + carcass.own_load)
    found = [
        _size(
            "shelf_sag",
            "Sag of a shelf at mid-span, under its load",
            loaded,
            "5 × load × span⁴ / (384 × stiffness × width × thickness³ / 12), the ends "
            "simply supported, span from end to end of the shelf",
            _values(carcass, modulus, shop),
            f"{BEAM}; stiffness: {modulus.source} ({modulus.confidence})",
        ),
        _size(
            "shelf_sag_with_own_weight",
            "With the shelf's own weight",
            whole,
            "the same, load and shelf together",
            f"{float(carcass.load):g} + {float(carcass.own_load):.3g} kg per metre",
            BEAM,
        ),
        _size(
            "shelf_sag_after_years",
            "After years under the load",
            whole * CREEP,
            "twice that of the first day, for wood kept dry",
            f"{CREEP} × {closing.fine(whole, shop.display)}",
            YEARS,
        ),
        *_limits(carcass, shop),
    ]
    return (*found, *_thicker(carcass, shop))


def _sagged(carcass: Carcass, load: Fraction) -> Length:
    return carcass.sag_under(load) or Length(0)


def _values(carcass: Carcass, modulus: Stiffness, shop: Shop) -> str:
    load, stiff = float(carcass.load), float(modulus.gigapascals)
    return (
        f"{load:g} kg/m × 9.80665 m/s², span {shop_text(carcass.shelf_length, shop)}, "
        f"{stiff:.2f} GPa, {shop_text(carcass.shelf_depth, shop)} × "
        f"{shop_text(carcass.thickness, shop)}"
    )


def _size(
    key: str, label: str, value: Length, formula: str, values: str, source: str
) -> Size:
    return Size(
        key, label, Kind.LENGTH, value, formula, values, source, group=Group.SURE
    )


def _limits(carcass: Carcass, shop: Shop) -> list[Size]:
    span = shop_text(carcass.shelf_length, shop)
    return [
        _size(
            "sag_unseen",
            "A sag that the eye does not notice",
            carcass.least_sag,
            "0.02 in for every foot of span",
            f"0.02 / 12 × {span}",
            TRADE,
        ),
        _size(
            "sag_firm",
            "A sag that still feels firm",
            carcass.shelf_length / 360,
            "span divided by 360",
            f"{span} / 360",
            TRADE,
        ),
    ]


def _thicker(carcass: Carcass, shop: Shop) -> list[Size]:
    needed = carcass.thickness_for(carcass.least_sag)
    if needed is None:
        return []
    years = _sagged(carcass, carcass.load + carcass.own_load) * CREEP
    return [
        _size(
            "thickness_for_unseen",
            "Thickness that sags unseen, for years",
            needed,
            "thickness × cube root of (sag after years / sag unseen); a thicker "
            "shelf's own weight not added",
            f"{shop_text(carcass.thickness, shop)} × ∛("
            f"{closing.fine(years, shop.display)} / "
            f"{closing.fine(carcass.least_sag, shop.display)})",
            BEAM,
        )
    ]


def sag_table(carcass: Carcass, shop: Shop) -> Table | None:
    """The same shelf in other thicknesses."""
    modulus = carcass.modulus
    if modulus is None:
        return None
    own = carcass.own_load
    rows = []
    for thick in THICKNESSES[shop.unit]:
        load = carcass.load + own * Fraction(thick.nm, carcass.thickness.nm)
        moment = second_moment(carcass.shelf_depth, thick)
        first = sag(load, carcass.shelf_length, modulus, moment)
        seen = "not seen" if first * CREEP <= carcass.least_sag else "seen"
        rows.append(
            (
                shop_text(thick, shop),
                closing.fine(first, shop.display),
                closing.fine(first * CREEP, shop.display),
                seen,
            )
        )
    return Table(
        key="sag_by_thickness",
        title="The shelf's sag in other thicknesses",
        headings=("Thickness", "At once", "After years", "To the eye"),
        rows=tuple(rows),
        working=f"load {float(carcass.load):g} kg per metre and the shelf's own "
        f"weight, span {shop_text(carcass.shelf_length, shop)}; 0.02 in a foot "
        "of span is not seen",
        source=BEAM,
        group=Group.SURE,
    )
