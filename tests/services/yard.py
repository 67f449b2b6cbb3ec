"""A bench to build, and a workspace in which its wood is still at the dealer's."""

from __future__ import annotations

from functools import partial

import pytest
from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.cutting.alternatives import solve
from app.core.movement import PieceKind
from app.publish.sheet import Sheet
from app.services import designs, gathering, plans, settings
from app.services.plan_view import PlanView
from app.store import rack
from app.store.balance import of_episode
from app.store.rack import Pile
from app.store.schema import Episode, MovementRow, Series
from app.store.workspace import Workspace
from tests.conftest import NOON

SLUG = "yard"
# These tests follow the wood through the ledger: a short search plans well enough.
SHORT = partial(solve, work=50_000)
DAY = "2026-03-02"
HEAD = "part,quantity,thickness,width,length,species"


def start(workspace: Workspace, parts: str, head: str = HEAD) -> int:
    """A series of one part, built from a list of parts; gives its id."""
    with workspace.write() as work:
        series = Series(slug=SLUG, title="Yard")
        series.episodes.append(Episode(number=1, slug="bench", title="Bench"))
        work.add(series)
        work.flush()
        episode_id = series.episodes[0].id
    design(workspace, episode_id, parts, head)
    return episode_id


def design(workspace: Workspace, episode_id: int, parts: str, head: str = HEAD) -> None:
    """The list of parts as the design."""
    designs.save(workspace, episode_id, "parts_list", {"file": f"{head}\n{parts}"}, 0)


def shop(workspace: Workspace, **typed: str) -> None:
    """Settings as typed, the rest as they are."""
    stored = settings.load(workspace)
    settings.save(workspace, settings.typed(stored) | typed, stored.version)


def make(workspace: Workspace, sells: str = "", version: int | None = None) -> None:
    """Plan the cuts."""
    now = seen(workspace).version if version is None else version
    plans.make(workspace, SLUG, 1, now, sells, "either", NOON)


def seen(workspace: Workspace) -> plans.WoodView:
    """The wood section."""
    return plans.show(workspace, episode_id(workspace))


def plan(workspace: Workspace) -> PlanView:
    """The plan that stands."""
    found = seen(workspace).plan
    assert found is not None
    return found


def episode_id(workspace: Workspace) -> int:
    """The one episode's id."""
    with workspace.read() as work:
        return episode_id_of(work)


def episode_id_of(work: Session) -> int:
    """The one episode there is."""
    return work.scalars(select(Episode.id)).one()


def cut(workspace: Workspace) -> None:
    """Mark the plan as cut."""
    plans.mark_cut(workspace, SLUG, 1, seen(workspace).version, DAY, NOON)


def lying(workspace: Workspace, kind: PieceKind) -> list[Pile]:
    """The piles of a kind on the rack."""
    with workspace.read() as work:
        return [pile for pile in rack.on_hand(work) if pile.piece.kind is kind]


def records(workspace: Workspace) -> list[tuple[str, int, int, int]]:
    """Every movement: kind, paid, kerf, chips."""
    with workspace.read() as work:
        rows = work.scalars(select(MovementRow).order_by(MovementRow.id))
        return [(row.kind, row.paid, row.kerf, row.chips) for row in rows]


def money_there(workspace: Workspace) -> int:
    """What everything on the rack carries."""
    with workspace.read() as work:
        return sum(pile.cost for pile in rack.on_hand(work))


def balanced(workspace: Workspace) -> bool:
    """Whether the episode's wood and money add up to the last unit."""
    with workspace.read() as work:
        return of_episode(work, episode_id(workspace)).exact


def sheet(workspace: Workspace) -> Sheet:
    """The printed plan."""
    with workspace.read() as work:
        return gathering.sheet(work, episode_id_of(work), None)


@pytest.fixture(autouse=True)
def in_short(monkeypatch: pytest.MonkeyPatch) -> None:
    """Plans are looked for shortly, wherever this is imported."""
    monkeypatch.setattr(plans, "solve", SHORT)
