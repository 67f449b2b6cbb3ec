"""``size`` and ``wood`` as another program calls them: one document, an exit code.

Output is read where the system sees it, below the language's own streams, so that
nothing printed by a library slips past.
"""

from __future__ import annotations

import csv
import json
import os
import subprocess
import sys
from typing import Any

import pytest

from app import cli
from app.bootstrap import CHECKOUT
from tests.conftest import shared
from tests.outside.promised import value

# The table of forms: every input that it names.
INPUTS = {
    "straight_vessel": "sides outside_side outside_inscribed outside_circumscribed "
    "inside_inscribed height wall base base_thickness groove_depth groove_up "
    "base_clearance strip_rows species kerf splines_per_corner spline_thickness "
    "spline_depth_share",
    "tapered_vessel": "sides top_inscribed bottom_inscribed height wall",
    "mitred_tray": "sides length width inscribed rail_width rail_height "
    "panel_thickness groove_depth",
    "box": "length width height wall joint cutter groove_depth",
    "laminated_board": "length width thickness grain strip_width species",
    "segmented_ring": "segments outside_diameter inside_diameter thickness "
    "turning_allowance",
    "stave_cylinder": "staves outside_diameter inside_diameter height",
    "carcass": "width height depth thickness shelves dado_depth back_thickness "
    "species shelf_load",
    "parts_list": "file",
}
CHOICES = {
    ("straight_vessel", "base"): {"groove", "rebate", "under", "none"},
    ("box", "joint"): {"rebate", "mitre", "finger"},
    ("laminated_board", "grain"): {"edge", "end"},
}
# Each form as it is typed by a stranger, in whole words of the table.
TYPED = {
    "straight_vessel": "sides=5 outside_inscribed=8 height=6 wall=1/2 base=groove "
    "base_thickness=1/4 groove_depth=1/4 groove_up=3/8 base_clearance=1/32 "
    "strip_rows=3 species=walnut,maple kerf=1/8 splines_per_corner=2 "
    "spline_thickness=1/8 spline_depth_share=0.5",
    "tapered_vessel": "sides=5 top_inscribed=8 bottom_inscribed=6 height=6 wall=1/2",
    "mitred_tray": "sides=4 length=16 width=10 rail_width=3/4 rail_height=2 "
    "panel_thickness=1/4 groove_depth=1/4",
    "box": "length=10 width=7 height=4 wall=1/2 joint=mitre cutter=1/4 "
    "groove_depth=1/4",
    "laminated_board": "length=16 width=11 thickness=1.25 grain=end "
    "strip_width=1.375 species=maple,walnut",
    "segmented_ring": "segments=12 outside_diameter=9 inside_diameter=7 "
    "thickness=3/4 turning_allowance=1/8",
    "stave_cylinder": "staves=12 outside_diameter=8 inside_diameter=7 height=9",
    "carcass": "width=30 height=36 depth=11 thickness=3/4 shelves=2 dado_depth=1/4 "
    "back_thickness=1/4 shelf_load=30",
}
Ran = tuple[int, Any, str]


class Shell:
    """The command run in place; what reached both streams, read from the system."""

    def __init__(self, streams: pytest.CaptureFixture[str]) -> None:
        self.streams = streams

    def __call__(self, *words: str) -> Ran:
        code = cli.main([*words, "--json"])
        out, beside = self.streams.readouterr()
        return code, json.loads(out), beside


@pytest.fixture
def shell(capfd: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capfd)


def program(*words: str, **env: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "app", *words],
        cwd=CHECKOUT,
        env=os.environ | env,
        capture_output=True,
        check=False,
    )


def test_a_program_of_its_own_prints_one_document_and_its_warnings_beside() -> None:
    good = program("size", "box", "--json", *TYPED["box"].split())
    found = json.loads(good.stdout)
    assert (good.returncode, found["form"]) == (0, "box")
    assert good.stderr.decode().splitlines() == found["warnings"]
    bad = program("size", "box", "length=10", "--json")
    error = json.loads(bad.stdout)["error"]
    assert (bad.returncode, bad.stderr, error["input"]) == (2, b"", "width")


def test_a_document_is_utf_8_in_a_shell_that_speaks_less() -> None:
    """RFC 8259, section 8.1. Words put a ? where the shell has no such sign."""
    wood = ("wood", "walnut", "--width", "6")
    plain = program(*wood, "--json", PYTHONIOENCODING="ascii")
    assert "×" in json.loads(plain.stdout.decode("utf-8"))["sizes"][0]["working"]
    words = program(*wood, PYTHONIOENCODING="ascii")
    assert (plain.returncode, words.returncode) == (0, 0)
    assert b"lb/ft?" in words.stdout


@pytest.mark.parametrize("form", TYPED)
def test_every_form_answers_what_the_table_lets_ask(shell: Shell, form: str) -> None:
    code, found, beside = shell("size", form, *TYPED[form].split())
    assert (code, found["form"]) == (0, form)
    assert beside.splitlines() == found["warnings"]
    assert set(INPUTS[form].split()) <= set(found["inputs"])


def test_a_parts_list_is_one_part_a_row(shell: Shell, tmp_path: Any) -> None:
    path = tmp_path / "parts.csv"
    path.write_text(
        "part,quantity,thickness,width,length,species,note\n"
        "rail,2,3/4,2 1/2,24,white oak,front\nslat,7,9 mm,40 mm,300 mm,maple,\n"
    )
    code, found, _ = shell("size", "parts_list", f"file={path}")
    assert code == 0
    rows = [
        (p["name"], p["quantity"], p["finished"]["length_nm"], p["species"])
        for p in found["parts"]
    ]
    assert rows == [
        ("rail", 2, 609_600_000, "white oak"),
        ("slat", 7, 300_000_000, "maple"),
    ]
    assert found["parts"][0]["more"] == {"note": "front"}  # extra columns kept


def test_the_list_names_every_form_and_input_so_that_a_stranger_can_ask(
    shell: Shell,
) -> None:
    code, found, beside = shell("size", "--list")
    assert (code, beside) == (0, "")
    listed = {one["form"]: one["inputs"] for one in found["forms"]}
    assert set(INPUTS) == set(listed)
    for form, inputs in listed.items():
        keys = [one["key"] for one in inputs]
        assert len(keys) == len(set(keys))
        assert set(INPUTS[form].split()) <= set(keys)
        for one in inputs:
            told = f"{form}: {one}"
            promised = {"key", "label", "kind", "default", "required", "choices"}
            assert promised | {"help"} <= set(one), told
            assert one["label"], told
            assert " " in one["help"], told
            assert type(one["required"]) is bool, told
            # What is required has no default; what has neither says so in its help.
            assert not (one["required"] and one["default"]), told
            assert bool(one["choices"]) is (one["kind"] == "choice"), told
            if one["kind"] == "choice" and one["default"]:
                assert one["default"] in one["choices"], told
    for (form, key), choices in CHOICES.items():
        [one] = [each for each in listed[form] if each["key"] == key]
        assert choices == set(one["choices"]) & (choices | {""})


@pytest.mark.parametrize("form", TYPED)
def test_typing_every_listed_default_changes_nothing(shell: Shell, form: str) -> None:
    """Every default is listed: what is listed must be what is taken."""
    _, listed, _ = shell("size", "--list", "--unit", "mm")
    [inputs] = [one["inputs"] for one in listed["forms"] if one["form"] == form]
    asked = [word for word in TYPED[form].split() if not word.startswith("species")]
    given = {word.split("=")[0] for word in asked}
    defaults = [
        f"{one['key']}={one['default']}"
        for one in inputs
        if one["default"] and one["key"] not in given
    ]
    plain = shell("size", form, *asked)
    assert plain[0] == 0
    assert shell("size", form, *asked, *defaults) == plain


@pytest.mark.parametrize(
    ("typed", "unit", "nm"),
    [
        ("1 7/8", "in", 47_625_000),
        ("1 7/8", None, 47_625_000),  # without a workspace, inches
        ("47.6 mm", "in", 47_600_000),
        ("47.6", "mm", 47_600_000),
        ("4.76 cm", "mm", 47_600_000),
        ("1' 3 1/2\"", "mm", 393_700_000),
        ('15.5"', "mm", 393_700_000),
        ("1-7/8 in", "mm", 47_625_000),
        ("4.1875", "in", 106_362_500),
    ],
)
def test_a_length_is_read_as_a_maker_types_it(
    shell: Shell, typed: str, unit: str | None, nm: int
) -> None:
    more = ["--unit", unit] if unit else []
    across = ["base=none", "wall=3mm", f"outside_side={typed}", "splines_per_corner=0"]
    code, found, _ = shell("size", "straight_vessel", "sides=8", *across, *more)
    sizes = {size["key"]: value(size) for size in found["sizes"]}
    assert (code, sizes["outside_side"]) == (0, nm / 1e6)


WRONG: dict[str, tuple[str, str | None, str | None]] = {
    "no form": ("size", "form", None),
    "an unknown form": ("size strait_vessel", "form", "straight_vessel"),
    "an unknown key": ("size box lenght=10 width=7 height=4", "lenght", "length"),
    "a value that is missing": ("size box length=10 height=4", "width", None),
    "no KEY=VALUE": ("size box length", "length", None),
    "given twice": ("size box length=10 length=11", "length", None),
    "too few sides": ("size straight_vessel sides=2 outside_side=4", "sides", "3"),
    "no length": ("size straight_vessel outside_side=wide", "outside_side", None),
    "less than nothing": ("size straight_vessel outside_side=-4", "outside_side", None),
    "two sizes across": (
        "size straight_vessel outside_side=4 inside_inscribed=7",
        "inside_inscribed",
        None,
    ),
    "no such choice": (
        "size box length=10 width=7 height=4 joint=fingers",
        "joint",
        "finger",
    ),
    "a wide hollow": (
        "size stave_cylinder outside_diameter=6 inside_diameter=7",
        "inside_diameter",
        "",
    ),
    "no such unit": ("size box length=10 --unit cm", None, None),
    "no such option": ("size box --lenght 10", None, None),
    "no such wood": ("wood ebonite", "species", None),
    "no species": ("wood", None, None),
    "no such cut": ("wood walnut --cut rift", "cut", "flat"),
    "half a climate": ("wood walnut --from-rh 30", "to_rh", ""),
}


@pytest.mark.parametrize("what", WRONG)
def test_wrong_input_is_one_error_document_and_exit_code_2(
    shell: Shell, what: str
) -> None:
    words, field, nearest = WRONG[what]
    code, found, beside = shell(*words.split())
    assert (code, beside, set(found)) == (2, "", {"error"})
    error = found["error"]
    assert set(error) == {"input", "message", "nearest"}
    assert error["input"] == field
    assert error["message"].endswith((".", "?", "--help"))
    if nearest == "":
        assert error["nearest"]
    else:
        assert error["nearest"] == nearest


def wood(shell: Shell, *words: str) -> dict[str, Any]:
    code, found, beside = shell("wood", *words)
    assert (code, beside) == (0, "")
    assert set(found) == {"species", "botanical", "sizes", "sources"}
    assert found["sources"]
    return {size["key"]: value(size) for size in found["sizes"]} | {
        "name": (found["species"], found["botanical"])
    }


PIECE = ["--width", "6", "--thickness", "1", "--length", "48"]
AIR = ["--from-rh", "35", "--to-rh", "65", "--temperature", "70F"]


@pytest.mark.parametrize(
    ("cut", "across", "through"),
    [("flat", "tangential", "radial"), ("quarter", "radial", "tangential")],
)
def test_a_board_weighs_and_moves_as_the_handbook_has_it(
    shell: Shell, cut: str, across: str, through: str
) -> None:
    """FPL-GTR-190 (2010), table 4-2 for the moisture, table 13-5 for the change."""
    air = table("emc_table.csv", "temperature_f", "70")
    tree = table("wood_movement.csv", "species_botanical", "Juglans nigra")
    found = wood(shell, "black", "walnut", *PIECE, *AIR, "--cut", cut)
    start, end = (float(air[f"emc_pct_rh_{rh}"]) for rh in ("35", "65"))
    rate = {
        way: float(tree[f"dimensional_change_coefficient_{way}"])
        for way in ("radial", "tangential")
    }
    assert found["name"] == ("Black walnut", "Juglans nigra")
    assert (found["emc_from"], found["emc_to"]) == (start, end)
    change = 152.4 * rate[across] * (end - start)
    assert found["width_change"] == pytest.approx(change, abs=1e-6)
    change = 25.4 * rate[through] * (end - start)
    assert found["thickness_change"] == pytest.approx(change, abs=1e-6)
    assert found["board_feet"] == pytest.approx(48 * 6 * 1 / 144)
    # At 12 % moisture, by the table's specific gravity: kg/m³, then grams.
    density = float(tree["specific_gravity_12pct"]) * 1000 * 1.12
    assert found["density"] == pytest.approx(density)
    grams = density * 48 * 6 * 0.0254**3 * 1000
    assert found["mass"] == pytest.approx(grams)


def table(name: str, column: str, row: str) -> dict[str, str]:
    text = (shared("reference") / name).read_text()
    return next(r for r in csv.DictReader(text.splitlines()) if r[column] == row)


def test_a_wood_alone_tells_what_holds_of_any_piece(shell: Shell) -> None:
    found = wood(shell, "white", "oak")
    assert "density" in found
    assert not {"mass", "board_feet", "emc_from", "width_change"} & set(found)


def test_bare_numbers_and_temperatures_go_by_their_unit(shell: Shell) -> None:
    inches = wood(shell, "maple", *PIECE, *AIR)
    metric = ["--width", "152.4", "--thickness", "25.4", "--length", "1219.2"]
    celsius = ["--temperature", "21.1C", "--unit", "mm"]
    assert wood(shell, "maple", *metric, *AIR[:4], *celsius) == inches
    dry = ["--from-rh", "65", "--to-rh", "35", "--temperature", "70F"]
    shrinks = wood(shell, "maple", *PIECE, *dry)["width_change"]
    assert shrinks == -inches["width_change"]
