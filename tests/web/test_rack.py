"""The rack's pages, as a browser without a screen sees them."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from app.services import rack
from app.store import schema
from app.store.workspace import Workspace
from tests.web.reading import words

BOARD = {
    "species": "Walnut",
    "kind": "board",
    "quantity": "2",
    "thickness": "1",
    "width": "6",
    "length": "96",
    "price": "8.50",
    "per": "board foot",
    "supplier": "the yard",
    "place": "wall",
    "on": "2026-03-01",
}


@pytest.fixture
def walnut(client: FlaskClient) -> str:
    """Two walnut boards on the rack; gives their label."""
    answer = client.post("/rack/buy", data=BOARD)
    assert answer.status_code == 303
    return answer.headers["Location"].partition("#")[2]


def quantities(workspace: Workspace) -> dict[str, int]:
    lots = rack.show(workspace).lots
    return {pile.label: pile.quantity for lot in lots for pile in lot.piles}


def test_an_empty_rack_says_what_belongs_there_and_offers_the_first_step(
    client: FlaskClient,
) -> None:
    page = client.get("/rack").text
    assert "The rack is empty. Record the first board" in words(page)
    assert '<details id="buy" open>' in page


def test_a_purchase_by_the_board_foot_stands_on_the_rack_with_its_working(
    client: FlaskClient, walnut: str
) -> None:
    """Two boards 1 x 6 x 96 in are 2 x 576 / 144 = 8 board feet; at 8.50, 68.00."""
    page = words(client.get("/rack").text)
    assert walnut == "W1"
    assert "8.00 board feet" in page
    assert "68.00 USD" in page
    assert "8.00 board feet at 8.50 USD a board foot" in page
    assert "1 March 2026 Bought from the yard: 2 pieces, 68.00 USD" in page
    assert "Came in 2 × W1" in page


def test_wood_in_the_shop_already_is_counted_in(
    client: FlaskClient, workspace: Workspace
) -> None:
    answer = client.post(
        "/rack/count", data=BOARD | {"species": "hard maple", "per": "all of it"}
    )
    assert answer.headers["Location"].endswith("#M1")
    assert "opening count" in client.get("/rack/M1").text.lower()


@pytest.mark.parametrize(
    ("field", "typed", "says"),
    [
        ("thickness", "thick", "“thick” is not a length"),
        ("width", "-6", "a size cannot be negative"),
        ("length", "0", "Length must be more than nothing"),
        ("species", "", "Species is missing"),
        ("quantity", "two", "Pieces: “two” is not a whole number"),
        ("quantity", "0", "1 is the least"),
        ("price", "cheap", "“cheap” is not a price"),
        ("kind", "plank", "Kind is one of board"),
        ("on", "yesterday", "“yesterday” is not a date"),
        ("on", "2026-03-03", "2026-03-03 is still to come"),
        ("place", "x" * 201, "200 is the most"),
    ],
)
def test_bad_input_has_its_sentence_keeps_what_was_typed_and_changes_nothing(
    client: FlaskClient, workspace: Workspace, field: str, typed: str, says: str
) -> None:
    answer = client.post("/rack/buy", data=BOARD | {field: typed})
    assert answer.status_code == 422
    assert says in words(answer.text)
    assert 'value="the yard"' in answer.text
    assert quantities(workspace) == {}


def test_a_piece_tells_where_it_came_from_and_what_became_of_it(
    client: FlaskClient, walnut: str, workspace: Workspace
) -> None:
    cut = {"direction": "crosscut", "sizes": "24, 2 x 18 1/2", "rest": "keep"}
    assert client.post(f"/rack/{walnut}/cut", data=cut).status_code == 303
    assert quantities(workspace) == {"W1": 1, "W2": 1, "W3": 2, "W4": 1}
    board = words(client.get(f"/rack/{walnut}").text)
    assert "What became of it" in board
    assert "2 × W3" in board
    offcut = words(client.get("/rack/W4").text)
    assert "Where it came from 1 × W1" in offcut
    # 96 - 24 - 2 x 18 1/2 - 3 x 1/8
    assert "34 5/8 in" in offcut


def test_planing_makes_a_thinner_pile_in_the_same_place(
    client: FlaskClient, walnut: str, workspace: Workspace
) -> None:
    answer = client.post(
        f"/rack/{walnut}/plane", data={"thickness": "13/16", "quantity": "2"}
    )
    assert answer.headers["Location"].endswith("/rack/W2")
    page = words(client.get("/rack/W2").text)
    assert "Stands wall" in page
    assert "Chips 1.50 board feet" in page  # 2 x 3/16 x 6 x 96 / 144
    assert quantities(workspace) == {"W2": 2}


@pytest.mark.parametrize(
    ("action", "data", "left"),
    [
        ("discard", {"reason": "checked at both ends"}, {"W1": 1}),
        ("give-away", {"quantity": "2"}, {}),
        ("recount", {"counted": "5"}, {"W1": 5}),
        ("recount", {"counted": "0"}, {}),
    ],
)
def test_wood_leaves_and_is_counted_again(
    client: FlaskClient,
    walnut: str,
    workspace: Workspace,
    action: str,
    data: dict[str, str],
    left: dict[str, int],
) -> None:
    assert client.post(f"/rack/{walnut}/{action}", data=data).status_code == 303
    assert quantities(workspace) == left


@pytest.mark.parametrize(
    ("action", "data", "says"),
    [
        ("cut", {"sizes": "97", "direction": "crosscut"}, "there are 96 in"),
        ("cut", {"sizes": "", "direction": "rip"}, "Type the sizes to cut"),
        ("cut", {"sizes": "2, wide", "direction": "rip"}, "“wide” is not a length"),
        ("plane", {"thickness": "2"}, "less than 1 in"),
        ("plane", {}, "measures the same as before"),
        ("discard", {"reason": ""}, "Say why it is thrown out"),
        ("discard", {"reason": "rot", "quantity": "3"}, "W1 has 2 on the rack"),
        ("give-away", {"quantity": "0"}, "1 is the least"),
        ("recount", {"counted": "2"}, "already says 2 of W1"),
        ("recount", {"counted": ""}, "Type how many are there"),
    ],
)
def test_work_that_cannot_be_is_refused_and_changes_nothing(
    client: FlaskClient,
    walnut: str,
    workspace: Workspace,
    action: str,
    data: dict[str, str],
    says: str,
) -> None:
    answer = client.post(f"/rack/{walnut}/{action}", data=data)
    assert answer.status_code == 422
    assert says in words(answer.text)
    assert quantities(workspace) == {"W1": 2}


def test_two_windows_that_move_one_pile_do_not_overwrite_each_other(
    client: FlaskClient, walnut: str
) -> None:
    first = client.post(f"/rack/{walnut}/place", data={"place": "loft", "version": 1})
    second = client.post(f"/rack/{walnut}/place", data={"place": "shed", "version": 1})
    assert (first.status_code, second.status_code) == (303, 409)
    assert 'value="shed"' in second.text
    assert "Saved now: loft" in second.text
    again = client.post(f"/rack/{walnut}/place", data={"place": "shed", "version": 2})
    assert again.status_code == 303


def test_a_record_is_taken_back_and_both_stay_in_the_story(
    client: FlaskClient, walnut: str, workspace: Workspace
) -> None:
    client.post(f"/rack/{walnut}/discard", data={"reason": "wrong pile"})
    answer = client.post(f"/rack/{walnut}/undo/2", data={"reason": "it was sound"})
    assert answer.status_code == 303
    assert quantities(workspace) == {"W1": 2}
    page = words(client.get(f"/rack/{walnut}").text)
    assert "(taken back)" in page
    assert "Record 2, taken back by record 3" in page
    assert "Reversed record 2" in page


def test_a_record_that_later_ones_build_on_stays_and_they_are_named(
    client: FlaskClient, walnut: str, workspace: Workspace
) -> None:
    client.post(f"/rack/{walnut}/discard", data={"reason": "split"})
    answer = client.post(f"/rack/{walnut}/undo/1", data={"form_key": "1"})
    assert answer.status_code == 422
    assert "Record 2 (discarded, 2026-03-02)" in words(answer.text)
    assert quantities(workspace) == {"W1": 1}


def test_what_is_not_there_is_not_found(client: FlaskClient, walnut: str) -> None:
    assert client.get("/rack/Z99").status_code == 404
    assert client.post(f"/rack/{walnut}/undo/99", data={}).status_code == 404


def test_an_offcut_links_the_episode_it_was_left_over_from(
    client: FlaskClient, walnut: str, workspace: Workspace
) -> None:
    with workspace.write() as work:
        series = schema.Series(slug="porch", title="Porch pieces")
        series.episodes.append(schema.Episode(number=2, slug="tray", title="Tray"))
        work.add(series)
        work.flush()
        pile = work.query(schema.StockRow).one()
        pile.kind, pile.episode_id = "offcut", series.episodes[0].id
    page = client.get("/rack").text
    assert "left over from part 2 of Porch pieces" in words(page)
    assert 'href="/series/porch/2#wood"' in page
