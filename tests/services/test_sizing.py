"""The documents of the size command: the keys that stay stable."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from app.core.errors import WorkshopError
from app.core.forms.parts_list import HEADER
from app.core.length import Unit
from app.core.shop import Shop
from app.services import sizing

DIMENSIONS = {"length_nm", "width_nm", "thickness_nm"}
# The sizes that the contract promises for a straight vessel with all it can have.
PROMISED = {
    *("edge_bevel", "interior_angle", "outside_side", "outside_inscribed"),
    *("outside_circumscribed", "inside_side", "inside_inscribed", "base_inscribed"),
    *("base_side", "base_gauge_angle", "base_mark", "base_blank", "strip_width"),
    *("panel_length", "inside_volume", "corner_thickness", "spline_slot_depth"),
    *("spline_visible_length", "closing_gap_at_0_1_degree"),
}
ASKED = {
    *("sides", "outside_side", "outside_inscribed", "outside_circumscribed"),
    *("inside_inscribed", "height", "wall", "base", "base_thickness", "groove_depth"),
    *("groove_up", "base_clearance", "strip_rows", "species", "kerf"),
    *("splines_per_corner", "spline_thickness", "spline_depth_share"),
}


def document(**typed: str) -> dict[str, object]:
    return sizing.size_document("straight_vessel", typed, Shop())


def test_a_vessel_gives_every_promised_key() -> None:
    got = document(sides="6", outside_side="4", splines_per_corner="2")
    assert json.loads(json.dumps(got)) == got
    keys = ("form", "inputs", "sizes", "parts", "glue_ups", "set_ups", "steps")
    assert {*keys, "warnings"} <= set(got)
    sizes = {one["key"]: one for one in got["sizes"]}  # type: ignore[attr-defined]
    assert set(sizes) >= PROMISED
    for one in sizes.values():
        assert {"label", "kind", "unit", "text", "working", "source"} <= set(one)
        value = {"length": "nm", "angle": "degrees"}.get(one["kind"], "value")
        assert value in one
    assert sizes["edge_bevel"]["degrees"] == 30
    assert sizes["outside_side"]["nm"] == 101_600_000
    assert isinstance(sizes["inside_volume"]["value"], int)


def test_parts_glue_ups_set_ups_and_steps_have_their_keys() -> None:
    got = document(sides="6", outside_side="4", splines_per_corner="2")
    for part in got["parts"]:  # type: ignore[attr-defined]
        assert {"key", "name", "quantity", "species", "grain", "from"} <= set(part)
        assert set(part["finished"]) == set(part["blank"]) == DIMENSIONS
        assert len(part["outline_nm"]) >= 3
        assert part["grain"] in ("length", "width", "none")
    for glue_up in got["glue_ups"]:  # type: ignore[attr-defined]
        assert set(glue_up["panel"]) == DIMENSIONS
        assert set(glue_up["strips"][0]) >= {"species", "quantity", "blank"}
    panels = {one["key"] for one in got["glue_ups"]}  # type: ignore[attr-defined]
    assert {part["from"] for part in got["parts"]} <= panels | {None}  # type: ignore[attr-defined]
    for one in got["set_ups"]:  # type: ignore[attr-defined]
        asked = {"machine", "tilt_degrees", "gauge_degrees", "fence_nm", "stop_nm"}
        assert asked | {"face_down", "cuts", "check", "cautions"} <= set(one)
    for step in got["steps"]:  # type: ignore[attr-defined]
        asked = {"name", "tool", "set_up", "bench_minutes", "waits", "cautions"}
        assert asked <= set(step)
        for wait in step["waits"]:
            assert wait["until"] in ("unclamp", "machine", "recoat", "use")


def test_inputs_come_back_as_understood_and_give_the_same_again() -> None:
    got = document(sides="5", inside_inscribed="6 1/3", kerf="0.1")
    inputs = {key: text for key, text in got["inputs"].items() if text}  # type: ignore[attr-defined]
    again = document(**inputs)
    assert again["sizes"] == got["sizes"]
    assert again["parts"] == got["parts"]


def test_every_form_lists_its_inputs_with_their_defaults() -> None:
    forms = {one["form"]: one for one in sizing.forms_document()["forms"]}
    assert set(forms) >= {"straight_vessel", "parts_list"}
    for one in forms.values():
        for item in one["inputs"]:
            asked = {"key", "label", "kind", "default", "required", "choices", "help"}
            assert set(item) == asked
    assert {one["key"] for one in forms["straight_vessel"]["inputs"]} >= ASKED


def test_a_parts_list_is_read_from_the_file_that_is_named(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(b"\xef\xbb\xbf" + f"{HEADER}\r\nleg,4,40,40,720,ash\r\n".encode())
    shop = Shop(unit=Unit.MILLIMETRE)
    got = sizing.size_document("parts_list", {"file": str(path)}, shop)
    assert got["parts"][0]["finished"]["length_nm"] == 720_000_000


def test_a_printed_list_and_its_other_facts_are_in_the_document(tmp_path: Path) -> None:
    path = tmp_path / "list.txt"
    path.write_text("2 sides, 7/8 by 5 by 14 in. S-4-S\n", "utf-8")
    inputs = {"file": str(path), "species": "ash"}
    (part,) = sizing.size_document("parts_list", inputs, Shop())["parts"]
    assert (part["species"], part["quantity"]) == ("ash", 2)
    assert part["finished"]["thickness_nm"] == 22_225_000
    assert part["more"] == {"surfaced": "S-4-S"}


def test_a_file_that_cannot_be_read_is_refused(tmp_path: Path) -> None:
    (tmp_path / "photo.jpg").write_bytes(b"\xff\xd8\xff\xe0")
    for name in ("nothing.csv", "photo.jpg", "\0", ""):
        path = str(tmp_path / name) if name not in ("\0", "") else name
        with pytest.raises(WorkshopError) as refused:
            sizing.size_document("parts_list", {"file": path}, Shop())
        assert refused.value.input == "file"


def test_tables_and_supplies_go_out_with_the_sizes() -> None:
    got = document(sides="6", outside_side="4", base_clearance="1/64")
    tables = {one["key"]: one for one in got["tables"]}  # type: ignore[attr-defined]
    assert "wood_by_species" in tables
    for table in tables.values():
        assert set(table) == {
            *("key", "title", "headings", "rows", "working", "source")
        }
        assert all(len(row) == len(table["headings"]) for row in table["rows"])
    supplies = [one for step in got["steps"] for one in step["supplies"]]  # type: ignore[attr-defined]
    assert {"name", "quantity"} == set(supplies[0])
    assert "PVA wood glue" in {one["name"] for one in supplies}
    keys = {size["key"] for size in got["sizes"]}  # type: ignore[attr-defined]
    assert {"finished_board_feet", "rough_cubic_metres", "weight"} <= keys


def test_a_spare_is_told_from_the_parts_of_the_build() -> None:
    document = sizing.size_document("stave_cylinder", {"spares": "1"}, Shop())
    told = {part["key"]: part["spare"] for part in document["parts"]}
    assert told == {"stave_a": False, "stave_a-spare": True, "stave_b": False}
