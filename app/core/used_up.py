"""What a design uses up that is not wood: glue, finish, abrasives.

Spread, coverage and a disc's life differ widely by product: the label rules.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from app.core import abrasives, packs
from app.core.design import Design
from app.core.figures import row
from app.core.finishes import Finish, finish
from app.core.length import Display, Unit
from app.core.shop import Shop
from app.core.size import Group, Kind, Size, in_unit
from app.core.step import Step, Supply
from app.core.table import Table

SQUARE_METRE_NM2 = 10**18
GLUE_KEYS = ("pva-glue.spread-rate-single-spread", "pva-glue.density")
# Open pores drink the first coat of glue; common practice, no source.
COATS_ON_END_GRAIN = 2


def _amount(value: Fraction, unit: str, shop: Shop) -> str:
    return in_unit(value, unit, shop.display)


@dataclass(frozen=True, slots=True)
class Liquid:
    """Glue or finish: the sizes that say how much, and the words for its supply."""

    supply: str
    sizes: tuple[Size, ...]
    needed: Fraction  # millilitres
    pack: str

    def line(self, shop: Shop) -> tuple[str, str, str]:
        """Its row in the table of supplies."""
        return self.supply, _amount(self.needed, "ml", shop), self.buy(shop)

    def buy(self, shop: Shop) -> str:
        """What to buy, in the sizes that are sold."""
        return packs.to_buy(self.pack, self.needed, shop.unit)

    def quantity(self, shop: Shop) -> str:
        """For the supply of a step: what all its steps together need.

        In both systems, since it goes out to viewers with the materials.
        """
        here, there = (
            in_unit(self.needed, "ml", Display(unit))
            for unit in sorted(Unit, key=lambda unit: unit is not shop.unit)
        )
        return f"{here} ({there}) in all: {self.buy(shop)}"


def glue(design: Design) -> Liquid | None:
    """Glue by joint area; None where nothing is glued.

    End grain is sized: it gets a first thin coat, and counts twice.
    """
    area = sum(
        joint.area * (COATS_ON_END_GRAIN if joint.end_grain else 1)
        for joint in design.joints
    )
    if not area:
        return None
    spread, density = (Fraction(row("finishing", key)["value"]) for key in GLUE_KEYS)
    needed = Fraction(area, SQUARE_METRE_NM2) * spread / density
    ends = any(joint.end_grain for joint in design.joints)
    formula = "every glue line once"
    formula += ", end grain twice, since it is sized first" if ends else ""
    lines = (
        f"{joint.name} {_square_metres(joint.area)}"
        + (f" × {COATS_ON_END_GRAIN}" if joint.end_grain else "")
        for joint in design.joints
    )
    sizes = (
        _area("glue_area", "Glue lines", area, formula, f"({' + '.join(lines)}) m²"),
        Size(
            "glue",
            "Glue",
            Kind.VOLUME,
            needed,
            "area of the glue lines × spread / density",
            f"{_square_metres(area)} m² × {float(spread):g} g/m² / "
            f"{float(density):g} g/ml",
            _rows_say(GLUE_KEYS),
            "ml",
            Group.TAKES,
        ),
    )
    return Liquid(packs.GLUE, sizes, needed, packs.GLUE)


def finish_of(design: Design, inputs: object) -> Liquid | None:
    """Finish by surface, coats and coverage; None for bare wood."""
    chosen = finish(getattr(inputs, "finish", ""))
    coats: int = getattr(inputs, "coats", 0)
    if chosen is None or not design.finish_area or not coats:
        return None
    covers = Fraction(row("finishing", chosen.coverage)["value"])
    needed = Fraction(design.finish_area, SQUARE_METRE_NM2) * coats / covers * 1000
    return Liquid(
        chosen.name,
        (_finish_size(design.finish_area, chosen, coats, covers, needed),),
        needed,
        packs.FINISH,
    )


def _finish_size(
    area: int, chosen: Finish, coats: int, covers: Fraction, needed: Fraction
) -> Size:
    return Size(
        "finish",
        f"{chosen.name.capitalize()}, {coats} coat{'s' if coats > 1 else ''}",
        Kind.VOLUME,
        needed,
        "surface × coats / what a litre covers in one coat",
        f"{_square_metres(area)} m² × {coats} / {float(covers):g} m²/l",
        _rows_say((chosen.coverage,)),
        "ml",
        Group.TAKES,
    )


def surface(design: Design) -> Size:
    """All that is sanded and finished."""
    formula = "every face that is sanded and takes the finish"
    values = f"{_square_metres(design.finish_area)} m²"
    return _area("finish_area", "Surface", design.finish_area, formula, values)


def _area(key: str, label: str, area: int, formula: str, values: str) -> Size:
    found = (key, label, Kind.AREA, area, formula, values)
    return Size(*found, unit="nm2", group=Group.TAKES)


def _square_metres(area: int) -> str:
    return f"{area / SQUARE_METRE_NM2:.4g}"


def _rows_say(keys: Iterable[str]) -> str:
    """Sources of rows, with how sure each is."""
    told = (
        f"{one['quantity']}: {one['source']}"
        + (", from memory" if one["confidence"] == "memory" else "")
        for one in (row("finishing", key) for key in keys)
    )
    return "; ".join(told)


def sanding(finish_name: str, area: int) -> tuple[Supply, ...]:
    """Discs of each grit up to the last that the finish still grips."""
    count = abrasives.discs(area)
    words = f"{count} disc{'s' if count > 1 else ''}"
    return tuple(
        Supply(f"P{grit} abrasive", words) for grit in abrasives.sequence(finish_name)
    )


def supplies_table(
    liquids: list[Liquid], discs: tuple[Supply, ...], shop: Shop
) -> Table:
    """What to buy that is not wood."""
    rows = [one.line(shop) for one in liquids]
    rows += [(one.name, one.quantity, one.quantity) for one in discs]
    return Table(
        "supplies",
        "Supplies",
        ("Supply", "Needed", "To buy"),
        tuple(rows),
        "Glue by the area of its joints, finish by surface, coats and coverage, up to "
        "the next size that is sold; grits each about 1.5 times the last, a disc for "
        "half a square metre (5 ft²). Spread and coverage differ: the label rules",
        "common practice, no source",
        Group.TAKES,
    )


def with_amounts(
    steps: Iterable[Step], liquids: list[Liquid], discs: tuple[Supply, ...], shop: Shop
) -> Iterator[Step]:
    """The steps, their supplies with how much; sanding by the sequence of grits.

    What a form has put an amount to already stays as it is.
    """
    amounts = {one.supply: one.quantity(shop) for one in liquids}
    for step in steps:
        open_grits = [one for one in step.supplies if _is_open_grit(one)]
        supplies = [
            Supply(one.name, one.quantity or amounts.get(one.name, ""))
            for one in step.supplies
            if not (discs and one in open_grits)
        ]
        if open_grits:
            supplies += discs
        yield replace(step, supplies=tuple(supplies)) if supplies else step


def _is_open_grit(one: Supply) -> bool:
    return one.name.endswith(" abrasive") and not one.quantity
