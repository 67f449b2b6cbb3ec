"""Cutting plans, what a design wants cut, and what of it has been cut."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.cutting.glued import STRIP, part_and_strips
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

# How many blanks there are of a key and a size: length, width, thickness, nm.
Cut = Counter[tuple[str, tuple[int, int, int]]]
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


def cut(work: Session, episode_id: int) -> tuple[PlanRow, ...]:
    """The plans of an episode that are cut, the earliest first."""
    query = select(PlanRow).where(
        PlanRow.episode_id == episode_id, PlanRow.cut_on.is_not(None)
    )
    return tuple(work.scalars(query.order_by(PlanRow.id)))


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
    """What the design wants and has not been cut yet, or was lost since.

    A part of which some strips are there, but not all, wants the others.
    """
    all_of_it = wanted(work, episode_id)
    if all_of_it is None:
        return None
    there = _cut(work, episode_id)
    return tuple(left for one in all_of_it for left in _left(one, there))


def _left(one: Wanted, there: Cut) -> Iterator[Wanted]:
    missing = one.quantity - sum(
        count
        for (key, size), count in there.items()
        if key == one.key and _does(one, size)
    )
    for strip, count in _strips_there(one, there).items():
        made = part_and_strips(strip.key)
        assert made is not None
        whole, begun = divmod(count, made[1])
        missing -= whole
        if begun and missing > 0:
            missing -= 1
            yield replace(strip, quantity=made[1] - begun)
    if missing > 0:
        yield replace(one, quantity=missing)


def _strips_there(one: Wanted, there: Cut) -> dict[Wanted, int]:
    """The strips that were cut to glue this part up from, and how many there are."""
    found: dict[Wanted, int] = {}
    for (key, size), count in there.items():
        made = part_and_strips(key)
        if made and made[0] == one.key and count > 0:
            whole = (size[0], size[1] * made[1], size[2])
            if _does(replace(one, may_turn=False), whole):
                strip = replace(
                    one,
                    key=key,
                    name=one.name + STRIP,
                    size=Dimensions(*map(Length, size)),
                    may_turn=False,
                    strip=True,
                )
                found[strip] = found.get(strip, 0) + count
    return found


def _does(one: Wanted, size: tuple[int, int, int]) -> bool:
    """Whether a piece that was cut is large enough for what is wanted now."""
    needs = (one.size.length.nm, one.size.width.nm)
    straight = size[0] >= needs[0] and size[1] >= needs[1]
    turned = one.may_turn and size[1] >= needs[0] and size[0] >= needs[1]
    return size[2] >= one.size.thickness.nm and (straight or turned)


def _cut(work: Session, episode_id: int) -> Cut:
    """How many blanks of each key and size stand as cut and were not lost."""
    found: Cut = Counter()
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
