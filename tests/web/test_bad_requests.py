"""Requests that no form of ours sends: wrong places, old pages, second clicks."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from shutil import copytree
from threading import Barrier, Thread

import pytest
from flask.testing import FlaskClient

from app.store import rack
from app.store.workspace import Workspace, open_workspace
from tests.web.full_shop import (
    BOARD,
    DAY,
    FORMS,
    NEXT,
    NOTE,
    PART,
    PLANNED,
    PROMISE,
    PROMISES,
    USED,
    browser,
    fill,
    said,
    state,
)


@pytest.fixture(scope="module")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    workspace = open_workspace(tmp_path_factory.mktemp("shop") / "data")
    fill(browser(workspace, TESTING=True))
    workspace.close()
    return workspace.folder


@pytest.fixture(scope="module")
def whole(filled: Path) -> Iterator[Workspace]:
    """The full workspace, for all that has to leave it as it is."""
    opened = open_workspace(filled)
    yield opened
    opened.close()


@pytest.fixture(scope="module")
def reader(whole: Workspace) -> FlaskClient:
    return browser(whole)


@pytest.fixture
def shop(filled: Path, tmp_path: Path) -> Iterator[Workspace]:
    """A copy of the full workspace, to be changed."""
    opened = open_workspace(Path(copytree(filled, tmp_path / "shop")))
    yield opened
    opened.close()


@pytest.fixture
def client(shop: Workspace) -> FlaskClient:
    return browser(shop)


# Ids 2, and photo and chapter 4, are the kitchen's; 99 was never there.
ELSEWHERE = {
    "a note of another series": (f"{PART}/notes/2", NOTE),
    "its removal": (f"{PART}/notes/2/remove", {}),
    "a note that is gone": (f"{PART}/notes/99", NOTE),
    "a photo of another series": (f"{PART}/photos/2", {"caption": "Mine", "alt": ""}),
    "its cover": (f"{PART}/photos/2/cover", {}),
    "its photo's removal": (f"{PART}/photos/2/remove", {}),
    "a chapter of another series": (f"{PART}/chapters/4", {"at": "9:00", "title": "A"}),
    "its chapter's removal": (f"{PART}/chapters/4/remove", {}),
    "an item of another series": (f"{PART}/used/2", USED),
    "its item's removal": (f"{PART}/used/2/remove", {}),
    "a promise of another series": (f"{PROMISES}/2", PROMISE),
    "keeping it": (f"{PROMISES}/2/keep", {"in_episode": "2", "how": "A lid."}),
    "keeping it here": (f"{NEXT}/promises/2/kept-here", {"how": "A lid."}),
    "its promise's removal": (f"{PROMISES}/2/remove", {}),
    "reopening it": (f"{PROMISES}/2/reopen", {}),
    "a step of another part": (f"{NEXT}/steps/1/tick", {"done": "yes"}),
    "its step's removal": (f"{NEXT}/steps/1/remove", {}),
    "a note on its step": (f"{NEXT}/notes", {"text": "Mine", "step": "1"}),
    "a note on step 1e9": (f"{PART}/notes", {"text": "Mine", "step": "9" * 30}),
    "a record of another part": (f"{NEXT}/undo/2", {"reason": "mine"}),
    "a record of another board": ("/rack/W1/undo/99", {"reason": "mine"}),
    "a panel of another build": (f"{NEXT}/plane/W1", {"thickness": "1/4"}),
    "a panel that no design has": (f"{PART}/glue/none", {"quantity": "1"}),
    "a block that no description has": (f"{PART}/out/blocks/end", {"text": "Mine"}),
    "a board that never was": ("/rack/Z99/discard", {"reason": "rot"}),
    "a part that never was": ("/series/porch-pieces/99/notes", NOTE),
    "a part with thirty figures": (f"/series/porch-pieces/{'9' * 30}/notes", NOTE),
    "a series that never was": ("/series/none/1/notes", NOTE),
    "a series named by control marks": ("/series/%00%07/add", PLANNED),
    "no captions": (f"{NEXT}/captions/remove", {}),
    "a plan of a part without one": ("/series/kitchen/1/plan/cut", {"on": DAY}),
}


@pytest.mark.parametrize("what", ELSEWHERE)
def test_what_is_not_here_is_not_found_and_the_words_typed_are_given_back(
    reader: FlaskClient, whole: Workspace, what: str
) -> None:
    address, form = ELSEWHERE[what]
    before = state(whole.folder)
    answer = reader.post(address, data=form | {"version": "1"})
    assert answer.status_code == 404, said(answer)
    for typed in form.values():
        assert typed in said(answer)
    assert state(whole.folder) == before


@pytest.mark.parametrize(
    "address",
    [
        "/series/none",
        "/series/porch-pieces/99",
        "/series/porch-pieces/-1",
        "/series/porch-pieces/٣",
        f"/series/porch-pieces/{'9' * 5000}",
        "/series/none/promises",
        "/series/none/files.zip",
        "/rack/Z99",
        "/photos/99/web",
        "/photos/1/huge",
        f"/photos/{'9' * 30}/web",
        f"{PART}/out/99/pack.zip",
        f"{PART}/out/draft/../../secret",
        f"{PART}/out/draft/photos/none.jpg",
        f"{NEXT}/captions",
        "/tasks/none",
        "/static/../../pyproject.toml",
        "/%00",
    ],
)
def test_an_address_that_leads_nowhere_says_so(
    reader: FlaskClient, address: str
) -> None:
    answer = reader.get(address)
    assert answer.status_code == 404
    assert "<h1>" in answer.text


@pytest.mark.parametrize("version", ["-1", "one", "9" * 30, "٣", "1e400"])
def test_a_version_that_is_no_number_is_none(reader: FlaskClient, version: str) -> None:
    answer = reader.post("/settings", data=FORMS["/settings"] | {"version": version})
    assert answer.status_code == 422
    assert "does not say which version of the page" in said(answer)


VERSIONED = [address for address, form in FORMS.items() if "version" in form]


@pytest.mark.parametrize("address", [a for a in VERSIONED if "/design/try" not in a])
def test_a_form_without_its_version_is_refused(
    reader: FlaskClient, whole: Workspace, address: str
) -> None:
    before = state(whole.folder)
    answer = reader.post(address, data=FORMS[address] | {"version": ""})
    assert answer.status_code == 422
    assert "does not say which version of the page" in said(answer)
    assert state(whole.folder) == before


@pytest.mark.parametrize("address", [a for a in VERSIONED if "/design/try" not in a])
def test_an_old_page_is_told_what_is_saved_now_and_loses_nothing(
    reader: FlaskClient, whole: Workspace, address: str
) -> None:
    before = state(whole.folder)
    form = FORMS[address] | {"version": "77"}
    answer = reader.post(address, data=form)
    assert answer.status_code == 409
    assert "changed in another window" in said(answer)
    assert state(whole.folder) == before


@pytest.mark.parametrize(
    ("address", "form", "second", "says"),
    [
        (f"{NEXT}/plan/cut", FORMS[f"{NEXT}/plan/cut"], 422, "a plan can be cut once"),
        (f"{PART}/notes/1/remove", {"version": "1"}, 404, "There is nothing here"),
        (f"{PART}/chapters/1/remove", {}, 404, "There is nothing here"),
        (f"{PART}/photos/1/remove", {}, 404, "There is nothing here"),
        (f"{PART}/chapters", FORMS[f"{PART}/chapters"], 422, "a chapter at 5:00"),
        ("/rack/W1/place", FORMS["/rack/W1/place"], 409, "another window"),
    ],
)
def test_what_was_done_once_is_not_done_again(
    client: FlaskClient,
    shop: Workspace,
    address: str,
    form: dict[str, str],
    second: int,
    says: str,
) -> None:
    assert client.post(address, data=form).status_code == 303
    after = state(shop.folder)
    answer = client.post(address, data=form)
    assert answer.status_code == second
    assert says in said(answer)
    assert state(shop.folder) == after


def test_a_part_longer_than_any_board_is_named_and_nothing_is_marked_as_cut(
    client: FlaskClient, shop: Workspace
) -> None:
    rows = "part,quantity,thickness,width,length,species\nbeam,1,1/2,2,200,walnut"
    design = {"form": "parts_list", "version": "1", "file": rows}
    assert client.post(f"{NEXT}/design", data=design).status_code == 303
    plan = FORMS[f"{NEXT}/plan"]
    assert client.post(f"{NEXT}/plan", data=plan).status_code == 303
    before = state(shop.folder)
    for action in ("cut", "buy"):
        form = FORMS[f"{NEXT}/plan/{action}"] | {"version": "2"}
        answer = client.post(f"{NEXT}/plan/{action}", data=form)
        assert answer.status_code == 422
        assert state(shop.folder) == before
    assert "Longer than any walnut board" in said(answer)
    answer = client.post(f"{NEXT}/plan/cut", data=form)
    assert "beam has no place in this plan" in said(answer)


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"base": "groove", "groove_depth": "1/2"}, "groove"),
        ({"base": "groove", "groove_depth": "9"}, "groove"),
        ({"base": "rebate", "groove_depth": "5/8"}, "rebate|groove"),
        ({"outside_inscribed": "7"}, "are given together"),
        ({"wall": "4"}, "wall|Wall"),
    ],
)
def test_sizes_that_do_not_go_together_are_refused_in_their_fields(
    reader: FlaskClient, whole: Workspace, fields: dict[str, str], says: str
) -> None:
    before = state(whole.folder)
    form = FORMS[f"{NEXT}/design"] | fields
    answer = reader.post(f"{NEXT}/design", data=form)
    assert answer.status_code == 422
    alerts = re.findall(r'class="refusal"[^>]*>([^<]+)<', answer.text)
    assert any(word in " ".join(alerts) for word in says.split("|")), alerts
    assert state(whole.folder) == before


def test_nothing_is_frozen_twice(client: FlaskClient, shop: Workspace) -> None:
    client.post(f"{PART}/out/freeze")
    after = state(shop.folder)
    answer = client.post(f"{PART}/out/freeze")
    assert answer.status_code == 422
    assert "Nothing has changed since revision" in said(answer)
    assert state(shop.folder) == after


ADDING = ["/rack/buy", "/rack/count", f"{PART}/notes", f"{PART}/steps", f"{PART}/used"]
ADDING += [f"{PART}/promises", "/series/new", "/series/porch-pieces/add"]
ADDING += [f"{NEXT}/plan/cut", f"{NEXT}/out/freeze", "/rack/W1/discard"]


@pytest.mark.parametrize("address", ADDING)
def test_a_double_click_is_one_click(
    client: FlaskClient, shop: Workspace, address: str
) -> None:
    form = FORMS.get(address, {}) | {"once": "page-1"}
    first = client.post(address, data=form)
    after = state(shop.folder)
    again = client.post(address, data=form)
    assert (first.status_code, again.status_code) == (303, 303)
    assert again.location == first.location
    assert state(shop.folder) == after


OURS = {"Sec-Fetch-Site": "same-origin"}


def test_two_clicks_at_the_same_moment_are_one(shop: Workspace) -> None:
    together, answers = Barrier(2), []
    server = browser(shop).application
    with shop.read() as work:
        piles = len(rack.on_hand(work))

    form = BOARD | {"once": "page-1"}

    def click() -> None:
        mine = server.test_client()
        together.wait()
        answer = mine.post("/rack/buy", data=form, headers=OURS)
        answers.append((answer.status_code, answer.location))

    clicks = [Thread(target=click) for _ in range(2)]
    for one in clicks:
        one.start()
    for one in clicks:
        one.join()
    assert len(set(answers)) == 1
    assert answers[0][0] == 303
    with shop.read() as work:
        assert len(rack.on_hand(work)) == piles + 1


def test_the_same_page_sent_with_other_words_is_another_form(
    client: FlaskClient,
) -> None:
    for text in ("First", "Second"):
        form = NOTE | {"text": text, "once": "page-1"}
        assert client.post(f"{PART}/notes", data=form).status_code == 303
    page = said(client.get(PART))
    assert "First" in page
    assert "Second" in page


@pytest.mark.parametrize("address", FORMS)
def test_a_method_that_no_form_has_is_refused(
    reader: FlaskClient, address: str
) -> None:
    for method in ("PUT", "DELETE", "PATCH"):
        answer = reader.open(address, method=method, data=FORMS[address])
        assert answer.status_code == 405
        assert "use the form there" in said(answer)


@pytest.mark.parametrize("token", [None, "", "x", "x" * 5000, "Im.Zm.9w", "\0"])
def test_a_form_token_that_is_none_keeps_what_was_typed(
    whole: Workspace, token: str | None
) -> None:
    reader = browser(whole, WTF_CSRF_ENABLED=True)
    before = state(whole.folder)
    form = dict(NOTE) | ({} if token is None else {"csrf_token": token})
    answer = reader.post(f"{PART}/notes", data=form)
    assert answer.status_code == 400
    assert NOTE["text"] in said(answer)
    assert "send it again" in said(answer)
    assert state(whole.folder) == before
