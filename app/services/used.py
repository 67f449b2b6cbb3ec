"""Supplies and tools of an episode beyond what its steps name."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy.orm import Session

from app.core.errors import NotFound, WorkshopError
from app.core.money import Money
from app.core.plain_text import check_length, is_blank
from app.services import settings
from app.services.episodes import read_link
from app.store import used as store
from app.store.edits import check_version, get
from app.store.schema import UsedItem
from app.store.workspace import Workspace

KINDS = {"supply": "Supply", "tool": "Tool"}


@dataclass(frozen=True, slots=True)
class UsedTyped:
    """One supply or tool as typed. ``cost`` in the workspace's currency."""

    kind: str
    name: str
    quantity: str = ""
    url: str = ""
    given: bool = False
    cost: str = ""


@dataclass(frozen=True, slots=True)
class UsedView:
    """One supply or tool as kept. ``cost`` is minor units, ``price`` as typed."""

    id: int
    version: int
    kind: str
    name: str
    quantity: str
    url: str
    given: bool
    cost: int
    price: str


def of_episode(workspace: Workspace, episode_id: int) -> tuple[UsedView, ...]:
    """What was added to this episode by hand."""
    with workspace.read() as work:
        return within(work, episode_id)


def within(work: Session, episode_id: int) -> tuple[UsedView, ...]:
    """The same, inside a transaction that is open already."""
    return tuple(_view(row) for row in store.of_episode(work, episode_id))


def add(workspace: Workspace, episode_id: int, typed: UsedTyped) -> int:
    """Note a supply or a tool; gives its id."""
    with workspace.write() as work:
        row = UsedItem(episode_id=episode_id)
        _fill(row, typed, settings.within(work).shop.currency)
        work.add(row)
        work.flush()
        return row.id


def edit(
    workspace: Workspace, episode_id: int, item_id: int, typed: UsedTyped, version: int
) -> None:
    """Change one. Raises StaleEdit when it was changed in between."""
    with workspace.write() as work:
        row = _row(work, episode_id, item_id)
        check_version(row, version, "This item", _typed(row))
        _fill(row, typed, settings.within(work).shop.currency)


def remove(workspace: Workspace, episode_id: int, item_id: int, version: int) -> None:
    """Take one off the list. Raises StaleEdit when it was changed in between."""
    with workspace.write() as work:
        row = _row(work, episode_id, item_id)
        check_version(row, version, "This item", _typed(row))
        work.delete(row)


def _row(work: Session, episode_id: int, item_id: int) -> UsedItem:
    row = get(work, UsedItem, item_id, "Item")
    if row.episode_id != episode_id:
        raise NotFound("That item belongs to another episode.")
    return row


def _fill(row: UsedItem, typed: UsedTyped, currency: str) -> None:
    if typed.kind not in KINDS:
        raise WorkshopError("Say whether it is a supply or a tool.", input="kind")
    row.kind = typed.kind
    row.name = _short(typed.name, "name", 200)
    if is_blank(row.name):
        raise WorkshopError("Give it a name, like “wood glue”.", input="name")
    row.quantity = _short(typed.quantity, "quantity", 80)
    row.url = read_link(typed.url, "url")
    row.given = typed.given
    row.cost = Money.read(typed.cost, currency, input="cost").minor


def _short(typed: str, field: str, most: int) -> str:
    text = " ".join(typed.split())
    check_length(text, most, "That", input=field)
    return text


def _typed(row: UsedItem) -> dict[str, str]:
    view = _view(row)
    return {
        "kind": view.kind,
        "name": view.name,
        "quantity": view.quantity,
        "url": view.url,
        "cost": view.price,
        "given": "yes" if view.given else "",
    }


def _view(row: UsedItem) -> UsedView:
    price = Money(row.cost).figure if row.cost else ""
    texts = (row.kind, row.name, row.quantity, row.url)
    return UsedView(row.id, row.version, *texts, row.given, row.cost, price)
