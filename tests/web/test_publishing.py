"""Going out, in a browser without a screen."""

from __future__ import annotations

import html
import re
import zipfile
from io import BytesIO

import pytest
from flask.testing import FlaskClient

from app.publish import pack
from app.services import designs, publishing, used
from app.services.used import UsedTyped
from app.store.schema import Episode
from app.store.workspace import Workspace
from tests.conftest import NOON
from tests.services.shop import MONDAY, SLUG, chapters, leftover, porch, steps

PAGE = f"/series/{SLUG}/1"
OUT = f"{PAGE}/out"


def read(client: FlaskClient, path: str = PAGE) -> str:
    answer = client.get(path)
    assert answer.status_code == 200
    return html.unescape(answer.text)


def test_an_empty_part_says_in_words_what_is_missing(
    client: FlaskClient, workspace: Workspace
) -> None:
    porch(workspace)
    shown = read(client)
    for lack in (
        "No chapters yet.",
        "No cover photo chosen yet.",
        "No disclosure yet",
    ):
        assert lack in shown
    assert "Nothing is frozen yet." in shown


def test_every_block_stands_as_text_to_copy_with_its_count(
    client: FlaskClient, workspace: Workspace
) -> None:
    first, *_ = porch(workspace)
    chapters(workspace, first)
    with workspace.write() as work:
        work.get_one(Episode, first).opening = "Für die Veranda."
    shown = read(client)
    assert "0:45 Rip" in shown
    opening = "Für die Veranda.\nPart 1 of 3 of the series Porch pieces."
    assert opening in shown
    assert f"{len(opening)} characters, {len(opening) + 1} bytes" in shown


def test_words_of_the_maker_are_kept_marked_and_given_back(
    client: FlaskClient, workspace: Workspace
) -> None:
    first, *_ = porch(workspace)
    answer = client.post(
        f"{OUT}/blocks/chapters", data={"version": "0", "text": "<b>Mine</b>"}
    )
    assert (answer.status_code, answer.headers["Location"]) == (
        303,
        f"{PAGE}#block-chapters",
    )
    assert "&lt;b&gt;Mine&lt;/b&gt;" in client.get(PAGE).text
    chapters(workspace, first)
    assert "The facts have changed since you wrote this." in read(client)
    answer = client.post(f"{OUT}/blocks/chapters/restore", data={"version": "1"})
    assert answer.status_code == 303
    assert "<b>Mine</b>" not in read(client)


def test_a_stale_edit_of_a_block_shows_both(
    client: FlaskClient, workspace: Workspace
) -> None:
    first, *_ = porch(workspace)
    publishing.edit_block(workspace, first, "opening", "One window.", 0)
    form = {"form_key": "opening", "version": "0", "text": "The other."}
    answer = client.post(f"{OUT}/blocks/opening", data=form)
    assert answer.status_code == 409
    assert "The other." in answer.text
    assert "Saved now: One window." in answer.text


def test_freezing_twice_without_a_change_is_refused_in_place(
    client: FlaskClient, workspace: Workspace
) -> None:
    porch(workspace)
    assert client.post(f"{OUT}/freeze").status_code == 303
    again = client.post(f"{OUT}/freeze")
    assert again.status_code == 422
    assert "Nothing has changed since revision 1 was frozen" in again.text
    assert "Freeze revision 2" in again.text


def test_later_changes_are_shown_as_a_difference(
    client: FlaskClient, workspace: Workspace
) -> None:
    first, *_ = porch(workspace)
    client.post(f"{OUT}/freeze")
    chapters(workspace, first)
    shown = read(client)
    assert "Changed since revision 1" in shown
    assert "<ins>0:45 Rip</ins>" in shown


@pytest.mark.parametrize("name", pack.exporters())
def test_every_file_is_sent_to_be_saved(
    client: FlaskClient, workspace: Workspace, name: str
) -> None:
    first, *_ = porch(workspace)
    publishing.freeze(workspace, first, MONDAY, NOON)
    for which in ("draft", "1"):
        answer = client.get(f"{OUT}/{which}/{name}")
        assert answer.status_code == 200
        # RFC 6266: attachment; the sandbox is a second lock on the page.
        sent = answer.headers["Content-Disposition"]
        assert sent.startswith(f'attachment; filename="{name.rpartition("/")[2]}"')
        assert "sandbox" in answer.headers["Content-Security-Policy"]
    assert answer.data == pack.render(
        publishing.chosen(workspace, first, 1, None), name
    )


def test_the_whole_pack_is_sent_as_an_archive(
    client: FlaskClient, workspace: Workspace
) -> None:
    porch(workspace)
    answer = client.get(f"{OUT}/draft/pack.zip")
    assert "01-lantern-stand-draft.zip" in answer.headers["Content-Disposition"]
    with zipfile.ZipFile(BytesIO(answer.data)) as archive:
        assert set(pack.exporters()) <= set(archive.namelist())


@pytest.mark.parametrize(
    "path",
    [
        *("9/description.txt", "x/description.txt", "draft/secret.txt", "²/plan.pdf"),
        *("draft/../../stockthread.sqlite3", "draft/photos/01.jpg", "9/pack.zip"),
    ],
)
def test_what_is_not_in_a_pack_is_not_found(
    client: FlaskClient, workspace: Workspace, path: str
) -> None:
    porch(workspace)
    assert client.get(f"{OUT}/{path}").status_code == 404


def test_a_real_build_goes_out_with_its_sizes_cut_list_and_drawings(
    client: FlaskClient, workspace: Workspace
) -> None:
    first, second, _ = porch(workspace)
    leftover(workspace, first, second)
    chosen = {
        *(("sides", "6"), ("outside_side", "4 1/2"), ("height", "6")),
        *(("species", "walnut, maple"), ("strip_rows", "3")),
    }
    designs.save(workspace, second, "straight_vessel", dict(chosen), 0)
    made = publishing.sheet(workspace, second, MONDAY)
    assert made.build
    text = made.description
    # Interior angles of a hexagon are 120°, so each edge is bevelled 30°.
    assert re.search(r"bevel[^\n]*: 30°", text, re.IGNORECASE)
    assert "4 1/2 in, or 114.3 mm" in text
    assert {line.into for line in made.cut_list} - {""}
    assert made.drawings
    assert all(picture.svg.startswith("<svg") for picture in made.drawings)
    assert made.cautions
    page = client.get(f"/series/{SLUG}/2/out/draft/episode.html").text
    assert page.count("<svg") == len(made.drawings)


def test_items_are_added_changed_and_removed_on_the_page(
    client: FlaskClient, workspace: Workspace
) -> None:
    first, *_ = porch(workspace)
    form = {"kind": "supply", "name": "wax", "given": "yes", "cost": ""}
    assert client.post(f"{PAGE}/used", data=form).status_code == 303
    (item,) = used.of_episode(workspace, first)
    assert "I was given wax for this build." in read(client)
    form |= {"version": "1", "name": "hard wax", "form_key": str(item.id)}
    assert client.post(f"{PAGE}/used/{item.id}", data=form).status_code == 303
    stale = client.post(f"{PAGE}/used/{item.id}", data=form | {"name": "soft wax"})
    assert stale.status_code == 409
    assert "soft wax" in stale.text
    assert "Saved now: hard wax" in stale.text
    gone = client.post(f"{PAGE}/used/{item.id}/remove", data={"version": "2"})
    assert gone.status_code == 303
    assert used.of_episode(workspace, first) == ()


def test_a_refused_item_keeps_what_was_typed(
    client: FlaskClient, workspace: Workspace
) -> None:
    porch(workspace)
    form = {"kind": "tool", "name": "square", "url": "javascript:alert(1)"}
    answer = client.post(f"{PAGE}/used", data=form)
    assert answer.status_code == 422
    assert 'value="square"' in answer.text
    assert "is not a web address" in html.unescape(answer.text)


def test_a_given_item_of_one_part_is_no_business_of_another(
    client: FlaskClient, workspace: Workspace
) -> None:
    first, second, _ = porch(workspace)
    used.add(workspace, first, UsedTyped("supply", "wax", given=True))
    steps(workspace, second)
    assert "I was given" not in read(client, f"/series/{SLUG}/2")
