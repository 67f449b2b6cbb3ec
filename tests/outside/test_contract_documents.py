"""The document of ``size`` as another program reads it: shapes, set-ups, cutting.

What is held here is what the promise says in words, not what the program does.
"""

from __future__ import annotations

import json
import math
from collections import Counter
from dataclasses import replace
from typing import Any

import pytest

from app.core.angle import Angle
from app.core.errors import WorkshopError
from app.core.safety import cautions
from app.services import cut_jobs
from app.services.sizing import size_document
from tests.outside.promised import METRIC, Document, document, sizes, value

# Only inputs that the table of forms names; from few sides to many, both grains.
BUILDS: dict[str, tuple[str, dict[str, object]]] = {
    "vessel of 3": ("straight_vessel", {"sides": 3, "outside_side": 200}),
    "vessel of 6": (
        "straight_vessel",
        {"sides": 6, "outside_inscribed": 220, "height": 150, "splines_per_corner": 2},
    ),
    "vessel of 7": (
        "straight_vessel",
        {"sides": 7, "inside_inscribed": 200, "height": 120, "base": "rebate"},
    ),
    "vessel of 16": ("straight_vessel", {"sides": 16, "outside_circumscribed": 400}),
    "splayed 3": (
        "tapered_vessel",
        {"sides": 3, "top_inscribed": 200, "bottom_inscribed": 180, "height": 90},
    ),
    "splayed 8": (
        "tapered_vessel",
        {"sides": 8, "top_inscribed": 260, "bottom_inscribed": 180, "height": 120},
    ),
    "leaning 14": (
        "tapered_vessel",
        {"sides": 14, "top_inscribed": 250, "bottom_inscribed": 300, "height": 90},
    ),
    "frame": ("mitred_tray", {"sides": 4, "length": 400, "width": 250}),
    "tray of 3": ("mitred_tray", {"sides": 3, "inscribed": 200}),
    "tray of 12": ("mitred_tray", {"sides": 12, "inscribed": 400}),
    "rebated box": ("box", {"length": 300, "width": 200, "height": 120}),
    "mitred box": (
        "box",
        {"length": 300, "width": 200, "height": 120, "joint": "mitre"},
    ),
    "edge grain": ("laminated_board", {"length": 400, "width": 250, "grain": "edge"}),
    "end grain": ("laminated_board", {"length": 400, "width": 250, "grain": "end"}),
    "ring": ("segmented_ring", {"outside_diameter": 250, "inside_diameter": 200}),
    "ring of 3": (
        "segmented_ring",
        {"segments": 3, "outside_diameter": 120, "inside_diameter": 70},
    ),
    "cylinder": ("stave_cylinder", {"outside_diameter": 200, "inside_diameter": 160}),
    "cylinder of 3": (
        "stave_cylinder",
        {"staves": 3, "outside_diameter": 120, "inside_diameter": 90},
    ),
    "carcass": ("carcass", {"width": 700, "height": 900, "depth": 280, "shelves": 2}),
}
BUILDS["rebated box"][1]["joint"] = "rebate"
every_build = pytest.mark.parametrize("name", BUILDS)
KINDS = {"length", "angle", "area", "volume", "mass", "count", "ratio", "money"}
SIDES = ("length_nm", "width_nm", "thickness_nm")


def built(name: str) -> Document:
    form, typed = BUILDS[name]
    read: Document = json.loads(json.dumps(document(form, **typed)))
    return read


def volume(dimensions: dict[str, int]) -> int:
    assert set(dimensions) == set(SIDES)
    assert all(type(side) is int and side > 0 for side in dimensions.values())
    return dimensions["length_nm"] * dimensions["width_nm"] * dimensions["thickness_nm"]


@every_build
def test_a_document_has_every_part_that_is_promised(name: str) -> None:
    found = built(name)
    promised = "form inputs sizes parts glue_ups set_ups steps warnings"
    assert set(promised.split()) <= set(found)
    assert found["form"] == BUILDS[name][0]
    assert set(BUILDS[name][1]) <= set(found["inputs"])
    assert all(isinstance(one, str) and one[-1] in ".?" for one in found["warnings"])


@every_build
def test_a_size_is_of_one_kind_with_its_text_working_and_source(name: str) -> None:
    found = built(name)
    keys = [size["key"] for size in found["sizes"]]
    assert len(keys) == len(set(keys))
    for size in found["sizes"]:
        told = f"{name}: {size}"
        assert size["kind"] in KINDS, told
        holds = {"length": "nm", "angle": "degrees"}.get(size["kind"], "value")
        assert {"nm", "degrees", "value"} & set(size) == {holds}, told
        assert type(value(size)) in (int, float), told
        assert type(size.get("nm", 0)) is int, told
        words = ("label", "text", "working", "source")
        assert all(isinstance(size[word], str) and size[word] for word in words), told
        assert isinstance(size["unit"], str), told


def outline_area(part: dict[str, Any]) -> float:
    corners = part["outline_nm"]
    pairs = zip(corners, corners[1:] + corners[:1], strict=True)
    return float(abs(sum(x * v - u * y for (x, y), (u, v) in pairs))) / 2


@every_build
def test_a_part_lies_within_its_blank_and_its_outline_is_its_larger_face(
    name: str,
) -> None:
    found = built(name)
    panels = {glue_up["key"]: glue_up for glue_up in found["glue_ups"]}
    for part in found["parts"]:
        told = f"{name}: {part}"
        assert part["grain"] in ("length", "width", "none"), told
        assert part["quantity"] > 0, told
        assert part["species"], told
        assert part["from"] is None or part["from"] in panels, told
        volume(part["finished"])
        volume(part["blank"])
        assert all(part["blank"][s] >= part["finished"][s] for s in SIDES), told
        reach = sorted(
            max(corner[axis] for corner in part["outline_nm"])
            - min(corner[axis] for corner in part["outline_nm"])
            for axis in (0, 1)
        )
        thin, *face = sorted(part["finished"].values())
        assert all(r <= side + 1 for r, side in zip(reach, face, strict=True)), told
        # No other face is larger: the piece is no more than this one, as thick.
        assert part["volume_nm3"] <= outline_area(part) * thin * (1 + 1e-7), told


@pytest.mark.parametrize(
    ("name", "part", "size"),
    [
        ("vessel of 6", "wall", "outside_side"),  # strips and grain run round
        ("splayed 8", "wall", "face_top"),
        ("frame", "long_rail", "long_side"),
        ("frame", "panel", "panel_length"),
        ("mitred box", "base", "base_length"),
        ("ring", "ring_1_segment_a", "segment_outer_edge"),
        ("carcass", "shelf", "shelf_length"),
        ("carcass", "back", "back_height"),
    ],
)
def test_a_parts_length_runs_along_its_grain(name: str, part: str, size: str) -> None:
    found = built(name)
    [one] = [each for each in found["parts"] if each["key"] == part]
    assert one["finished"]["length_nm"] == sizes(found)[size] * 1e6


def test_a_stave_is_as_long_as_high_and_a_slice_as_the_board_is_thick() -> None:
    staves = document("stave_cylinder", height=177, **BUILDS["cylinder"][1])["parts"]
    assert {one["finished"]["length_nm"] for one in staves} == {177_000_000}
    board = document("laminated_board", thickness=33, **BUILDS["end grain"][1])
    assert {p["finished"]["length_nm"] for p in board["parts"]} == {33_000_000}


@every_build
def test_strips_make_their_panel_and_the_panel_makes_its_parts(name: str) -> None:
    found = built(name)
    for glue_up in found["glue_ups"]:
        told = f"{name}: {glue_up}"
        assert glue_up["quantity"] > 0, told
        strips = sum(s["quantity"] * volume(s["blank"]) for s in glue_up["strips"])
        panel = volume(glue_up["panel"])
        assert strips >= panel, told
        parts = [one for one in found["parts"] if one["from"] == glue_up["key"]]
        assert parts, told
        cut = sum(one["quantity"] * one["volume_nm3"] for one in parts)
        assert panel * glue_up["quantity"] >= cut, told
        # A part's woods are those of the strips it is cut from.
        woods = {strip["species"] for strip in glue_up["strips"]}
        for part in parts:
            assert set(part["species"].split(", ")) <= woods, told


def proved(found: Document, most_tilt: float, most_gauge: float) -> None:
    for one in found["set_ups"]:
        told = f"{found['form']}: {one}"
        tilt, gauge = one["tilt_degrees"] or 0, one["gauge_degrees"] or 0
        words = one["cuts"].lower()
        assert 0 <= tilt <= most_tilt, told
        if gauge > most_gauge:
            # The complement, to the hundredth at least that is shown of an angle.
            assert "jig" in words, told
            assert f"{round(90 - gauge, 2):g}°" in words, told
        # Fence and gauge together would be two stops on one through cut.
        assert one["fence_nm"] is None or one["gauge_degrees"] is None, told
        for stop in ("fence_nm", "stop_nm"):
            assert one[stop] is None or type(one[stop]) is int, told
            assert one[stop] is None or one["face_down"], told
        assert all(one[key] for key in ("machine", "cuts", "check")), told
        assert cautions(tuple(one["cautions"])), told


@every_build
def test_angles_can_be_read_off_the_machine_or_a_jig_is_named(name: str) -> None:
    proved(built(name), 45, 60)


@every_build
def test_a_workspaces_own_limits_name_the_jig_or_refuse(name: str) -> None:
    small = replace(METRIC, most_tilt=Angle.of(30), most_gauge=Angle.of(25))
    form, typed = BUILDS[name]
    faulty = ""
    try:
        found = size_document(form, {k: str(v) for k, v in typed.items()}, small)
    except WorkshopError as refusal:
        faulty = refusal.input
    else:
        proved(found, 30, 25)
    # What is refused names one of the form's own inputs.
    assert faulty in {"", *built(name)["inputs"]}
    assert bool(faulty) is (name in BEYOND_A_JIG)


# Tilted by more than 30°, and by more than 30° too with the jig's right angle off.
BEYOND_A_JIG = {"mitred box", "splayed 3"}


@pytest.mark.parametrize(
    ("name", "needed", "left"),
    [
        ("vessel of 3", "60°", "30°"),
        ("cylinder of 3", "60°", "30°"),
        ("vessel of 16", "67.5°", "22.5°"),
    ],
)
def test_what_a_machine_cannot_do_names_a_jig_with_the_complement(
    name: str, needed: str, left: str
) -> None:
    words = [one["cuts"] for one in built(name)["set_ups"]]
    assert any(all(x in cut for x in ("jig", needed, left)) for cut in words)


@pytest.mark.parametrize(
    ("name", "key", "stop", "gauge", "tilt"),
    [
        # Outside face down: its length is what lies on the table.
        ("vessel of 6", "bevel", "outside_side", 0, "edge_bevel"),
        ("vessel of 7", "base", "base_mark", "base_gauge_angle", 0),
        ("vessel of 16", "base", "base_mark", "base_gauge_angle", 0),
        ("frame", "mitre-long-rails", "long_side", "gauge_angle", 0),
        ("tray of 12", "mitre-rails", "long_side", "gauge_angle", 0),
        ("ring", "cut-ring-1", "segment_outer_edge", "gauge_angle", 0),
        ("leaning 14", "mitres", None, "gauge_angle", "blade_tilt"),
    ],
)
def test_what_a_set_up_is_set_to_is_what_the_sizes_say(
    name: str, key: str, stop: str | None, gauge: str | int, tilt: str | int
) -> None:
    found = built(name)
    [one] = [each for each in found["set_ups"] if each["key"] == key]
    size = sizes(found) | {0: 0}
    assert one["gauge_degrees"] == size[gauge]
    assert one["tilt_degrees"] == size[tilt]
    wanted = round(size[stop] * 1e6) if stop else None
    assert one["stop_nm"] == wanted


def test_a_fence_stands_to_the_blades_near_face_at_table_height() -> None:
    """Inner face down, the blade leaning away from the fence: as it rises through
    the stave it goes out by thickness × tan(tilt), to where the outer face ends.
    """
    found = built("cylinder")
    [one] = [each for each in found["set_ups"] if each["key"] == "bevel-second"]
    size = sizes(found)
    out = size["stave_thickness"] * math.tan(math.radians(one["tilt_degrees"]))
    assert one["fence_nm"] == pytest.approx((size["stave_width"] - out) * 1e6, abs=1)


@every_build
def test_steps_wait_for_what_is_named_and_warn_of_what_hurts(name: str) -> None:
    found = built(name)
    for step in found["steps"]:
        told = f"{name}: {step}"
        assert step["name"], told
        assert step["tool"], told
        assert type(step["bench_minutes"]) is int, told
        assert step["bench_minutes"] > 0, told
        for wait in step["waits"]:
            assert wait["until"] in ("unclamp", "machine", "recoat", "use"), told
            assert type(wait["minutes"]) is int, told
        cautions(tuple(step["cautions"]))


def rough_pieces(found: Document) -> list[dict[str, Any]]:
    """The strips of the glue-ups and the parts that come from none."""
    strips = [
        (f"{g['key']}-{i}", s["species"], s["blank"], s["quantity"] * g["quantity"])
        for g in found["glue_ups"]
        for i, s in enumerate(g["strips"])
    ]
    whole = [
        (p["key"], p["species"], p["blank"], p["quantity"])
        for p in found["parts"]
        if p["from"] is None
    ]
    return [
        {"id": key, "species": species, "quantity": quantity, "may_turn": False}
        | {side.removesuffix("_nm"): blank[side] / 1e6 for side in SIDES}
        for key, species, blank, quantity in strips + whole
    ]


def job(pieces: list[dict[str, Any]]) -> dict[str, Any]:
    """Boards of each wood and thickness, a little longer and wider than its pieces."""
    stock = []
    for wood, thick in sorted({(p["species"], p["thickness"]) for p in pieces}):
        kin = [p for p in pieces if (p["species"], p["thickness"]) == (wood, thick)]
        board = {side: max(p[side] for p in kin) for side in ("length", "width")}
        board = {"length": board["length"] * 2 + 60, "width": board["width"] + 20}
        known = {"species": wood, "thickness": thick, "quantity": None, "cost": 900}
        stock.append({"id": f"{wood} {thick}", **board, **known, "offcut": False})
    saw = {"kerf": 3.2, "end_trim": 10, "edge_trim": 3.2}
    keep = {"length": 200, "width": 25}
    made = {"unit": "mm", "saw": saw, "keep": keep, "stages": 3, "first": "either"}
    return {**made, "stock": stock, "parts": pieces}


@pytest.mark.parametrize(
    "name", ["vessel of 6", "frame", "mitred box", "end grain", "ring", "carcass"]
)
def test_what_goes_to_cut_is_cut(name: str) -> None:
    pieces = rough_pieces(built(name))
    plan = cut_jobs.cut_document(cut_jobs.read(json.dumps(job(pieces))), seconds=1)
    assert plan["unplaced"] == []
    placed: Counter[str] = Counter()
    sides = {p["id"]: {p["length"] * 1e6, p["width"] * 1e6} for p in pieces}
    for layout in plan["layouts"]:
        for piece in layout["pieces"]:
            placed[piece["part"]] += layout["copies"]
            found = {piece["length_nm"], piece["width_nm"]}
            assert found == {round(side) for side in sides[piece["part"]]}
    assert placed == {piece["id"]: piece["quantity"] for piece in pieces}
