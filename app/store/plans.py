"""Cutting plans, what a design wants cut, and what of it has been cut."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.length import Length
from app.core.movement import MovementKind
from app.core.part import Dimensions, Grain
from app.store.rack import standing
from app.store.schema import (
    DesignRow,
    GlueUpRow,
    MovementLine,
    MovementRow,
    PartRow,
    PlanRow,
    StockRow,
)

GONE = (MovementKind.DISCARDED, MovementKind.LOST, MovementKind.GIVEN_AWAY)


@dataclass(frozen=True, slots=True)
class Wanted:
    """Equal blanks that a design wants from the saw.

    ``size`` has its length along the grain. ``strip``: it goes into a panel.
    """

    key: str
    name: str
    quantity: int
    species: str
    size: Dimensions
    may_turn: bool
    strip: bool


def latest(work: Session, episode_id: int) -> PlanRow | None:
    """The plan made last for an episode."""
    return work.scalar(
        select(PlanRow)
        .where(PlanRow.episode_id == episode_id)
        .order_by(PlanRow.id.desc())
        .limit(1)
    )


def wanted(work: Session, episode_id: int) -> tuple[Wanted, ...] | None:
    """Strips of the glue-ups and parts from none; None without a design."""
    row = work.scalar(select(DesignRow).where(DesignRow.episode_id == episode_id))
    if row is None:
        return None
    strips = [one for glue_up in row.glue_ups for one in _strips(glue_up)]
    parts = [_part(part) for part in row.parts if not part.glue_up]
    return (*strips, *parts)


def _strips(row: GlueUpRow) -> list[Wanted]:
    return [
        Wanted(
            f"{row.key}.strip-{number}",
            f"{row.name} strip" + (f" {number}" if len(row.strips) > 1 else ""),
            strip["quantity"] * row.quantity,
            strip["species"],
            Dimensions(
                Length(strip["length_nm"]),
                Length(strip["width_nm"]),
                Length(strip["thickness_nm"]),
            ),
            may_turn=False,
            strip=True,
        )
        for number, strip in enumerate(row.strips, 1)
    ]


def _part(row: PartRow) -> Wanted:
    along, across = Length(row.blank_length_nm), Length(row.blank_width_nm)
    if row.grain == Grain.WIDTH:
        along, across = across, along
    size = Dimensions(along, across, Length(row.blank_thickness_nm))
    turns = row.grain == Grain.NONE
    return Wanted(row.key, row.name, row.quantity, row.species, size, turns, False)


def still_wanted(work: Session, episode_id: int) -> tuple[Wanted, ...] | None:
    """What the design wants and has not been cut yet, or was lost since."""
    all_of_it = wanted(work, episode_id)
    if all_of_it is None:
        return None
    there = _cut(work, episode_id)
    left = []
    for one in all_of_it:
        missing = one.quantity - sum(
            count
            for (key, size), count in there.items()
            if key == one.key and _does(one, size)
        )
        if missing > 0:
            left.append(
                Wanted(
                    one.key,
                    one.name,
                    missing,
                    one.species,
                    one.size,
                    one.may_turn,
                    one.strip,
                )
            )
    return tuple(left)


def _does(one: Wanted, size: tuple[int, int, int]) -> bool:
    """Whether a piece that was cut is large enough for what is wanted now."""
    needs = (one.size.length.nm, one.size.width.nm)
    straight = size[0] >= needs[0] and size[1] >= needs[1]
    turned = one.may_turn and size[1] >= needs[0] and size[0] >= needs[1]
    return size[2] >= one.size.thickness.nm and (straight or turned)


def _cut(work: Session, episode_id: int) -> Counter[tuple[str, tuple[int, int, int]]]:
    """How many blanks of each key and size stand as cut and were not lost."""
    found: Counter[tuple[str, tuple[int, int, int]]] = Counter()
    query = (
        select(MovementLine.side, MovementLine.quantity, MovementRow.kind, StockRow)
        .join(MovementRow, MovementRow.id == MovementLine.movement_id)
        .join(StockRow, StockRow.id == MovementLine.stock_id)
        .where(StockRow.episode_id == episode_id, StockRow.part_key != "")
    )
    for side, quantity, kind, stock in work.execute(standing(query)):
        key = (stock.part_key, (stock.length_nm, stock.width_nm, stock.thickness_nm))
        if side == "made" and kind == MovementKind.CUT:
            found[key] += quantity
        elif side == "taken" and kind in GONE:
            found[key] -= quantity
    return found
