"""Parts that a plan has as strips: glueing them up into the part's blank."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy.orm import Session

from app.core import shopwork
from app.core.cutting.glued import part_and_strips
from app.core.errors import NotFound, WorkshopError
from app.core.inputs import read
from app.core.length import Length
from app.core.movement import PanelStrip
from app.core.part import Dimensions, Grain, Part
from app.services import built, designs, episodes, rack_work, settings
from app.services.building import Glueing
from app.services.built import Waiting
from app.services.rack_work import Clock
from app.store import building as store
from app.store.workspace import Workspace


@dataclass(frozen=True, slots=True)
class GluedPart:
    """Strips on the rack for one part: ``strips`` make one, ``possible`` can be made.

    ``lacking`` strips are not cut yet for the next one.
    """

    key: str
    name: str
    size: Dimensions
    strips: int
    width: Length
    there: int
    possible: int
    lacking: int


def show(workspace: Workspace, episode_id: int) -> tuple[GluedPart, ...]:
    """The parts to glue up from strips that wait for it."""
    with workspace.read() as work:
        waiting = store.waiting(work, episode_id)
        parts = _parts(work, episode_id) if any(map(part_and_strips, waiting)) else {}
        return tuple(
            _glued(key, parts[made[0]], made[1], waiting)
            for key in waiting
            if (made := part_and_strips(key)) and made[0] in parts
        )


def _parts(work: Session, episode_id: int) -> dict[str, Part]:
    design = designs.within(work, episode_id)
    return {part.key: part for part in design.parts} if design else {}


def _glued(key: str, part: Part, strips: int, waiting: Waiting) -> GluedPart:
    there = built.count(waiting[key])
    return GluedPart(
        key=key,
        name=part.name,
        size=_blank(part),
        strips=strips,
        width=waiting[key][0].piece.size.width,
        there=there,
        possible=there // strips,
        lacking=-there % strips,
    )


def _blank(part: Part) -> Dimensions:
    """The blank with its length along the grain."""
    size = part.blank
    if part.grain is Grain.WIDTH:
        return Dimensions(size.width, size.length, size.thickness)
    return size


def glue_up(
    workspace: Workspace,
    slug: str,
    number: int,
    key: str,
    typed: Mapping[str, str],
    clock: Clock,
) -> None:
    """Record that strips became blanks of their part.

    The size is the blank's where none is typed. Raises WorkshopError where strips
    are missing or do not make it, NotFound where the design has no such part.
    """
    with workspace.write() as work:
        episode_id = episodes.within(work, slug, number).id
        made = part_and_strips(key)
        part = _parts(work, episode_id).get(made[0]) if made else None
        if made is None or part is None:
            raise NotFound(f"The design has no part to glue up as “{key}” any more.")
        known = settings.within(work)
        given = read(Glueing, rack_work.asked(Glueing, typed), known.shop)
        blank = _blank(part)
        size = Dimensions(
            given.length or blank.length,
            given.width or blank.width,
            given.thickness or blank.thickness,
        )
        piles = store.waiting(work, episode_id).get(key, ())
        if not piles:
            raise WorkshopError(
                f"No strips for {part.name} are on the rack. Cut them first.",
                input="quantity",
            )
        taken = built.taking(piles, given.quantity * made[1], f"strips of {part.name}")
        strip = piles[0].piece
        movement = shopwork.glued_up(
            taken,
            [PanelStrip(strip.species, strip.size.width)] * made[1],
            size,
            given.quantity,
            name=part.name,
            part_key=part.key,
        )
        day = typed.get("on", "")
        rack_work.record(work, movement, day, clock, episode_id=episode_id)
