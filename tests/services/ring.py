"""An invented six-sided ring of glued-up strips, from its boards to its cut strips."""

from __future__ import annotations

from app.services import designs, plans, rack_work
from app.services.rack_work import Clock
from app.store.schema import Episode, Series
from app.store.workspace import Workspace
from tests.conftest import NOON

CLOCK = Clock(NOON.date(), NOON)
BOARD = {"thickness": "7/8", "width": "8", "length": "96", "quantity": "2"}
VESSEL = {
    "sides": "6",
    "outside_side": "4",
    "height": "6",
    "wall": "3/4",
    "base": "none",
    "splines_per_corner": "0",
    "panels": "1",
}


def ring(workspace: Workspace, *rows: str, **board: str) -> int:
    """Part 1 with the ring designed, a strip of ``rows`` each, and boards for it."""
    with workspace.write() as work:
        series = Series(slug="porch", title="Porch pieces")
        series.episodes.append(Episode(number=1, slug="ring", title="Ring"))
        work.add(series)
        work.flush()
        found = series.episodes[0].id
    for species in dict.fromkeys(rows):
        rack_work.buy(workspace, BOARD | {"species": species} | board, CLOCK)
    typed = VESSEL | {"strip_rows": str(len(rows)), "species": ", ".join(rows)}
    designs.save(workspace, found, "straight_vessel", typed, 0)
    return found


def cut_strips(workspace: Workspace, episode_id: int) -> None:
    """Plan the ring's strips and mark the plan as cut."""
    plans.make(workspace, "porch", 1, 0, "", "either", NOON)
    version = plans.show(workspace, episode_id).version
    plans.mark_cut(workspace, "porch", 1, version, "2026-03-02", NOON)
