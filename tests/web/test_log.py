"""The bench on its page: with script and without, and what is refused there."""

import re
from io import BytesIO

import pytest
from PIL import Image
from werkzeug.datastructures import FileStorage, MultiDict
from werkzeug.test import encode_multipart

from app.services import episodes, log
from tests.services.bench import SLUG, build, jpeg

PAGE = f"/series/{SLUG}/1"


@pytest.fixture
def steps(workspace) -> list[int]:
    return build(workspace)


def shown(workspace) -> log.LogView:
    return log.show(workspace, episodes.find(workspace, SLUG, 1).id)


def upload(client, *sent: tuple[str, bytes], step: str = "", **headers: str):
    files = [
        FileStorage(BytesIO(content), filename=name, name="photos")
        for name, content in sent
    ]
    data = MultiDict([("step", step), ("form_key", step)])
    data.update({"photos": files})
    boundary, body = encode_multipart(data)
    kind = f"multipart/form-data; boundary={boundary}"
    address = f"{PAGE}/photos"
    return client.post(address, data=body, content_type=kind, headers=headers)


def test_the_bench_shows_steps_set_ups_and_cautions(client, steps):
    page = client.get(PAGE).text
    assert "1. Bevel the walls" in page
    assert "22.5°" in page
    assert "close the joint on a square" in page
    assert 'class="caution"' in page
    assert "2 of 2 steps still to do." in page


def test_an_empty_bench_says_what_belongs_there(client, workspace):
    build(workspace)
    page = client.get(f"/series/{SLUG}/2").text
    assert "No steps yet. They come with the design." in page
    assert "What happens at the bench belongs here" in page


def test_a_tick_without_script_comes_to_the_next_step_and_undo_back(
    client, workspace, steps
):
    address = f"{PAGE}/steps/{steps[0]}/tick"
    answer = client.post(address, data={"done": "yes"})
    assert answer.status_code == 303
    assert answer.location.endswith(f"{PAGE}#step-{steps[1]}")
    assert shown(workspace).steps[0].done_at is not None
    undone = client.post(address, data={"done": "no"})
    assert undone.location.endswith(f"{PAGE}#step-{steps[0]}")
    ahead = client.post(f"{PAGE}/steps/{steps[1]}/tick", data={"done": "yes"})
    assert ahead.location.endswith(f"{PAGE}#step-{steps[1]}")


def opened(text: str) -> list[int]:
    """The steps that stand open on a page."""
    found = re.findall(r'<li id="step-(\d+)".*?<details( open)?>', text, re.S)
    return [int(step) for step, is_open in found if is_open]


def test_only_the_step_in_hand_stands_open(client, steps):
    assert opened(client.get(PAGE).text) == [steps[0]]
    # One done ahead of its turn leaves the step in hand where it is.
    client.post(f"{PAGE}/steps/{steps[1]}/tick", data={"done": "yes"})
    assert opened(client.get(PAGE).text) == [steps[0]]
    client.post(f"{PAGE}/steps/{steps[0]}/tick", data={"done": "yes"})
    assert opened(client.get(PAGE).text) == []


@pytest.mark.parametrize(
    ("address", "data"),
    [
        ("notes", {"text": ""}),
        ("photos", {}),
    ],
)
def test_a_refusal_opens_the_step_it_is_in(client, steps, address, data):
    data = data | {"step": str(steps[1]), "form_key": str(steps[1])}
    answer = client.post(f"{PAGE}/{address}", data=data)
    assert answer.status_code == 422
    assert opened(answer.text) == steps


def test_a_refused_change_of_a_note_opens_its_step(client, workspace, steps):
    client.post(f"{PAGE}/notes", data={"text": "Held", "step": str(steps[1])})
    (note,) = shown(workspace).steps[1].notes
    data = {"text": "", "version": "1", "form_key": str(note.id)}
    answer = client.post(f"{PAGE}/notes/{note.id}", data=data)
    assert opened(answer.text) == steps
    assert "1 note" in answer.text


def test_a_tick_ahead_of_its_turn_swaps_no_other_step(client, steps):
    address = f"{PAGE}/steps/{steps[1]}/tick"
    answer = client.post(address, data={"done": "yes"}, headers={"HX-Request": "true"})
    assert f'id="step-{steps[1]}"' in answer.text
    assert f'id="step-{steps[0]}"' not in answer.text


def test_a_tick_with_script_swaps_the_step_and_the_count(client, workspace, steps):
    address = f"{PAGE}/steps/{steps[0]}/tick"
    answer = client.post(address, data={"done": "yes"}, headers={"HX-Request": "true"})
    assert answer.status_code == 200
    assert answer.text.lstrip().startswith(
        f'<li id="step-{steps[0]}" class="step done"'
    )
    assert "<html" not in answer.text
    beside = answer.text.split(f'<li id="step-{steps[1]}"')[1]
    assert beside.startswith(' class="step now"')
    assert 'hx-swap-oob="true"' in beside.split(">")[0]
    assert "autofocus" in beside
    assert 'id="bench-left" aria-live="polite" hx-swap-oob="true"' in answer.text
    assert "1 of 2 steps still to do." in answer.text
    client.post(address, data={"done": "no"}, headers={"HX-Request": "true"})
    assert shown(workspace).left == 2


def test_a_note_is_shown_as_markdown_and_its_html_as_text(client, steps):
    text = "Gap is **0.2 mm** <script>alert(1)</script> [x](javascript:alert(1))"
    data = {"text": text, "step": str(steps[1]), "at": "2:30"}
    assert client.post(f"{PAGE}/notes", data=data).status_code == 303
    page = client.get(PAGE).text
    assert "<strong>0.2 mm</strong>" in page
    assert "<script>alert" not in page
    assert 'href="javascript' not in page
    assert "2:30 in the film" in page


def test_what_was_typed_in_a_refused_note_is_still_there(client, steps):
    data = {
        "text": "Held the square on it",
        "step": str(steps[0]),
        "at": "half past",
        "form_key": str(steps[0]),
    }
    answer = client.post(f"{PAGE}/notes", data=data)
    assert answer.status_code == 422
    assert "Held the square on it" in answer.text
    assert 'value="half past"' in answer.text
    assert "“half past” is not a time in the film." in answer.text


def test_a_stale_note_shows_both_versions(client, workspace, steps):
    client.post(f"{PAGE}/notes", data={"text": "First"})
    (note,) = shown(workspace).notes
    address, key = f"{PAGE}/notes/{note.id}", str(note.id)
    phone = {"text": "From the phone", "version": "1", "form_key": key}
    assert client.post(address, data=phone).status_code == 303
    laptop = {"text": "From the laptop", "version": "1", "form_key": key}
    answer = client.post(address, data=laptop)
    assert answer.status_code == 409
    assert "From the laptop" in answer.text
    assert "Saved now: From the phone" in answer.text
    again = re.search(
        rf'notes/{note.id}">.*?name="version" value="(\d+)"', answer.text, re.S
    )
    assert client.post(address, data=laptop | {"version": again[1]}).status_code == 303
    assert shown(workspace).notes[0].text == "From the laptop"
    gone = {"version": "3", "form_key": key}
    assert client.post(f"{address}/remove", data=gone).status_code == 303
    assert shown(workspace).notes == ()


def test_an_own_step_is_added_and_taken_out(client, workspace, steps):
    data = {"name": "Sand", "tool": "table saw", "detail": ""}
    answer = client.post(f"{PAGE}/steps", data=data)
    own = shown(workspace).steps[-1]
    assert answer.location.endswith(f"#step-{own.id}")
    assert client.post(f"{PAGE}/steps/{own.id}/remove").status_code == 303
    assert len(shown(workspace).steps) == 2


def test_many_photos_come_in_one_post_without_script(client, workspace, steps):
    answer = upload(
        client, ("a.jpg", jpeg(10)), ("b.jpg", jpeg(20)), step=str(steps[0])
    )
    assert answer.status_code == 303
    assert [p.name for p in shown(workspace).steps[0].photos] == ["a.jpg", "b.jpg"]


def test_a_bad_photo_among_good_ones_is_named_on_the_page(client, workspace, steps):
    answer = upload(client, ("a.jpg", jpeg()), ("letter.txt", b"Dear viewer"))
    assert answer.status_code == 422
    assert "1 kept. “letter.txt” is not a photo" in answer.text
    assert len(shown(workspace).photos) == 1
    again = upload(client, ("b.jpg", jpeg()))
    assert "“b.jpg” is in this log already, as “a.jpg”" in again.text


def test_the_script_gets_an_answer_for_each_photo(client, steps):
    accept = {"Accept": "application/json"}
    good = upload(client, ("a.jpg", jpeg()), **accept)
    assert good.json == {"kept": 1, "refusals": []}
    bad = upload(client, ("a.gif", b"GIF89a\1\0\1\0\0\0\0"), **accept)
    assert bad.json["kept"] == 0
    assert "GIF" in bad.json["refusals"][0]


def test_no_photo_chosen_is_said(client, steps):
    answer = upload(client, ("", b""))
    assert answer.status_code == 422
    assert "No photo was chosen." in answer.text


def test_a_photo_is_served_by_id_with_our_own_type(client, workspace, steps):
    sent = jpeg(comment=b"Owner Of The Shop")
    upload(client, ("bänch.png", sent))
    (photo,) = shown(workspace).photos
    for size in ("thumb", "web"):
        answer = client.get(f"/photos/{photo.id}/{size}")
        assert answer.content_type == "image/jpeg"
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        assert answer.headers["Content-Disposition"].startswith("inline; filename")
        assert answer.cache_control.private
        assert b"Owner" not in answer.data
        same = {"If-None-Match": answer.headers["ETag"]}
        assert client.get(f"/photos/{photo.id}/{size}", headers=same).status_code == 304
    original = client.get(f"/photos/{photo.id}/original")
    assert original.data == sent
    assert original.headers["Content-Disposition"].startswith("attachment")
    assert original.headers["Content-Security-Policy"] == "sandbox"
    assert client.get(f"/photos/{photo.id}/huge").status_code == 404
    assert client.get("/photos/999/web").status_code == 404


def test_a_photo_is_not_shown_to_another_page(client, workspace, steps):
    upload(client, ("a.jpg", jpeg()))
    (photo,) = shown(workspace).photos
    elsewhere = {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Dest": "image"}
    answer = client.get(f"/photos/{photo.id}/web", headers=elsewhere)
    assert answer.status_code == 403


def test_words_cover_and_removal_of_a_photo(client, workspace, steps):
    upload(client, ("a.jpg", jpeg()))
    (photo,) = shown(workspace).photos
    assert "1 photo without words" in client.get(PAGE).text
    address, key = f"{PAGE}/photos/{photo.id}", str(photo.id)
    words = {
        "caption": "Closed",
        "alt": "An eight-sided ring",
        "step": str(steps[0]),
        "version": "1",
        "form_key": key,
    }
    assert client.post(address, data=words).status_code == 303
    assert client.post(address, data=words).status_code == 409
    assert client.post(f"{address}/cover", data={"form_key": key}).status_code == 303
    page = client.get(PAGE).text
    assert 'alt="An eight-sided ring"' in page
    assert ">Cover<" in page
    assert client.post(f"{address}/remove", data={"form_key": key}).status_code == 303
    assert shown(workspace).steps[0].photos == ()


def test_a_turned_photo_is_shown_upright(client, workspace, steps):
    turned = Image.Exif()
    turned[0x0112] = 6
    upload(client, ("a.jpg", jpeg(exif=turned.tobytes())))
    (photo,) = shown(workspace).photos
    thumb = client.get(f"/photos/{photo.id}/thumb").data
    assert Image.open(BytesIO(thumb)).size == (40, 60)


def test_a_request_larger_than_the_route_takes_is_refused_in_words(
    client, steps, monkeypatch
):
    view = client.application.view_functions["log.add_photos"]
    monkeypatch.setattr(view, "most_bytes", 10_000)
    answer = upload(client, ("a.jpg", b"x" * 20_000))
    assert answer.status_code == 413
    assert "more than this page takes" in answer.text


def test_photos_may_be_larger_than_other_requests(client, workspace, steps):
    # 2 MB is the limit elsewhere; a phone's photo has more.
    padded = jpeg() + b"\0" * 3_000_000
    assert upload(client, ("a.jpg", padded)).status_code == 303
    assert len(shown(workspace).photos) == 1
