"""Files that are not what their form asks for: photos, captions, archives, lists."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import pytest
from flask.testing import FlaskClient
from PIL import Image

from app.publish.zips import open_zip, zipped
from app.services import files, tasks
from app.store.workspace import Workspace, open_workspace
from tests.services.bench import jpeg
from tests.services.two_series import fill as fill_two
from tests.web.full_shop import NEXT, NOTE, PART, browser, fill, said, state


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Workspace]:
    """The full workspace, for all that has to leave it as it is."""
    opened = open_workspace(tmp_path_factory.mktemp("shop") / "data")
    fill(browser(opened, TESTING=True))
    yield opened
    opened.close()


@pytest.fixture(scope="module")
def reader(whole: Workspace) -> FlaskClient:
    return browser(whole)


def bomb() -> bytes:
    """A PNG of 200 megapixels in some 200 kB: one bit a pixel, all the same."""
    held = BytesIO()
    Image.new("1", (20_000, 10_000)).save(held, "PNG")
    return held.getvalue()


WHOLE = jpeg(width=400, height=300)
PHOTOS = {
    "a letter": (b"Dear viewer", "“ring.jpg” is not a photo"),
    "nothing at all": (b"", "is empty: it has no bytes"),
    "a GIF": (b"GIF89a\1\0\1\0\0\0\0", "is a GIF"),
    "a page": (b"<svg onload=alert(1)>", "is an SVG drawing"),
    "half a photo": (WHOLE[: len(WHOLE) // 2], "is cut short or damaged"),
    "its first bytes": (WHOLE[:20], "not a photo|is cut short or damaged"),
    "200 megapixels": (bomb(), "has more than 60 million pixels"),
}


@pytest.mark.parametrize("what", PHOTOS)
def test_what_is_no_whole_photo_is_refused_by_name_and_leaves_nothing(
    reader: FlaskClient, whole: Workspace, what: str
) -> None:
    data, says = PHOTOS[what]
    before = state(whole.folder)
    sent = {"photos": (BytesIO(data), "ring.jpg"), "step": ""}
    answer = reader.post(f"{PART}/photos", data=sent)
    assert answer.status_code == 422
    assert any(words in said(answer) for words in says.split("|")), said(answer)
    assert state(whole.folder) == before


NOT_VTT = "The file is not WebVTT: its first line must be “WEBVTT”"
CAPTIONS = {
    "a letter": (b"Dear viewer", NOT_VTT),
    "nothing at all": (b"", "The file is empty."),
    "a photo": (jpeg(), NOT_VTT),
    "another kind by its name": (b"1\n00:00:01,000 --> 00:00:02,000\nx\n", NOT_VTT),
    "zero bytes": (b"\0" * 4000, "The file is empty."),
}


@pytest.mark.parametrize("what", CAPTIONS)
def test_what_holds_no_captions_is_refused_and_the_old_ones_stay(
    reader: FlaskClient, whole: Workspace, what: str
) -> None:
    data, says = CAPTIONS[what]
    before = state(whole.folder)
    sent = {"captions": (BytesIO(data), "cut.vtt")}
    answer = reader.post(f"{PART}/captions", data=sent)
    assert answer.status_code == 422
    assert any(words in said(answer) for words in says.split("|")), said(answer)
    assert state(whole.folder) == before


LISTS = {
    "no heading": ("rail,2,3/4,2,12,walnut", "has no column"),
    "text for a number": ("rail,two,3/4,2,12,walnut", "Line 2, quantity"),
    "a negative size": ("rail,2,-3/4,2,12,walnut", "Line 2, thickness"),
    "an endless size": ("rail,2,1e400,2,12,walnut", "Line 2, thickness"),
    "a formula for a number": ("rail,=1+1,3/4,2,12,walnut", "Line 2, quantity"),
    "an open quote": ('"rail,2,3/4,2,12,walnut', "cannot be read as CSV"),
    "a field too many": ("rail,2,3/4,2,12,walnut,oak", "Line 2 has 7 fields"),
    "a control mark": ("ra\x07il,2,3/4,2,12,walnut", "control mark (U+0007)"),
}
HEADING = "part,quantity,thickness,width,length,species\n"


@pytest.mark.parametrize("what", LISTS)
def test_a_parts_list_with_a_fault_is_refused_by_line_and_stays_as_typed(
    reader: FlaskClient, whole: Workspace, what: str
) -> None:
    row, says = LISTS[what]
    text = row if what == "no heading" else HEADING + row
    before = state(whole.folder)
    form = {"form": "parts_list", "version": "1", "file": text}
    answer = reader.post(f"{NEXT}/design", data=form)
    assert answer.status_code == 422
    assert says in said(answer)
    assert row.split(",", 1)[1] in said(answer)
    assert state(whole.folder) == before


@pytest.fixture(scope="module")
def series(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """A series' zip, by its files."""
    other = open_workspace(tmp_path_factory.mktemp("other") / "data")
    fill_two(other)
    made = files.zipped_series(other, "sill")
    other.close()
    with open_zip(made) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def changed(inside: dict[str, bytes], **facts: object) -> dict[str, bytes]:
    """The series with keys of its main document changed."""
    document = json.loads(inside["series.json"])
    for path, value in facts.items():
        *way, last = path.split("__")
        place = document
        for step in way:
            place = place[int(step) if step.isdecimal() else step]
        place[last] = value
    return inside | {"series.json": json.dumps(document).encode()}


ARCHIVES = {
    "a way out": (lambda i: i | {"../out": b"?"}, "outside the archive"),
    "a far way out": (lambda i: i | {"/etc/shop": b"?"}, "outside the archive"),
    "a drive": (lambda i: i | {"c:/shop": b"?"}, "names a drive"),
    "nothing of ours": (lambda _: {"a": b"?"}, "the file is missing"),
    "no JSON": (lambda i: i | {"series.json": b"{"}, "is not JSON"),
    "a word for a number": (lambda i: i | {"stock.json": b"[NaN]"}, "is not JSON"),
    "endless figures": (
        lambda i: i | {"stock.json": b"[" + b"9" * 9000 + b"]"},
        "is not JSON",
    ),
    "a zero byte": (lambda i: changed(i, series__title="a\0"), "control mark U+0000"),
    "half a letter": (
        lambda i: changed(i, series__title="a\ud800"),
        "control mark U+D800",
    ),
    "a long title": (lambda i: changed(i, series__title="x" * 300), "“title”"),
    "an unknown zone": (
        lambda i: changed(i, settings__zone="Nowhere/Else"),
        "do not fit together",
    ),
    "an unknown unit": (
        lambda i: changed(i, settings__unit="ell"),
        "do not fit|“unit”",
    ),
    "air of no climate": (
        lambda i: changed(
            i, settings__shop={"air_now_humidity": 5000, "air_now_celsius": 200}
        ),
        "do not fit together",
    ),
    "our own address": (lambda i: changed(i, series__slug="new"), "cannot be a series"),
    "a path for a name": (
        lambda i: changed(i, episodes__0__slug="../up"),
        "no short name of a part",
    ),
    "a number of no part": (
        lambda i: changed(i, episodes__0__number=0),
        "no number of a part",
    ),
    "text for a list": (lambda i: changed(i, episodes="x"), "no list of records"),
    "text for waits": (lambda i: changed(i, steps__0__waits="x"), "do not fit|“waits”"),
    "a plan of nothing": (lambda i: changed(i, plans__0__answer={}), "lacks"),
}


@pytest.mark.parametrize("what", ARCHIVES)
def test_an_archive_with_a_fault_brings_nothing_in(
    whole: Workspace, reader: FlaskClient, series: dict[str, bytes], what: str
) -> None:
    change, says = ARCHIVES[what]
    before = state(whole.folder)
    sent = {"file": (BytesIO(zipped(change(dict(series)).items())), "sill.zip")}
    answer = reader.post("/import", data=sent)
    words = said(answer)
    if answer.status_code == 303:  # what only shows when it is brought in
        words = tasks.wait(answer.location.rsplit("/", 1)[-1], 60).refusal
    assert any(piece in words for piece in says.split("|")), words
    assert state(whole.folder) == before
    assert reader.get("/").status_code == 200


def test_scripts_in_markdown_are_shown_as_text(reader: FlaskClient) -> None:
    text = (
        "<script>alert(1)</script> <img src=x onerror=alert(2)> "
        "[one](javascript:alert(3)) [two](JaVaScRiPt:alert(4)) "
        "[three](data:text/html;base64,PHNjcmlwdD4=) ![four](javascript:alert(5))"
    )
    assert reader.post(f"{PART}/notes", data=NOTE | {"text": text}).status_code == 303
    answer = reader.get(PART)
    assert "<script>alert(1)</script>" in said(answer)
    links = re.findall(r"(?:href|src|action)=\"([^\"]*)\"", answer.text)
    assert links
    assert not [one for one in links if re.match("(?i)(javascript|data):", one)]
    assert "<script>alert" not in answer.text
    assert "<img src=x" not in answer.text


def test_words_of_every_script_come_back_as_typed(reader: FlaskClient) -> None:
    for text in ("🪚 Säge 木 👩‍🔧", "מַסּוֹר וְעֵץ", "\u202bقص\u202c 6 in", "=1+1", "%00"):
        assert (
            reader.post(f"{PART}/notes", data=NOTE | {"text": text}).status_code == 303
        )
        assert text in reader.get(PART).text
    backup = reader.get("/settings/backup.zip")
    assert backup.status_code == 200
    backup.close()


def test_a_series_named_in_any_script_goes_out_and_comes_back(
    tmp_path: Path,
) -> None:
    first = open_workspace(tmp_path / "first")
    client = browser(first)
    there = client.post("/series/new", data={"title": "花台 №1"}).location
    made = client.get(f"{there}/files.zip")
    second = open_workspace(tmp_path / "second")
    files.import_series(second, made.data)
    assert "花台 №1" in browser(second).get(there).text
    made.close()
    first.close()
    second.close()
