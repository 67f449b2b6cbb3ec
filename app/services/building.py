"""From blanks to parts: glueing panels up, planing them, finishing the build."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from sqlalchemy.orm import Session

from app.core import shopwork
from app.core.design import Design
from app.core.errors import NotFound, WorkshopError
from app.core.inputs import Ask, ask, read
from app.core.length import Length
from app.core.movement import Movement, PanelStrip, Taken
from app.core.panel_cuts import kerf_and_scrap
from app.core.part import Dimensions, GlueUp, Part
from app.core.shop import Shop
from app.services import designs, episodes, rack_work, settings
from app.services.rack_work import Clock
from app.store import building as store
from app.store import thread
from app.store.balance import Balance, of_episode
from app.store.rack import Pile
from app.store.thread import Event
from app.store.workspace import Workspace

Waiting = Mapping[str, Sequence[Pile]]


@dataclass(frozen=True)
class Glueing:
    """What is asked when panels are glued up; measured sizes may be left empty."""

    quantity: int = ask("Panels", Ask.COUNT, default=1, least=1)
    length: Length | None = ask("Length", Ask.LENGTH, default=None)
    width: Length | None = ask("Width", Ask.LENGTH, default=None)
    thickness: Length | None = ask("Thickness", Ask.LENGTH, default=None)


@dataclass(frozen=True, slots=True)
class PanelView:
    """One glue-up of the design: how many are made, how many could be now.

    ``strips`` are its strips as they lie; ``missing`` says what is not cut yet.
    """

    key: str
    name: str
    size: Dimensions
    strips: tuple[PanelStrip, ...]
    wanted: int
    made: int
    possible: int
    missing: str
    on_hand: tuple[Pile, ...]

    @property
    def to_glue(self) -> int:
        """How many are still to be made."""
        return max(self.wanted - self.made, 0)


@dataclass(frozen=True, slots=True)
class BuildingView:
    """The building of an episode. ``missing``: why it cannot be finished yet."""

    panels: tuple[PanelView, ...]
    parts: tuple[Part, ...]
    built: bool
    missing: tuple[str, ...]
    wood: Balance
    records: tuple[Event, ...]


def show(workspace: Workspace, episode_id: int) -> BuildingView | None:
    """How far the build has come; None without a design that can be worked out."""
    with workspace.read() as work:
        design = designs.within(work, episode_id)
        if design is None:
            return None
        waiting = store.waiting(work, episode_id)
        made = store.glued(work, episode_id)
        left = _left(design, store.finished(work, episode_id))
        return BuildingView(
            panels=tuple(
                _panel(item, waiting, made[item.key]) for item in design.glue_ups
            ),
            parts=design.parts,
            built=not left,
            missing=tuple(_missing(design, left, waiting)),
            wood=of_episode(work, episode_id),
            records=thread.of_episode(work, episode_id),
        )


def _panel(item: GlueUp, waiting: Waiting, made: int) -> PanelView:
    counts = [
        (_count(waiting.get(item.strip_key(place), ())), strip)
        for place, strip in enumerate(item.strips)
    ]
    lacking = ", ".join(
        f"{strip.quantity - there} more of {strip.species}"
        for there, strip in counts
        if there < strip.quantity
    )
    return PanelView(
        key=item.key,
        name=item.name,
        size=item.panel,
        strips=_order(item),
        wanted=item.quantity,
        made=made,
        possible=min(there // strip.quantity for there, strip in counts),
        missing=f"A panel still takes {lacking}." if lacking else "",
        on_hand=tuple(waiting.get(item.key, ())),
    )


def _order(item: GlueUp) -> tuple[PanelStrip, ...]:
    return tuple(
        PanelStrip(strip.species, strip.finished_width)
        for strip in item.strips
        for _ in range(strip.quantity)
    )


def _count(piles: Sequence[Pile]) -> int:
    return sum(pile.quantity for pile in piles)


def _left(design: Design, finished: Counter[str]) -> tuple[Part, ...]:
    """The parts still to be built, with how many."""
    return tuple(
        replace(part, quantity=part.quantity - finished[part.key])
        for part in design.parts
        if part.quantity > finished[part.key]
    )


def _missing(design: Design, left: Sequence[Part], waiting: Waiting) -> list[str]:
    """What is not there yet to build the parts that are left, in sentences."""
    found = []
    for part in left:
        there = _count(waiting.get(part.key, ()))
        if not part.glue_up and there < part.quantity:
            found.append(f"{part.quantity - there} × {part.name} is not cut yet.")
    for item, needed in _panels_needed(design, left):
        there = _count(waiting.get(item.key, ()))
        if there < needed:
            found.append(f"{needed - there} × {item.name} is not glued up yet.")
    return found


def _panels_needed(design: Design, left: Sequence[Part]) -> list[tuple[GlueUp, int]]:
    """How many panels of each glue-up the parts that are left come out of."""
    found = []
    for item in design.glue_ups:
        wanted = sum(part.quantity for part in left if part.glue_up == item.key)
        whole = sum(part.quantity for part in design.parts if part.glue_up == item.key)
        if wanted:
            # So many of its panels as so many of its parts, rounded up.
            found.append((item, -(-item.quantity * wanted // whole)))
    return found


def glue_up(
    workspace: Workspace,
    slug: str,
    number: int,
    key: str,
    typed: Mapping[str, str],
    clock: Clock,
) -> None:
    """Glue up panels of the design from the strips cut for them.

    The panel's size is the design's where none is typed. Raises WorkshopError
    where strips are missing or do not make a panel of that size.
    """
    with workspace.write() as work:
        episode_id = episodes.within(work, slug, number).id
        item = _glue_up(_design(work, episode_id), key)
        given = read(
            Glueing, rack_work.asked(Glueing, typed), settings.within(work).shop
        )
        size = Dimensions(
            given.length or item.panel.length,
            given.width or item.panel.width,
            given.thickness or item.panel.thickness,
        )
        taken, order = _strips(item, store.waiting(work, episode_id), given.quantity)
        movement = shopwork.glued_up(
            taken, order, size, given.quantity, name=item.name, part_key=item.key
        )
        _record(work, movement, typed, clock, episode_id)


def _design(work: Session, episode_id: int) -> Design:
    design = designs.within(work, episode_id)
    if design is None:
        raise WorkshopError(
            "There is no design to build yet. Choose the sizes first, under Design."
        )
    return design


def _glue_up(design: Design, key: str) -> GlueUp:
    for item in design.glue_ups:
        if item.key == key:
            return item
    raise NotFound(f"The design has no panel “{key}” any more.")


def _strips(
    item: GlueUp, waiting: Waiting, quantity: int
) -> tuple[list[Taken], tuple[PanelStrip, ...]]:
    """The strips for so many panels, and how one panel lies.

    The order names each strip as the rack does: two names may be one wood.
    """
    taken: list[Taken] = []
    order: list[PanelStrip] = []
    for place, strip in enumerate(item.strips):
        piles = waiting.get(item.strip_key(place), ())
        needed = strip.quantity * quantity
        taken += _from(piles, needed, f"{strip.species} strips for {item.name}")
        lies = PanelStrip(piles[0].piece.species, strip.finished_width)
        order += [lies] * strip.quantity
    return taken, tuple(order)


def _from(piles: Sequence[Pile], needed: int, what: str) -> list[Taken]:
    """So many pieces from these piles, in their order."""
    there = _count(piles)
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


def plane(
    workspace: Workspace,
    slug: str,
    number: int,
    label: str,
    typed: Mapping[str, str],
    clock: Clock,
) -> None:
    """Plane panels of this episode's build; the record names the episode."""
    with workspace.read() as work:
        episode_id = episodes.within(work, slug, number).id
        waiting = store.waiting(work, episode_id).values()
        if label not in {pile.label for piles in waiting for pile in piles}:
            raise NotFound(f"“{label}” is not waiting for this part’s build.")
    rack_work.plane(workspace, label, typed, clock, episode_id)


def finish(
    workspace: Workspace,
    slug: str,
    number: int,
    typed: Mapping[str, str],
    clock: Clock,
) -> None:
    """Record the build: blanks and panels become the design's parts.

    Raises WorkshopError, naming it, where something is not cut or glued up yet,
    or where everything is built already.
    """
    with workspace.write() as work:
        episode_id = episodes.within(work, slug, number).id
        design = _design(work, episode_id)
        left = _left(design, store.finished(work, episode_id))
        waiting = store.waiting(work, episode_id)
        if not left:
            raise WorkshopError(
                "Every part of this design is built already. Take that record back "
                "first if it was wrong."
            )
        if missing := _missing(design, left, waiting):
            raise WorkshopError(f"It cannot be built yet: {' '.join(missing)}")
        movement = _built(design, left, waiting, settings.within(work).shop)
        _record(work, movement, typed, clock, episode_id)


def _built(
    design: Design, left: Sequence[Part], waiting: Waiting, shop: Shop
) -> Movement:
    taken: list[Taken] = []
    for part in left:
        if not part.glue_up:
            taken += _from(waiting[part.key], part.quantity, part.name)
    kerf = scrap = 0
    for item, needed in _panels_needed(design, left):
        panels = _from(waiting[item.key], needed, item.name)
        parts = [part for part in left if part.glue_up == item.key]
        sawn, fallen = kerf_and_scrap(panels, parts, _kerf(design, shop))
        taken += panels
        kerf, scrap = kerf + sawn, scrap + fallen
    wanted = [
        shopwork.PartWanted(part.key, part.name, part.quantity, part.volume)
        for part in left
    ]
    return shopwork.built(taken, wanted, kerf=kerf, scrap=scrap)


def _kerf(design: Design, shop: Shop) -> Length:
    """The design's own kerf where it has one, else the shop's."""
    typed = design.inputs.get("kerf", "")
    return Length.read(typed, shop.unit) if typed else shop.kerf


def undo(
    workspace: Workspace,
    slug: str,
    number: int,
    movement_id: int,
    reason: str,
    clock: Clock,
) -> None:
    """Take back a record of this episode, unless later ones build on it."""
    with workspace.write() as work:
        episode_id = episodes.within(work, slug, number).id
        if movement_id not in {e.id for e in thread.of_episode(work, episode_id)}:
            raise NotFound(f"Record {movement_id} is not one of this part's.")
        rack_work.take_back(work, movement_id, reason, clock)


def _record(
    work: Session,
    movement: Movement,
    typed: Mapping[str, str],
    clock: Clock,
    episode_id: int,
) -> None:
    rack_work.record(work, movement, typed.get("on", ""), clock, episode_id=episode_id)
