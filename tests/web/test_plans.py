"""The wood section of an episode, through the browser's requests."""

from __future__ import annotations

import re

import pytest
from flask.testing import FlaskClient

from app.store.workspace import Workspace
from tests.services.test_plans import DEALER, SLUG, lying, porch, put, walnut

__all__ = ["porch"]

PAGE = f"/series/{SLUG}/1"


@pytest.fixture
def shop(porch: Workspace, client: FlaskClient) -> FlaskClient:
    """A browser on the workspace of the two parts."""
    return client


def post(client: FlaskClient, action: str, **fields: object) -> tuple[int, str]:
    answer = client.post(f"{PAGE}/{action}", data=fields)
    return answer.status_code, answer.get_data(as_text=True)


def wood(client: FlaskClient) -> str:
    page = client.get(PAGE).get_data(as_text=True)
    found = re.search(r'<section id="wood".*?</section>', page, re.DOTALL)
    assert found
    return found[0]


def test_an_empty_section_offers_the_first_step(shop: FlaskClient) -> None:
    page = wood(shop)
    assert "No wood planned yet" in page
    assert "What the dealer sells" in page


def test_the_whole_way_from_plan_to_rack(shop: FlaskClient, porch: Workspace) -> None:
    assert post(shop, "plan", version=0, dealer=DEALER, first="either")[0] == 303
    page = wood(shop)
    for words in ("Cut list", "Boards to buy", "order of cuts", "left over", "<svg"):
        assert words in page
    assert "Mark as cut</button>" not in page
    assert post(shop, "plan/buy", version=1, on="2026-03-02", supplier="")[0] == 303
    assert "Mark as cut</button>" in wood(shop)
    assert post(shop, "plan/cut", version=2, on="2026-03-02")[0] == 303
    page = wood(shop)
    assert "Cut on 2 March 2026" in page
    assert "Mark as cut</button>" not in page
    assert "offcut" in {kind for kind, *_ in lying(porch)}


def test_what_was_typed_stays_when_it_is_refused(shop: FlaskClient) -> None:
    status, page = post(shop, "plan", version=0, dealer="walnut, 1, 8", first="rip")
    assert status == 422
    assert "walnut, 1, 8</textarea>" in page
    assert "Line 1 of what the dealer sells" in page
    assert re.search(r'value="rip" selected', page)


def test_a_part_longer_than_any_board_cannot_be_marked_as_cut(
    shop: FlaskClient, porch: Workspace
) -> None:
    put(porch, walnut("20", "8"))
    post(shop, "plan", version=0, dealer="", first="either")
    page = wood(shop)
    assert "Longer than any walnut board" in page
    assert "Mark as cut</button>" not in page
    before = lying(porch)
    status, page = post(shop, "plan/cut", version=1, on="2026-03-02")
    assert status == 422
    assert "nothing was marked as cut" in page
    assert lying(porch) == before


def test_a_second_window_is_told_of_the_first(shop: FlaskClient) -> None:
    post(shop, "plan", version=0, dealer=DEALER, first="either")
    status, page = post(
        shop, "plan", version=0, dealer="walnut, 1, 9, 96, 70", first="either"
    )
    assert status == 409
    assert "walnut, 1, 9, 96, 70</textarea>" in page
    assert "Saved now: black walnut" in page


def test_a_stale_plan_says_so_and_is_not_cut(
    shop: FlaskClient, porch: Workspace
) -> None:
    put(porch, walnut("60", "8"))
    post(shop, "plan", version=0, dealer="", first="either")
    put(porch, walnut("12", "8"))
    assert "the rack changed" in wood(shop)
    status, page = post(shop, "plan/cut", version=1, on="2026-03-02")
    assert status == 422
    assert "the rack changed" in page


def test_drawings_and_pages_carry_no_inline_style(shop: FlaskClient) -> None:
    post(shop, "plan", version=0, dealer=DEALER, first="either")
    page = wood(shop)
    assert ' style="' not in page
    assert "<script" not in page
    ids = re.findall(r'id="([^"]+)"', page)
    assert len(ids) == len(set(ids))
