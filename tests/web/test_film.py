"""The film on its page: captions told, chapters judged."""

import re
from io import BytesIO

import pytest

from app.services import episodes, film
from tests.services.bench import SLUG, build

PAGE = f"/series/{SLUG}/1"
SRT = b"1\n00:00:01,000 --> 00:00:02,000\nTilt the blade.\n\n2\nLost <b>words</b>.\n"


@pytest.fixture(autouse=True)
def steps(workspace) -> list[int]:
    return build(workspace)


def shown(workspace) -> film.FilmView:
    return film.show(workspace, episodes.find(workspace, SLUG, 1).id)


def send(client, name: str, data: bytes):
    sent = {"captions": (BytesIO(data), name)}
    return client.post(f"{PAGE}/captions", data=sent)


def test_an_empty_film_says_what_is_missing(client):
    page = client.get(PAGE).text
    assert "No captions yet" in page
    assert "No chapters yet" in page
    assert "No link to the video" in page


def test_the_report_of_captions_names_line_and_reason(client, workspace):
    answer = send(client, "final.srt", SRT)
    assert answer.status_code == 303
    page = client.get(PAGE).text
    assert "<b>1</b> cue in" in page
    assert "1 place left out" in page
    assert "Line 5: “2 Lost &lt;b&gt;words&lt;/b&gt;.”" in page
    kept = client.get(f"{PAGE}/captions")
    assert kept.data == SRT
    assert "attachment; filename=final.srt" in kept.headers["Content-Disposition"]
    assert kept.headers["Content-Security-Policy"] == "sandbox"


def test_other_captions_take_the_place_and_can_be_removed(client, workspace):
    send(client, "final.srt", SRT)
    send(client, "final.vtt", b"WEBVTT\n\n00:01.000 --> 00:02.000\nRip.\n")
    assert shown(workspace).captions.name == "final.vtt"
    gone = client.post(f"{PAGE}/captions/remove", data={"version": "2"})
    assert gone.status_code == 303
    assert shown(workspace).captions is None
    assert client.get(f"{PAGE}/captions").status_code == 404


@pytest.mark.parametrize(
    ("name", "data", "says"),
    [
        ("letter.srt", b"Dear viewer", "There is no caption in the file"),
        ("final.vtt", b"1\n00:01,000 --> 00:02,000\nx", "The file is not WebVTT"),
        ("empty.vtt", b"", "The file is empty"),
        ("", b"", "No file was chosen"),
    ],
)
def test_what_is_no_caption_file_is_refused_beside_its_field(
    client, workspace, name: str, data: bytes, says: str
):
    answer = send(client, name, data)
    assert answer.status_code == 422
    assert says in answer.text
    assert shown(workspace).captions is None


def test_the_length_is_saved_and_a_bad_one_stays_typed(client, workspace):
    data = {"length": "14:05", "version": "1"}
    assert client.post(f"{PAGE}/film", data=data).status_code == 303
    assert shown(workspace).length == "14:05"
    answer = client.post(f"{PAGE}/film", data={"length": "long", "version": "2"})
    assert answer.status_code == 422
    assert 'value="long"' in answer.text
    stale = client.post(f"{PAGE}/film", data={"length": "15:00", "version": "1"})
    assert stale.status_code == 409
    assert "Saved now: 14:05" in stale.text


def test_chapters_are_added_changed_judged_and_taken_out(client, workspace):
    for at, title in (("0:05", "The idea"), ("0:45", "Bevels")):
        data = {"at": at, "title": title}
        assert client.post(f"{PAGE}/chapters", data=data).status_code == 303
    page = client.get(PAGE).text
    assert "it has to start at 0:00." in page
    assert "There are 2 chapters" in page
    idea, bevels = shown(workspace).chapters
    change = {"at": "0:00", "title": "Idea", "version": "1", "form_key": str(idea.id)}
    address = f"{PAGE}/chapters/{idea.id}"
    assert client.post(address, data=change).status_code == 303
    assert client.post(address, data=change | {"title": "x"}).status_code == 409
    client.post(f"{PAGE}/chapters", data={"at": "1:10", "title": "Glue"})
    assert "Players will take this list." in client.get(PAGE).text
    gone = client.post(f"{PAGE}/chapters/{bevels.id}/remove")
    assert gone.status_code == 303
    assert [item.title for item in shown(workspace).chapters] == ["Idea", "Glue"]


def test_a_refused_chapter_keeps_what_was_typed(client, workspace):
    answer = client.post(f"{PAGE}/chapters", data={"at": "soon", "title": "Glue-up"})
    assert answer.status_code == 422
    assert 'value="soon"' in answer.text
    assert 'value="Glue-up"' in answer.text
    assert shown(workspace).chapters == ()


def test_the_log_s_times_become_chapters(client, workspace, steps):
    note = {"text": "Square", "step": str(steps[0]), "at": "0:45"}
    client.post(f"{PAGE}/notes", data=note)
    page = client.get(PAGE).text
    offered = re.findall(r'name="take" value="([^"]+)" checked', page)
    assert offered == ["opening", "note-1"]
    taken = client.post(f"{PAGE}/chapters/take", data={"take": offered})
    assert taken.status_code == 303
    assert [item.title for item in shown(workspace).chapters] == [
        "Opening",
        "Bevel the walls",
    ]
    assert client.post(f"{PAGE}/chapters/take").status_code == 422
