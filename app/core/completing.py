"""What follows from any design, whatever its form: quantities and movement.

A form says what is joined, what moves and what is covered; here it becomes sizes,
tables, warnings, and amounts of what is used up.
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace

from app.core import quantities, used_up, wood_moves, wood_moves_told
from app.core.design import Design
from app.core.shop import Shop
from app.core.step import Supply


def complete(design: Design, inputs: object, shop: Shop) -> Design:
    """The design with how it moves and what it takes.

    ``inputs`` are the form's own; those that a form does not ask for (``sawn``,
    ``finish``, ``coats``) leave out what rests on them.
    """
    return _taking(_moving(design, inputs, shop), inputs, shop)


def _moving(design: Design, inputs: object, shop: Shop) -> Design:
    if not design.moving:
        return design
    found = wood_moves.movements(design.moving, getattr(inputs, "sawn", "flat"), shop)
    told = wood_moves_told.warnings(design.moving, found, shop, _labels(inputs))
    return replace(
        design,
        sizes=(*design.sizes, *wood_moves_told.sizes(found, shop)),
        tables=(*design.tables, *wood_moves_told.table(found, shop)),
        warnings=(*design.warnings, *told),
    )


def _labels(inputs: object) -> dict[str, str]:
    if not is_dataclass(inputs):
        return {}
    return {item.name: item.metadata.get("label", "") for item in fields(inputs)}


def _taking(design: Design, inputs: object, shop: Shop) -> Design:
    if not design.parts:
        return design
    woods = quantities.woods(design)
    sizes = quantities.wood_sizes(woods, design.turned)
    tables = [quantities.wood_table(woods, shop, turned=design.turned is not None)]
    liquids = [
        one for one in (used_up.glue(design), used_up.finish_of(design, inputs)) if one
    ]
    discs = _discs(design, inputs)
    if design.finish_area:
        sizes.append(used_up.surface(design))
    sizes += [size for liquid in liquids for size in liquid.sizes]
    if liquids or discs:
        tables.append(used_up.supplies_table(liquids, discs, shop))
    return replace(
        design,
        sizes=(*design.sizes, *sizes),
        tables=(*design.tables, *tables),
        steps=tuple(used_up.with_amounts(design.steps, liquids, discs, shop)),
    )


def _discs(design: Design, inputs: object) -> tuple[Supply, ...]:
    finish = getattr(inputs, "finish", "")
    if not (finish and design.finish_area):
        return ()
    return used_up.sanding(finish, design.finish_area)
