"""Wishes, single boards and questions of a plan, posted without script."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from flask.testing import FlaskClient

from app.services import plan_search
from app.store.workspace import Workspace
from tests.services.test_plan_parts import apart, labels
from tests.services.test_plan_search import Patient
from tests.services.test_plans import DEALER, lying, porch, seen
from tests.web.test_plans import PAGE, post, shop, wood

__all__ = ["porch", "shop"]
SCRIPT = {"HX-Request": "true"}


@pytest.fixture
def patient(client: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> Iterator[Patient]:
    """Every search goes on until it is stopped, and no page waits for it."""
    made = Patient()
    monkeypatch.setattr(plan_search, "solve", made)
    client.application.config["PATIENCE"] = 0.0
    yield made
    made.go_on.set()


def search_of(page: str) -> str:
    found = re.search(r'name="search" value="([^"]+)"', page)
    assert found
    return found[1]


def test_a_wish_is_kept_shown_and_taken_back(
    shop: FlaskClient, porch: Workspace
) -> None:
    apart(porch)
    _, short = labels(porch)
    fields = {
        "pin-0-quantity": "1",
        "pin-0-blank": "base",
        "pin-0-stock": short,
        "pin-0-how": "must",
        "rounds": "2",
        "first": "rip",
    }
    status, _ = post(shop, "plan", version=1, dealer="", **fields)
    assert status == 303
    page = wood(shop)
    assert f"1 × Base out of {short}" in page
    assert "2 rounds of cuts" in page
    assert re.search(rf'value="{short}" selected', page)
    status, _ = post(shop, "plan/wish", version=2, wish="0")
    assert status == 303
    page = wood(shop)
    assert f"1 × Base out of {short}" not in page
    assert "2 rounds of cuts" in page


def test_a_wish_that_was_taken_back_is_refused_in_words(
    shop: FlaskClient, porch: Workspace
) -> None:
    apart(porch)
    status, page = post(shop, "plan/wish", version=1, wish="4")
    assert status == 422
    assert "taken back already" in page


def test_a_refused_wish_stays_as_typed(shop: FlaskClient, porch: Workspace) -> None:
    apart(porch)
    fields = {"pin-0-blank": "base", "pin-0-stock": "", "pin-0-quantity": "7"}
    status, page = post(shop, "plan", version=1, dealer="", **fields)
    assert status == 422
    assert "Choose both, or neither" in page
    assert 'value="7"' in page


def test_a_search_goes_on_while_its_page_is_looked_at(
    shop: FlaskClient, porch: Workspace, patient: Patient
) -> None:
    assert post(shop, "plan", version=0, dealer=DEALER)[0] == 303
    assert patient.better.wait(10)
    page = wood(shop)
    assert "Best plan so far" in page
    assert "Cut list" not in page
    status, page = post(shop, "plan", version=0, dealer=DEALER)
    assert status == 422
    assert "being planned already" in page
    assert post(shop, "plan/stop", search=search_of(wood(shop)))[0] == 303
    assert "Cut list" in wood(shop)


def test_a_search_that_is_left_keeps_what_was_typed(
    shop: FlaskClient, porch: Workspace, patient: Patient
) -> None:
    post(shop, "plan", version=0, dealer=DEALER)
    assert post(shop, "plan/leave", search=search_of(wood(shop)))[0] == 303
    page = wood(shop)
    assert "Cut list" not in page
    assert f"{DEALER}</textarea>" in page


def test_a_search_that_is_not_known_any_more_is_refused_in_words(
    shop: FlaskClient,
) -> None:
    for action in ("plan/stop", "plan/leave"):
        status, page = post(shop, action, search="of-yesterday")
        assert status == 422
        assert "Nothing was half saved" in page


def test_a_script_gets_the_wood_section_once_a_search_is_over(
    shop: FlaskClient, patient: Patient
) -> None:
    post(shop, "plan", version=0, dealer=DEALER)
    assert patient.better.wait(10)
    page = shop.get(f"{PAGE}/plan", headers=SCRIPT).get_data(as_text=True)
    assert page.lstrip().startswith('<div id="standing"')
    search = search_of(wood(shop))
    kept = shop.post(f"{PAGE}/plan/stop", data={"search": search}, headers=SCRIPT)
    assert "this plan is kept" in kept.get_data(as_text=True)
    over = shop.get(f"{PAGE}/plan", headers=SCRIPT).get_data(as_text=True)
    assert "whole=yes" in over
    whole = shop.get(f"{PAGE}/plan?whole=yes", headers=SCRIPT).get_data(as_text=True)
    assert whole.lstrip().startswith('<section id="wood"')
    assert "Cut list" in whole


def test_one_board_is_marked_as_cut(shop: FlaskClient, porch: Workspace) -> None:
    apart(porch)
    status, page = post(shop, "plan/cut-some", version=1, on="2026-03-02")
    assert status == 422
    assert "Tick the boards" in page
    plan = seen(porch).plan
    assert plan
    first = plan.layouts[0].stock
    fields = {"layout": "0", "on": "2026-03-02", "version": 1}
    assert post(shop, "plan/cut-some", **fields)[0] == 303
    page = wood(shop)
    assert f"Cut before, on 2 March 2026: {first}" in page
    assert "Mark as cut</button>" in page
    assert any(one[0] in ("blank", "strip") for one in lying(porch))


@pytest.mark.parametrize(
    ("question", "words"),
    [
        ("why/1", "of its face"),
        ("without-offcuts", "There is no offcut"),
        ("what-if?change=part:base", "One more Base"),
    ],
)
def test_a_question_is_answered_on_a_page_of_its_own_or_in_place(
    shop: FlaskClient, porch: Workspace, question: str, words: str
) -> None:
    apart(porch)
    whole = shop.get(f"{PAGE}/plan/{question}").get_data(as_text=True)
    part = shop.get(f"{PAGE}/plan/{question}", headers=SCRIPT).get_data(as_text=True)
    assert words in whole
    assert words in part
    assert "Back to the plan" in whole
    assert "<html" not in part


def test_a_question_about_nothing_is_refused_in_words(
    shop: FlaskClient, porch: Workspace
) -> None:
    apart(porch)
    answer = shop.get(f"{PAGE}/plan/what-if?change=part:gone")
    assert answer.status_code == 422
    assert "not in this plan" in answer.get_data(as_text=True)
    thin = f"{PAGE}/plan/what-if?change=kerf:&kerf=thin"
    in_place = shop.get(thin, headers=SCRIPT)
    assert in_place.status_code == 200
    assert in_place.get_data(as_text=True).lstrip().startswith('<div id="what-if"')
    assert "thin" in in_place.get_data(as_text=True)


def test_the_proof_stands_beside_the_plan(shop: FlaskClient, porch: Workspace) -> None:
    apart(porch)
    page = wood(shop)
    assert "Proven: nothing costs less." in page
    assert "Set-ups of fence and stop" in page
