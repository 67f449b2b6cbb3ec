"""An invented workshop for the tests of going out: a series with three parts."""

from __future__ import annotations

from datetime import date

from app.core.length import inches
from app.core.movement import Made, Movement, MovementKind, Piece, PieceKind
from app.core.part import Dimensions
from app.store import movements, rack
from app.store.schema import Chapter, Episode, Series, StepRow
from app.store.workspace import Workspace
from tests.conftest import NOON

SLUG = "porch-pieces"
MONDAY = date(2026, 3, 2)
FIRST_FILM = "https://films.example/porch-1"
TITLES = ("Lantern stand", "Herb planter", "Window tray")


def porch(workspace: Workspace) -> tuple[int, int, int]:
    """Three parts, the first one out; gives their ids."""
    with workspace.write() as work:
        series = Series(slug=SLUG, title="Porch pieces")
        for number, title in enumerate(TITLES, 1):
            slug = title.lower().replace(" ", "-")
            series.episodes.append(Episode(number=number, slug=slug, title=title))
        series.episodes[0].video_url = FIRST_FILM
        work.add(series)
        work.flush()
        first, second, third = (episode.id for episode in series.episodes)
    return first, second, third


def steps(
    workspace: Workspace, episode_id: int, *, ticked: tuple[str, ...] = ()
) -> None:
    """Rip on the table saw, then oil with a cloth."""
    made = (
        ("rip", "Rip the strips", "table saw", ["table-saw.kickback"], []),
        ("oil", "Oil it", "brush or cloth", [], [{"name": "oil", "quantity": "50 ml"}]),
    )
    with workspace.write() as work:
        for position, (key, name, tool, cautions, supplies) in enumerate(made):
            work.add(
                StepRow(
                    episode_id=episode_id,
                    position=position,
                    key=key,
                    name=name,
                    tool=tool,
                    cautions=cautions,
                    supplies=supplies,
                    waits=[],
                    done_at=NOON if key in ticked else None,
                )
            )


def chapters(workspace: Workspace, episode_id: int) -> None:
    """Three that a host would take."""
    with workspace.write() as work:
        for start, title in ((0, "Start"), (45_000, "Rip"), (130_000, "Oil")):
            work.add(Chapter(episode_id=episode_id, start_ms=start, title=title))


def leftover(workspace: Workspace, first: int, second: int) -> None:
    """The first part leaves a cherry strip, 1/4 x 1 x 9 in; the second glues it in."""
    strip = Piece(
        PieceKind.STRIP,
        "cherry",
        Dimensions(inches("9"), inches("1"), inches("1/4")),
    )
    with workspace.write() as work:
        cut = Movement(
            MovementKind.CUT,
            made=(Made(strip, 1, name="strip"),),
            from_outside=strip.volume,
        )
        movements.record(work, cut, on=MONDAY, now=NOON, episode_id=first, **SAID)
        (pile,) = rack.on_hand(work)
        used = Movement(MovementKind.BUILT, taken=(pile.taking(1),), chips=strip.volume)
        movements.record(work, used, on=MONDAY, now=NOON, episode_id=second, **SAID)


SAID = {"zone": "UTC", "currency": "USD"}
