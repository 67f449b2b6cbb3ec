"""What a finished build takes off the rack and makes: parts, spares, kerf, scrap."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from app.core import shopwork, spare_wood
from app.core.cutting.glued import part_and_strips
from app.core.design import Design
from app.core.errors import WorkshopError
from app.core.length import Length
from app.core.movement import Movement, Taken
from app.core.panel_cuts import kerf_and_scrap
from app.core.part import GlueUp, Part
from app.core.shop import Shop
from app.store.rack import Pile

Waiting = Mapping[str, Sequence[Pile]]


def left_of(design: Design, finished: Counter[str]) -> tuple[Part, ...]:
    """The parts still to be built, with how many; spares are none of them."""
    return tuple(
        replace(part, quantity=part.quantity - finished[part.key])
        for part in design.parts
        if not part.spare and part.quantity > finished[part.key]
    )


def missing(design: Design, left: Sequence[Part], waiting: Waiting) -> list[str]:
    """What is not there yet to build the parts that are left, in sentences."""
    found = []
    for part in left:
        there = count(waiting.get(part.key, ()))
        if not part.glue_up and there < part.quantity:
            done = "glued up" if _has_strips(part, waiting) else "cut"
            found.append(f"{part.quantity - there} × {part.name} is not {done} yet.")
    for item, needed in _panels_needed(design, left):
        there = count(waiting.get(item.key, ()))
        if there < needed:
            done = "ripped to width" if item.single else "glued up"
            found.append(f"{needed - there} × {item.name} is not {done} yet.")
    return found


def _has_strips(part: Part, waiting: Waiting) -> bool:
    """Whether strips wait that make one of it."""
    found = ((part_and_strips(key), piles) for key, piles in waiting.items())
    return any(
        made and made[0] == part.key and count(piles) >= made[1]
        for made, piles in found
    )


def _panels_needed(design: Design, left: Sequence[Part]) -> list[tuple[GlueUp, int]]:
    """How many panels of each glue-up the parts that are left come out of."""
    found = []
    for item in design.glue_ups:
        wanted = sum(part.quantity for part in left if part.glue_up == item.key)
        whole = sum(
            part.quantity
            for part in design.parts
            if part.glue_up == item.key and not part.spare
        )
        if wanted:
            # So many of its panels as so many of its parts, rounded up.
            found.append((item, -(-item.quantity * wanted // whole)))
    return found


@dataclass(frozen=True, slots=True)
class _Sawn:
    """What is taken for the parts; kerf and scrap in nm³ beyond the spares."""

    taken: list[Taken]
    spares: list[spare_wood.Spare]
    kerf: int = 0
    scrap: int = 0


def movement(
    design: Design, left: Sequence[Part], waiting: Waiting, shop: Shop, *, keep: bool
) -> Movement:
    """Blanks and panels become the parts that are left.

    Spares are scrap, or go back to the rack as offcuts where ``keep`` says so.
    """
    sawn = _from_panels(design, left, waiting, shop)
    blanks = _spare_blanks(design, waiting)
    spares = [*blanks, *sawn.spares]
    taken = [line for spare in blanks for line in spare.taken]
    for part in left:
        if not part.glue_up:
            taken += taking(waiting[part.key], part.quantity, part.name)
    wanted = [
        shopwork.PartWanted(part.key, part.name, part.quantity, part.volume)
        for part in left
    ]
    return shopwork.built(
        [*taken, *sawn.taken],
        wanted,
        kept=spare_wood.kept(spares) if keep else (),
        kerf=sawn.kerf,
        scrap=sawn.scrap + (0 if keep else sum(spare.volume for spare in spares)),
    )


def _from_panels(
    design: Design, left: Sequence[Part], waiting: Waiting, shop: Shop
) -> _Sawn:
    sawn = _Sawn([], [])
    for item, needed in _panels_needed(design, left):
        panels = taking(waiting[item.key], needed, item.name)
        beside = _spares_of(design, item, needed)
        parts = [part for part in left if part.glue_up == item.key] + beside
        kerf, fallen = kerf_and_scrap(panels, parts, _kerf(design, shop))
        sawn = _Sawn(
            [*sawn.taken, *panels],
            [*sawn.spares, *(spare_wood.Spare(p, tuple(panels)) for p in beside)],
            sawn.kerf + kerf,
            sawn.scrap + fallen,
        )
    return sawn


def _spare_blanks(design: Design, waiting: Waiting) -> list[spare_wood.Spare]:
    """Spares that lie on the rack as blanks of their own, as many as there are."""
    found = []
    for part in design.parts:
        piles = waiting.get(part.key, ())
        there = min(count(piles), part.quantity)
        if part.spare and not part.glue_up and there:
            lines = tuple(taking(piles, there, part.name))
            found.append(spare_wood.Spare(replace(part, quantity=there), lines))
    return found


def _spares_of(design: Design, item: GlueUp, panels: int) -> list[Part]:
    """The spares cut along with the parts where all of a glue-up's panels are."""
    if panels < item.quantity:
        return []
    return [part for part in design.parts if part.spare and part.glue_up == item.key]


def _kerf(design: Design, shop: Shop) -> Length:
    """The design's own kerf where it has one, else the shop's."""
    typed = design.inputs.get("kerf", "")
    return Length.read(typed, shop.unit) if typed else shop.kerf


def taking(piles: Sequence[Pile], needed: int, what: str) -> list[Taken]:
    """So many pieces from these piles, in their order.

    Raises WorkshopError where there are fewer.
    """
    there = count(piles)
    if there < needed:
        raise WorkshopError(
            f"{needed} {what} are needed and {there} are on the rack. Cut what is "
            "missing first, or make fewer.",
            input="quantity",
        )
    taken = []
    for pile in piles:
        if needed:
            line = pile.taking(min(needed, pile.quantity))
            needed -= line.quantity
            taken.append(line)
    return taken


def count(piles: Sequence[Pile]) -> int:
    """How many pieces lie in these piles."""
    return sum(pile.quantity for pile in piles)
