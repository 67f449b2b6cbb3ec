"""The rack as a person looks at it: what is there, and each piece's story."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from sqlalchemy.orm import Session

from app.core.movement import PieceKind
from app.core.wood import all_species
from app.store import rack, thread
from app.store.rack import Pile
from app.store.thread import Event, Kin
from app.store.workspace import Workspace

LATELY = 8
# What is planned from comes first; what waits for its build comes last.
ORDER = {kind: place for place, kind in enumerate(PieceKind)}


@dataclass(frozen=True, slots=True)
class Lot:
    """All of one species: its piles, and how much wood and money they are."""

    species: str
    piles: tuple[Pile, ...]
    volume: int
    cost: int


@dataclass(frozen=True, slots=True)
class RackView:
    """The rack page. ``known`` are species names to offer."""

    lots: tuple[Lot, ...]
    volume: int
    cost: int
    lately: tuple[Event, ...]
    known: tuple[str, ...]
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class StockView:
    """One pile with its whole story and its line of descent both ways."""

    pile: Pile
    story: tuple[Event, ...]
    came_from: tuple[Kin, ...]
    became: tuple[Kin, ...]
    places: tuple[str, ...]


def show(workspace: Workspace) -> RackView:
    """Everything on hand, by species and kind."""
    with workspace.read() as work:
        piles = rack.on_hand(work)
        lots = tuple(_lots(piles))
        return RackView(
            lots=lots,
            volume=sum(lot.volume for lot in lots),
            cost=sum(lot.cost for lot in lots),
            lately=thread.lately(work, LATELY),
            known=_known(piles),
            places=_places(piles),
        )


def stock(workspace: Workspace, label: str) -> StockView:
    """One pile, used up or not; NotFound where there is no such label."""
    with workspace.read() as work:
        return _stock_view(work, rack.pile(work, label))


def _stock_view(work: Session, pile: Pile) -> StockView:
    return StockView(
        pile=pile,
        story=thread.history(work, pile.stock_id),
        came_from=thread.came_from(work, pile.stock_id),
        became=thread.became(work, pile.stock_id),
        places=_places(rack.on_hand(work)),
    )


def _lots(piles: tuple[Pile, ...]) -> list[Lot]:
    def order(pile: Pile) -> tuple[str, int, int]:
        return pile.piece.species, ORDER[pile.piece.kind], pile.stock_id

    ordered = sorted(piles, key=order)
    return [
        _lot(species, tuple(same))
        for species, same in groupby(ordered, key=lambda pile: pile.piece.species)
    ]


def _lot(species: str, piles: tuple[Pile, ...]) -> Lot:
    volume = sum(pile.volume for pile in piles)
    return Lot(species, piles, volume, sum(pile.cost for pile in piles))


def _known(piles: tuple[Pile, ...]) -> tuple[str, ...]:
    """Names on the rack first: the same wood should go by one name."""
    there = [pile.piece.species for pile in piles if not pile.piece.strips]
    return tuple(dict.fromkeys([*there, *(one.name for one in all_species())]))


def _places(piles: tuple[Pile, ...]) -> tuple[str, ...]:
    return tuple(sorted({pile.place for pile in piles if pile.place}))
