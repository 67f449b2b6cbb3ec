"""Series and their parts: addresses, order, what may go."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import select

from app.core.errors import NotFound, StaleEdit, WorkshopError
from app.core.slug import free_slug, slug
from app.services import episodes, series
from app.store.schema import (
    Episode,
    MovementLine,
    MovementRow,
    Note,
    Publication,
    StockRow,
)
from app.store.workspace import Workspace
from tests.conftest import NOON


@pytest.fixture
def trays(workspace: Workspace) -> str:
    """A series of four parts."""
    name = series.create(workspace, "Four trays", "")
    for title in ("One", "Two", "Three", "Four"):
        episodes.add(workspace, name, title, "", "")
    return name


def titles(workspace: Workspace, name: str) -> list[str]:
    parts = series.show(workspace, name).parts
    assert [part.number for part in parts] == list(range(1, len(parts) + 1))
    return [part.title for part in parts]


def publish(workspace: Workspace, name: str, number: int) -> None:
    with workspace.write() as work:
        row = episodes.within(work, name, number)
        work.add(Publication(episode_id=row.id, revision=1, frozen_at=NOON, sheet={}))


@pytest.mark.parametrize(
    ("title", "made"),
    [
        ("Four trays", "four-trays"),
        ("Café trays, №1", "cafe-trays-no1"),
        ("Fünf Kästchen für Öl", "funf-kastchen-fur-ol"),
        ("Straße", "strasse"),
        ("OAK ﬁnish", "oak-finish"),
        ("The maker's box", "the-makers-box"),
        ("木の箱", "木の箱"),
        ("../../etc/passwd", "etc-passwd"),
        ("🪵", "series"),
        ("   ", "series"),
        ("a" * 200, "a" * 60),
    ],
)
def test_addresses_come_from_titles(title: str, made: str) -> None:
    assert slug(title) == made


@given(st.text())
def test_no_title_breaks_an_address(title: str) -> None:
    made = slug(title)
    assert made
    assert len(made) <= 60
    assert not set(made) & set("/\\.?#%& \x00")


@given(st.lists(st.sampled_from(["Box", "box!", "Bóx", "new"]), max_size=8))
def test_no_two_series_share_an_address(wanted: list[str]) -> None:
    taken = {"new"}
    for title in wanted:
        made = free_slug(title, taken)
        assert made not in taken
        taken.add(made)


def test_a_series_keeps_its_address_when_its_title_changes(
    workspace: Workspace,
) -> None:
    name = series.create(workspace, "Trays", "")
    series.save(workspace, name, 1, "Boxes", "All with lids.", "")
    assert series.show(workspace, name).title == "Boxes"


def test_the_page_that_starts_a_series_keeps_its_own_address(
    workspace: Workspace,
) -> None:
    assert series.create(workspace, "New", "") == "new-2"


@pytest.mark.parametrize("title", ["", "   ", "\n", "x" * 201])
def test_a_title_is_needed(workspace: Workspace, title: str) -> None:
    with pytest.raises(WorkshopError) as refused:
        series.create(workspace, title, "")
    assert refused.value.input == "title"
    assert series.listing(workspace) == ()


@pytest.mark.parametrize(
    ("number", "to", "order"),
    [
        (4, "1", ["Four", "One", "Two", "Three"]),
        (1, "4", ["Two", "Three", "Four", "One"]),
        (2, "3", ["One", "Three", "Two", "Four"]),
        (2, "2", ["One", "Two", "Three", "Four"]),
    ],
)
def test_a_part_moves_and_the_others_close_up(
    workspace: Workspace, trays: str, number: int, to: str, order: list[str]
) -> None:
    episodes.move(workspace, trays, number, to)
    assert titles(workspace, trays) == order


@pytest.mark.parametrize("to", ["0", "5", "-1", "x", "", "1.5", "²", "9" * 50])
def test_there_is_no_such_place(workspace: Workspace, trays: str, to: str) -> None:
    with pytest.raises(WorkshopError, match="from 1 to 4"):
        episodes.move(workspace, trays, 2, to)
    assert titles(workspace, trays) == ["One", "Two", "Three", "Four"]


def test_a_published_part_keeps_its_number(workspace: Workspace, trays: str) -> None:
    publish(workspace, trays, 2)
    with pytest.raises(WorkshopError, match="published under its number"):
        episodes.move(workspace, trays, 4, "1")
    with pytest.raises(WorkshopError, match="published under its number"):
        episodes.remove(workspace, trays, 1)
    episodes.move(workspace, trays, 4, "3")
    assert titles(workspace, trays) == ["One", "Two", "Four", "Three"]


def test_an_empty_part_can_go(workspace: Workspace, trays: str) -> None:
    episodes.remove(workspace, trays, 2)
    assert titles(workspace, trays) == ["One", "Three", "Four"]


def test_a_part_that_holds_something_stays(workspace: Workspace, trays: str) -> None:
    with workspace.write() as work:
        row = episodes.within(work, trays, 2)
        work.add(Note(episode_id=row.id, noted_at=NOON, text="Dry fit."))
    with pytest.raises(WorkshopError, match="holds notes"):
        episodes.remove(workspace, trays, 2)
    assert titles(workspace, trays) == ["One", "Two", "Three", "Four"]


def test_the_second_of_two_windows_sees_the_conflict(
    workspace: Workspace, trays: str
) -> None:
    episodes.save_head(workspace, trays, 1, 1, "First", "", "", "")
    with pytest.raises(StaleEdit) as stale:
        episodes.save_head(workspace, trays, 1, 1, "Second", "", "", "")
    assert stale.value.stored["title"] == "First"
    assert episodes.find(workspace, trays, 1).title == "First"


@pytest.mark.parametrize(
    "link",
    [
        "javascript:alert(1)",
        "video.example/1",
        "ftp://video.example/1",
        "https://",
        "https://a b.example",
        "https://[",
        "https://video.example/" + "x" * 500,
    ],
)
def test_only_a_web_address_is_a_link(
    workspace: Workspace, trays: str, link: str
) -> None:
    with pytest.raises(WorkshopError) as refused:
        episodes.save_head(workspace, trays, 1, 1, "One", "", "", link)
    assert refused.value.input == "video_url"


def test_what_is_not_there_is_said(workspace: Workspace, trays: str) -> None:
    with pytest.raises(NotFound, match="no part 9"):
        episodes.find(workspace, trays, 9)
    with pytest.raises(NotFound, match="no series"):
        series.show(workspace, "nowhere")


def passes(workspace: Workspace, name: str, source: int, user: int, nm3: int) -> None:
    """Record that wood out of part ``source`` was taken by part ``user``."""
    with workspace.write() as work:
        numbers = {row.number: row.id for row in work.scalars(select(Episode))}
        moved = MovementRow(
            kind="cut", on=NOON.date(), recorded_at=NOON, episode_id=numbers[user]
        )
        work.add(moved)
        work.flush()
        stock = StockRow(
            label=f"B-{moved.id}",
            kind="board",
            species="black walnut",
            length_nm=1,
            width_nm=1,
            thickness_nm=1,
            episode_id=numbers[source],
            made_by=moved.id,
        )
        work.add(stock)
        work.flush()
        line = MovementLine(
            movement_id=moved.id,
            position=0,
            side="taken",
            stock_id=stock.id,
            quantity=1,
            volume=nm3,
        )
        work.add(line)


def test_the_thread_thickens_by_the_wood_that_passes(
    workspace: Workspace, trays: str
) -> None:
    passes(workspace, trays, 1, 3, 10**23)
    passes(workspace, trays, 2, 3, 3 * 10**23)
    thread = series.thread(workspace, trays, 2)
    assert thread is not None
    # From 1 on: 1 unit. From 2 on: what 1 sends past it and its own. From 3: none.
    assert [knot.passes_on for knot in thread.knots] == [10**23, 4 * 10**23, 0, 0]
    first, second, third, _ = (knot.strand for knot in thread.knots)
    assert third < first < second
    assert [knot.in_hand for knot in thread.knots] == [False, True, False, False]


def test_what_was_reversed_passes_no_wood(workspace: Workspace, trays: str) -> None:
    passes(workspace, trays, 1, 2, 10**23)
    with workspace.write() as work:
        moved = work.scalars(select(MovementRow)).one()
        undone = MovementRow(
            kind="reversal", on=NOON.date(), recorded_at=NOON, reverses_id=moved.id
        )
        work.add(undone)
    thread = series.thread(workspace, trays, None)
    assert thread is not None
    assert not any(knot.passes_on for knot in thread.knots)


def test_a_published_part_is_ringed(workspace: Workspace, trays: str) -> None:
    publish(workspace, trays, 1)
    thread = series.thread(workspace, trays, 2)
    assert thread is not None
    assert [k.state for k in thread.knots] == ["published", *["planned"] * 3]
    assert thread.knots[0].words == "published"
