"""Designing in the browser: choose a form, try inputs, keep what is right."""

from __future__ import annotations

import re
from io import BytesIO

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select

from app.core.by_hand import without
from app.core.shop import Shop
from app.services import designs
from app.store.schema import DesignRow, Episode, PartRow, Series, StepRow
from app.store.workspace import Workspace
from tests.conftest import NOON

PAGE = "/series/porch/1/design"
TRY = f"{PAGE}/try"
HEXAGON = {
    "form": "straight_vessel",
    "version": "0",
    "sides": "6",
    "outside_side": "4",
    "height": "6",
    "wall": "1/2",
    "species": "walnut\nmaple",
}


@pytest.fixture(autouse=True)
def episode(workspace: Workspace) -> None:
    with workspace.write() as work:
        series = Series(slug="porch", title="Porch pieces")
        work.add(series)
        work.flush()
        work.add(
            Episode(series_id=series.id, number=1, slug="planter", title="A planter")
        )


def parts(workspace: Workspace) -> dict[str, int]:
    with workspace.read() as work:
        return {row.key: row.quantity for row in work.scalars(select(PartRow))}


def kept_inputs(workspace: Workspace) -> dict[str, str] | None:
    with workspace.read() as work:
        row = work.scalar(select(DesignRow))
        return None if row is None else dict(row.inputs)


def test_an_episode_without_a_design_says_where_to_begin(client: FlaskClient) -> None:
    text = client.get("/series/porch/1").text
    assert "Nothing designed yet" in text
    assert PAGE in text


def test_every_form_is_offered(client: FlaskClient) -> None:
    text = client.get(PAGE).text
    assert "Straight vessel" in text
    assert "Parts list" in text


def test_a_form_opens_on_something_drawn(client: FlaskClient) -> None:
    text = client.get(f"{PAGE}?form=straight_vessel").text
    assert "<svg" in text
    assert 'value="4 in"' in text


def test_a_saved_vessel_is_on_the_episode_page(
    client: FlaskClient, workspace: Workspace
) -> None:
    answer = client.post(PAGE, data=HEXAGON)
    assert answer.status_code == 303
    assert answer.headers["Location"].endswith("/series/porch/1#design")
    assert parts(workspace) == {"wall": 6, "base": 1}
    text = client.get("/series/porch/1").text
    assert "Vessel with 6 sides" in text
    assert "101.6 mm" in text  # 4 in for a viewer elsewhere, exact by definition
    assert "29 CFR" not in text  # cautions in words, sources elsewhere


def test_trying_keeps_nothing(client: FlaskClient, workspace: Workspace) -> None:
    answer = client.post(TRY, data=HEXAGON, headers={"HX-Request": "true"})
    assert answer.status_code == 200
    assert 'id="tried"' in answer.text
    assert "<html" not in answer.text
    assert kept_inputs(workspace) is None


def test_trying_without_script_gives_the_page_back_as_typed(
    client: FlaskClient, workspace: Workspace
) -> None:
    answer = client.post(TRY, data=HEXAGON | {"outside_side": "5 1/4"})
    assert answer.status_code == 200
    assert "<html" in answer.text
    assert 'value="5 1/4"' in answer.text
    assert kept_inputs(workspace) is None


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        ({"sides": "17"}, "16 is the most"),
        ({"sides": "six"}, "is not a whole number"),
        ({"wall": "-1/2"}, "cannot be negative"),
        ({"height": "tall"}, "has no number in it"),
        ({"groove_depth": "3/4"}, "goes through a wall"),
        ({"wall": "9"}, "meet in the middle"),
        ({"outside_inscribed": "7"}, "are given together"),
        ({"form": "teapot"}, "There is no form"),
    ],
)
def test_what_cannot_be_built_is_refused_beside_what_was_typed(
    client: FlaskClient, workspace: Workspace, wrong: dict[str, str], sentence: str
) -> None:
    for place in (PAGE, TRY):
        answer = client.post(place, data=HEXAGON | {"kerf": "0.111"} | wrong)
        assert answer.status_code == 422
        assert sentence in answer.text
    assert kept_inputs(workspace) is None


def test_a_refused_design_keeps_every_field_as_typed(client: FlaskClient) -> None:
    answer = client.post(PAGE, data=HEXAGON | {"kerf": "0.111", "sides": "17"})
    assert 'value="0.111"' in answer.text
    assert 'value="17"' in answer.text


def test_all_faults_are_told_at_once(client: FlaskClient) -> None:
    answer = client.post(PAGE, data=HEXAGON | {"sides": "17", "height": "tall"})
    assert "16 is the most" in answer.text
    assert "has no number in it" in answer.text


def test_a_design_saved_in_another_window_is_not_overwritten(
    client: FlaskClient, workspace: Workspace
) -> None:
    client.post(PAGE, data=HEXAGON)
    client.post(PAGE, data=HEXAGON | {"version": "1", "sides": "8"})
    answer = client.post(PAGE, data=HEXAGON | {"version": "1", "sides": "5"})
    assert answer.status_code == 409
    assert 'value="5"' in answer.text
    assert "Saved now: 8" in answer.text
    assert parts(workspace)["wall"] == 8
    again = client.post(PAGE, data=HEXAGON | {"version": "2", "sides": "5"})
    assert again.status_code == 303
    assert parts(workspace)["wall"] == 5


def test_ticked_steps_stay_when_the_design_changes(
    client: FlaskClient, workspace: Workspace
) -> None:
    client.post(PAGE, data=HEXAGON | {"splines_per_corner": "2"})
    with workspace.write() as work:
        for row in work.scalars(select(StepRow)):
            if row.key in ("bevel", "spline-slots"):
                row.done_at = NOON
        work.add(
            StepRow(
                episode_id=1,
                position=99,
                key="own-1",
                name="Sign the base",
                tool="hand saw",
                from_form=False,
            )
        )
    client.post(PAGE, data=HEXAGON | {"version": "1", "sides": "8"})
    with workspace.read() as work:
        rows = list(work.scalars(select(StepRow).order_by(StepRow.position)))
        ticked = {row.key for row in rows if row.done_at}
        keys = [row.key for row in rows]
        positions = [row.position for row in rows]
    assert ticked == {"bevel", "spline-slots"}
    assert "trim-splines" not in keys
    assert keys[-1] == "own-1"
    assert len(set(keys)) == len(keys)
    assert positions == list(range(len(positions)))


def test_a_parts_list_comes_from_a_file(
    client: FlaskClient, workspace: Workspace
) -> None:
    text = "species,part,quantity,thickness,width,length\r\noak,leg,4,1 1/2,1.5,16\r\n"
    sent = {
        "form": "parts_list",
        "version": "0",
        "file": "",
        "file_from_disk": (BytesIO(b"\xef\xbb\xbf" + text.encode()), "legs.csv"),
    }
    answer = client.post(PAGE, data=sent, content_type="multipart/form-data")
    assert answer.status_code == 303
    assert parts(workspace) == {"leg": 4}


def test_a_printed_list_is_asked_about_until_every_line_is_plain(
    client: FlaskClient, workspace: Workspace
) -> None:
    asked = {
        "form": "parts_list",
        "version": "0",
        "file": "2 sides, 7/8 by 5 by 14 in. S-4-S\n1 box of nails\n",
        "species": "",
    }
    answer = client.post(PAGE, data=asked)
    assert answer.status_code == 422
    assert "Line 2, “1 box of nails”" in answer.text
    assert "Printed lines name no wood" in answer.text
    assert "2 sides, 7/8 by 5 by 14 in. S-4-S" in answer.text  # nothing typed is lost
    assert parts(workspace) == {}
    mended = asked | {"file": asked["file"].split("1 box")[0], "species": "ash"}
    assert client.post(PAGE, data=mended).status_code == 303
    assert parts(workspace) == {"sides": 2}
    assert "surfaced: S-4-S" in client.get("/series/porch/1").text


def test_a_file_that_is_no_text_is_refused(client: FlaskClient) -> None:
    sent = {
        "form": "parts_list",
        "version": "0",
        "file": "",
        "file_from_disk": (BytesIO(b"\xff\xd8\xff\xe0\x00\x10"), "photo.csv"),
    }
    answer = client.post(PAGE, data=sent, content_type="multipart/form-data")
    assert answer.status_code == 422
    assert "not text in UTF-8" in answer.text


def test_inputs_are_kept_with_their_unit(
    client: FlaskClient, workspace: Workspace
) -> None:
    client.post(PAGE, data=HEXAGON)
    kept = kept_inputs(workspace)
    assert kept is not None
    assert kept["outside_side"] == "4 in"
    assert "outside_inscribed" not in kept
    text = client.get(PAGE).text
    assert 'value="4 in"' in text


def test_no_page_of_a_design_carries_inline_style(client: FlaskClient) -> None:
    client.post(PAGE, data=HEXAGON)
    for place in ("/series/porch/1", PAGE):
        assert " style=" not in client.get(place).text


def test_a_change_is_worked_out_and_drawn_once(
    client: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    client.post(PAGE, data=HEXAGON)
    tried: list[str] = []
    real = designs.attempt

    def counted(key: str, inputs: dict[str, str], shop: Shop) -> object:
        tried.append(key)
        return real(key, inputs, shop)

    monkeypatch.setattr(designs, "attempt", counted)
    client.post(TRY, data=HEXAGON, headers={"HX-Request": "true"})
    assert tried == ["straight_vessel"]


def test_a_folded_group_tells_its_one_number(client: FlaskClient) -> None:
    text = client.post(TRY, data=HEXAGON, headers={"HX-Request": "true"}).text
    # 6 sides, both edges of each off by 0.1°: 1.2° over 4 in is 0.084 in.
    assert '<span class="gist">0.1° opens 0.084 in</span>' in text
    assert re.search(r'<span class="gist">[a-z ]+ swells 0\.\d{3} in</span>', text)
    assert re.search(r'<span class="gist">[\d.]+ board feet, rough</span>', text)


def test_the_nearest_that_works_is_used_by_a_button_without_script(
    client: FlaskClient,
) -> None:
    refused = client.post(TRY, data=HEXAGON | {"wall": "9"})
    use = re.search(r'name="use" value="(wall=[^"]+)"', refused.text)
    assert use is not None
    answer = client.post(TRY, data=HEXAGON | {"wall": "9", "use": use[1]})
    assert answer.status_code == 200
    assert f'value="{use[1].removeprefix("wall=")}"' in answer.text
    assert 'name="use"' not in answer.text


def test_each_machine_says_how_the_work_goes_without_it(client: FlaskClient) -> None:
    client.post(PAGE, data=HEXAGON)
    text = client.get("/series/porch/1").text
    assert without("table saw") in text
    assert text.index("<h4>Table saw</h4>") < text.index(without("table saw"))


def test_viewers_get_every_part_in_both_systems(client: FlaskClient) -> None:
    client.post(PAGE, data=HEXAGON)
    text = client.get("/series/porch/1").text
    pasted = text.split('id="text-viewer">')[1].split("</pre>")[0].splitlines()
    wall = next(line for line in pasted if line.startswith("6 × Wall"))
    # Exact by definition: an inch is 25.4 mm.
    assert wall.split("\t")[1:] == ["1/2 × 6 × 4", "12.7 × 152.4 × 101.6"]
    assert "Outside side\t4\t101.6" in pasted


def test_what_few_touch_is_folded_until_it_is_filled_or_at_fault(
    client: FlaskClient,
) -> None:
    def fold(name: str, more: dict[str, str]) -> bool:
        text = client.post(TRY, data=HEXAGON | more).text
        found = re.search(rf'<details class="fewer"( open)?><summary><h3>{name}', text)
        assert found is not None
        return not found[1]

    assert fold("The last joint", {})
    assert not fold("The last joint", {"widest_gap": "0.2 mm"})
    assert not fold("The last joint", {"widest_gap": "wide"})
    assert not fold("Finish", {"coats": "11"})


def test_an_input_left_to_the_shop_says_what_the_shop_has(client: FlaskClient) -> None:
    text = client.get(f"{PAGE}?form=straight_vessel").text
    assert "Left empty: the shop’s, 1/8 in." in text
    assert "1/2 in long, 1/8 in wide, 1/16 in thick" in text
