"""A full disk and a second writer: a sentence, the words typed, nothing changed."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from io import BytesIO
from pathlib import Path
from shutil import copytree

import pytest
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from app.services import files, tasks
from app.store import workspace as workspaces
from app.store.workspace import DATABASE, Workspace, open_workspace
from tests.full_disk import Disk, small_disk
from tests.services.bench import jpeg
from tests.services.two_series import fill as fill_two
from tests.web.full_shop import (
    BOARD,
    FORMS,
    NEXT,
    NOTE,
    PART,
    VTT,
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


@pytest.fixture
def disk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Disk]:
    with small_disk(tmp_path / "disk", monkeypatch) as disk:
        yield disk


@pytest.fixture
def shop(filled: Path, disk: Disk) -> Iterator[Workspace]:
    """The full workspace on a disk without room."""
    opened = open_workspace(Path(copytree(filled, disk.place / "shop")))
    disk.fill(opened)
    yield opened
    opened.close()


MANY_PARTS = "part,quantity,thickness,width,length,species\n" + "\n".join(
    f"rail {number},2,3/4,2,12,walnut" for number in range(200)
)
LONG_NOTE = NOTE | {"text": "Held the square on it. " * 800}


def send_photo(client: FlaskClient) -> TestResponse:
    photo = {"photos": (BytesIO(jpeg(7, 300, 200)), "new.jpg"), "step": ""}
    return client.post(f"{PART}/photos", data=photo)


def send_captions(client: FlaskClient) -> TestResponse:
    sent = {"captions": (BytesIO(VTT + b"\n00:03.000 --> 00:04.000\nB\n"), "b.vtt")}
    return client.post(f"{PART}/captions", data=sent)


ON_A_FULL_DISK: dict[str, Callable[[FlaskClient], TestResponse]] = {
    "a note": lambda client: client.post(f"{PART}/notes", data=LONG_NOTE),
    "a photo": send_photo,
    "captions": send_captions,
    "a design": lambda client: client.post(
        f"{NEXT}/design",
        data={"form": "parts_list", "version": "1", "file": MANY_PARTS},
    ),
    "a revision": lambda client: client.post(f"{NEXT}/out/freeze"),
    "a long opening": lambda client: client.post(
        f"{PART}/head", data=FORMS[f"{PART}/head"] | {"opening": "x" * 50_000}
    ),
}


@pytest.mark.parametrize("what", ON_A_FULL_DISK)
def test_on_a_full_disk_nothing_is_saved_and_nothing_is_lost(
    shop: Workspace, what: str
) -> None:
    client = browser(shop)
    before = state(shop.folder)
    answer = ON_A_FULL_DISK[what](client)
    assert answer.status_code == 422
    assert "is full. Nothing was saved and nothing is lost" in said(answer)
    if what == "a note":
        assert LONG_NOTE["text"].strip() in said(answer)
    assert state(shop.folder) == before
    assert list((shop.folder / "files").rglob(".unfinished-*")) == []
    assert client.get(PART).status_code == 200


@pytest.fixture
def sill(tmp_path: Path) -> tuple[BytesIO, str]:
    """The zip of a series of another workspace."""
    other = open_workspace(tmp_path / "other")
    fill_two(other)
    made = files.zipped_series(other, "sill")
    other.close()
    return BytesIO(made), "sill.zip"


def test_a_series_is_not_half_brought_in_on_a_full_disk(
    sill: tuple[BytesIO, str], shop: Workspace
) -> None:
    before = state(shop.folder)
    answer = browser(shop).post("/import", data={"file": sill})
    over = tasks.wait(answer.location.rsplit("/", 1)[-1], 60)
    assert "is full. Nothing was saved" in over.refusal
    assert state(shop.folder) == before


@pytest.fixture
def busy(
    filled: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[Workspace]:
    """The full workspace, which waits for nobody."""
    monkeypatch.setattr(workspaces, "BUSY_MS", 20)
    opened = open_workspace(Path(copytree(filled, tmp_path / "shop")))
    yield opened
    opened.close()


WRITING = [f"{PART}/notes", f"{PART}/head", "/rack/buy", f"{NEXT}/plan/cut"]
WRITING += [f"{NEXT}/design", "/settings", "/series/new"]


@pytest.mark.parametrize("address", WRITING)
def test_while_another_program_writes_nothing_is_saved_and_nothing_is_lost(
    busy: Workspace, address: str
) -> None:
    before = state(busy.folder)
    form = FORMS[address]
    with closing(sqlite3.connect(busy.folder / DATABASE)) as other:
        other.execute("BEGIN IMMEDIATE")
        answer = browser(busy).post(address, data=form)
    assert answer.status_code == 503
    assert "Another program is writing" in said(answer)
    assert "Wait until it is done and save again." in said(answer)
    for name in ("text", "opening", "supplier", "on"):
        assert form.get(name, "") in answer.text
    assert state(busy.folder) == before


def test_while_another_program_commits_the_words_are_given_back(
    busy: Workspace,
) -> None:
    with closing(sqlite3.connect(busy.folder / DATABASE)) as other:
        other.execute("BEGIN EXCLUSIVE")
        answer = browser(busy).post(f"{PART}/notes", data=NOTE)
    assert answer.status_code == 503
    assert "Another program is writing" in said(answer)
    assert NOTE["text"] in said(answer)


def test_a_photo_sent_while_another_program_writes_can_be_sent_again(
    busy: Workspace,
) -> None:
    client = browser(busy)
    with closing(sqlite3.connect(busy.folder / DATABASE)) as other:
        other.execute("BEGIN IMMEDIATE")
        answer = send_photo(client)
        assert answer.status_code in (422, 503)
        assert "Another program is writing" in said(answer)
    assert send_photo(client).status_code == 303


def test_a_request_beyond_all_measure_is_refused_in_words(busy: Workspace) -> None:
    before = state(busy.folder)
    client = browser(busy)
    form = BOARD | {"species": "x" * 600_000}
    answer = client.post("/rack/buy", data=form)
    assert answer.status_code == 422
    assert "100,000 is the most that any field takes" in said(answer)
    form = BOARD | {"species": "x" * 10_000_000}
    answer = client.post("/rack/buy", data=form)
    assert answer.status_code == 413
    assert "That is more than this page takes" in said(answer)
    script = {"HX-Request": "true", "HX-Boosted": "true"}
    answer = client.post("/rack/buy", data=form, headers=script)
    # With script the page with what was typed stays where it is.
    assert answer.headers["HX-Retarget"] == "#refusal"
    assert "<form" not in answer.text
    assert state(busy.folder) == before
