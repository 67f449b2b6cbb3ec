"""Boards of random width on an episode's page, and parts glued up from strips."""

from __future__ import annotations

import re

import pytest
from flask.testing import FlaskClient

from app.core.movement import PieceKind
from app.store.workspace import Workspace
from tests.services import yard
from tests.services.porch_rack import put, walnut
from tests.services.test_bought_boards import PARTS, SELLS
from tests.services.test_glued_parts import TOP
from tests.services.yard import in_short
from tests.web.reading import words

__all__ = ["in_short"]

PAGE = f"/series/{yard.SLUG}/1"


def post(client: FlaskClient, action: str, **fields: object) -> tuple[int, str]:
    answer = client.post(f"{PAGE}/{action}", data=fields)
    return answer.status_code, answer.get_data(as_text=True)


def wood(client: FlaskClient) -> str:
    page = client.get(PAGE).get_data(as_text=True)
    found = re.search(r'<section id="wood".*?</section>', page, re.DOTALL)
    assert found
    return found[0]


@pytest.fixture
def bench(workspace: Workspace, client: FlaskClient) -> FlaskClient:
    """A browser on a plan of boards that are still at the dealer's."""
    yard.start(workspace, PARTS)
    yard.make(workspace, SELLS)
    return client


def test_the_page_says_how_much_to_buy_and_takes_the_boards(
    bench: FlaskClient, workspace: Workspace
) -> None:
    read = words(wood(bench))
    assert re.search(r"Buy about \d+ board feet", read)
    assert "2 boards must be at least 7 3/8 in wide and 63 in long." in read
    assert "Boards to choose at the dealer’s before you can cut." in read
    assert "Mark as cut" not in read
    boards = "7 1/2 x 98\n8 x 100\n2 x 6 1/4 x 97"
    fields = {"form_key": "dealer-1", "version": 1, "boards": boards}
    assert post(bench, "plan/boards/dealer-1", **fields)[0] == 303
    read = words(wood(bench))
    assert "Mark as cut" in read
    assert "Buy about" not in read
    assert len(yard.lying(workspace, PieceKind.BOARD)) == 3


def test_boards_that_cannot_be_read_stay_in_their_field(
    bench: FlaskClient, workspace: Workspace
) -> None:
    fields = {"form_key": "dealer-1", "version": 1, "boards": "7 1/2 x 98\nnine feet"}
    status, page = post(bench, "plan/boards/dealer-1", **fields)
    assert status == 422
    assert "7 1/2 x 98\nnine feet</textarea>" in page
    assert "Line 2: “nine feet” is not width × length" in page
    assert yard.records(workspace) == []


def test_lines_of_every_kind_are_shown_by_example(bench: FlaskClient) -> None:
    read = words(wood(bench))
    for what in ("one size", "random width", "Sheets", "nominal size"):
        assert what in read


def test_strips_are_told_cut_and_glued_up(
    workspace: Workspace, client: FlaskClient
) -> None:
    yard.shop(workspace, glue_narrowest="2")
    yard.start(workspace, TOP)
    put(workspace, walnut("99", "5"))
    yard.make(workspace)
    read = words(wood(client))
    assert "1 × top: glue up from 3 strips of 4 1/8 in" in read
    assert "of which jointing takes 1/4 in in all" in read
    yard.cut(workspace)
    assert "1 × top to glue up. Record the glue-up" in words(wood(client))
    status, page = post(client, "glue-part/top.of-3", form_key="top.of-3", quantity=2)
    assert status == 422
    assert "6 strips of top are needed and 3 are on the rack" in page
    fields = {"form_key": "top.of-3", "quantity": 1}
    assert post(client, "glue-part/top.of-3", **fields)[0] == 303
    assert "Everything is there. Record the build" in words(wood(client))
    assert post(client, "glue-part/lid.of-3", quantity=1)[0] == 404


def test_resawing_and_planing_are_told(
    workspace: Workspace, client: FlaskClient
) -> None:
    yard.shop(workspace, resaw_height="8")
    yard.start(workspace, "side,2,3/8,5,30,walnut")
    yard.make(workspace, "walnut, 1 1/4, 6, 36, 40.00")
    read = words(wood(client))
    assert "saw it on edge into 2 boards and plane both faces" in read
    assert "Use a tall fence" in read
    assert "What planing takes" in read
    assert re.search(r"planing 17/32 in down to 7/16 in turns 0\.\d\d board feet", read)
