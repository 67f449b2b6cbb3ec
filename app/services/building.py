"""From blanks to parts: glueing panels up, planing them, finishing the build."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy.orm import Session

from app.core import shopwork
from app.core.design import Design
from app.core.errors import NotFound, WorkshopError
from app.core.inputs import Ask, ask, read
from app.core.length import Length
from app.core.movement import Movement, PanelStrip, Taken
from app.core.part import Dimensions, GlueUp, Part
from app.services import built, designs, episodes, rack_work, settings
from app.services.built import Waiting
from app.services.rack_work import Clock
from app.store import building as store
from app.store import thread
from app.store.balance import Balance, of_episode
from app.store.rack import Pile
from app.store.thread import Event
from app.store.workspace import Workspace


@dataclass(frozen=True)
class Glueing:
    """What is asked when panels are glued up; measured sizes may be left empty."""

    quantity: int = ask("Panels", Ask.COUNT, default=1, least=1)
    length: Length | None = ask("Length", Ask.LENGTH, default=None)
    width: Length | None = ask("Width", Ask.LENGTH, default=None)
    thickness: Length | None = ask("Thickness", Ask.LENGTH, default=None)


@dataclass(frozen=True)
class Finishing:
    """What is asked when the build is done."""

    spares: str = ask("Spares", Ask.CHOICE, default="scrap", choices=("scrap", "keep"))


@dataclass(frozen=True, slots=True)
class PanelView:
    """One glue-up of the design: how many are made, how many could be now.

    ``strips`` are its strips as they lie; ``missing`` says what is not cut yet. A
    ``single`` strip is ripped to width and not glued.
    """

    key: str
    name: str
    size: Dimensions
    strips: tuple[PanelStrip, ...]
    single: bool
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
    """The building of an episode. ``missing``: why it cannot be finished yet.

    ``spares`` were for test cuts and are none of its ``parts``.
    """

    panels: tuple[PanelView, ...]
    parts: tuple[Part, ...]
    spares: tuple[Part, ...]
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
        left = built.left_of(design, store.finished(work, episode_id))
        return BuildingView(
            panels=tuple(
                _panel(item, waiting, made[item.key]) for item in design.glue_ups
            ),
            parts=tuple(part for part in design.parts if not part.spare),
            spares=tuple(part for part in design.parts if part.spare),
            built=not left,
            missing=tuple(built.missing(design, left, waiting)),
            wood=of_episode(work, episode_id),
            records=thread.of_episode(work, episode_id),
        )


def _panel(item: GlueUp, waiting: Waiting, made: int) -> PanelView:
    counts = [
        (built.count(waiting.get(item.strip_key(place), ())), strip)
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
        single=item.single,
        wanted=item.quantity,
        made=made,
        possible=min(there // strip.quantity for there, strip in counts),
        missing=_lacking(item, lacking),
        on_hand=tuple(waiting.get(item.key, ())),
    )


def _lacking(item: GlueUp, lacking: str) -> str:
    if not lacking:
        return ""
    if item.single:
        return f"Its strip of {item.strips[0].species} is not cut yet."
    return f"A panel still takes {lacking}."


def _order(item: GlueUp) -> tuple[PanelStrip, ...]:
    return tuple(
        PanelStrip(strip.species, strip.finished_width)
        for strip in item.strips
        for _ in range(strip.quantity)
    )


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
        taken += built.taking(piles, needed, f"{strip.species} strips for {item.name}")
        lies = PanelStrip(piles[0].piece.species, strip.finished_width)
        order += [lies] * strip.quantity
    return taken, tuple(order)


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

    Spares are scrap, or offcuts on the rack where ``typed`` says ``keep``.
    Raises WorkshopError, naming it, where something is not cut or glued up yet,
    or where everything is built already.
    """
    with workspace.write() as work:
        episode_id = episodes.within(work, slug, number).id
        design = _design(work, episode_id)
        left = built.left_of(design, store.finished(work, episode_id))
        waiting = store.waiting(work, episode_id)
        if not left:
            raise WorkshopError(
                "Every part of this design is built already. Take that record back "
                "first if it was wrong."
            )
        if missing := built.missing(design, left, waiting):
            raise WorkshopError(f"It cannot be built yet: {' '.join(missing)}")
        shop = settings.within(work).shop
        said = read(Finishing, rack_work.asked(Finishing, typed), shop)
        movement = built.movement(
            design, left, waiting, shop, keep=said.spares == "keep"
        )
        _record(work, movement, typed, clock, episode_id)


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
