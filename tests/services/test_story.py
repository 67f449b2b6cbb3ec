"""The story that the checks read is the one that the workshop tells."""

from __future__ import annotations

from app.core.story import Story
from app.services import designs, film, gathering, plans, story
from app.store.workspace import Workspace
from tests.conftest import NOON
from tests.services.shop import MONDAY, SLUG, porch, steps

VTT = b"WEBVTT\n\n00:01.000 --> 00:02.500\nSix sides.\n"
LISTED = "part,quantity,thickness,width,length,species\nslat,2,1/2,2,12,cherry\n"


def told(workspace: Workspace, episode_id: int) -> Story:
    with workspace.read() as work:
        sheet = gathering.sheet(work, episode_id, MONDAY)
        return story.within(work, episode_id, sheet)


def test_an_episode_of_nothing_tells_nothing_but_its_name(
    workspace: Workspace,
) -> None:
    _, second, _ = porch(workspace)
    found = told(workspace, second)
    assert found == Story(
        title="Herb planter",
        passages=found.passages,
        description=found.description,
        neighbours=found.neighbours,
    )


def test_blanks_without_wood_are_counted_by_the_piece(workspace: Workspace) -> None:
    first, *_ = porch(workspace)
    designs.save(workspace, first, "parts_list", {"file": LISTED}, 0)
    assert told(workspace, first).designed
    plans.make(workspace, SLUG, 1, 0, "", "either", NOON)
    assert told(workspace, first).unplaced == 2
    plans.make(workspace, SLUG, 1, 1, "cherry, 3/4, 8, 96, 70", "either", NOON)
    enough = told(workspace, first)
    assert (enough.unplaced, enough.wood, enough.wood_planned) == (0, 1, 1)


def test_steps_count_as_done_when_they_are_ticked(workspace: Workspace) -> None:
    first, *_ = porch(workspace)
    steps(workspace, first, ticked=("oil",))
    found = told(workspace, first)
    assert (found.steps, found.steps_done) == (2, 1)


def test_captions_count_once_they_are_there(workspace: Workspace) -> None:
    first, *_ = porch(workspace)
    assert not told(workspace, first).captions
    film.put_captions(workspace, SLUG, 1, "cut.vtt", VTT, NOON)
    assert told(workspace, first).captions
