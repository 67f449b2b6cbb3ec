"""The document that ``stockthread cut`` prints."""

from __future__ import annotations

import json
from decimal import Decimal
from typing import Any

import pytest

from app.core.errors import WorkshopError
from app.services.cut_jobs import cut_document, diagrams, read

INCH = 25_400_000


def job(**changes: Any) -> dict[str, Any]:
    found = {
        "unit": "in",
        "saw": {"kerf": "1/8", "end_trim": "1/2", "edge_trim": "1/8"},
        "keep": {"length": "8", "width": "1"},
        "stages": 3,
        "first": "either",
        "stock": [
            {
                "id": "B1",
                "length": "8' ",
                "width": 7.5,
                "thickness": "1",
                "quantity": 1,
                "species": "walnut",
                "offcut": False,
            },
        ],
        "parts": [
            {
                "id": 7,
                "length": "23 1/2",
                "width": Decimal("2.25"),
                "thickness": "1",
                "quantity": 4,
                "species": "walnut",
                "may_turn": False,
            },
        ],
    }
    return found | changes


def test_the_document_has_every_key_of_the_contract() -> None:
    found = cut_document(job())
    assert {"layouts", "unplaced", "totals", "levels", "seconds"} <= found.keys()
    (layout,) = found["layouts"]
    keys = {"stock", "period", "copies", "pieces", "leftovers", "cuts"}
    assert keys <= layout.keys()
    sizes = {"x_nm", "y_nm", "length_nm", "width_nm"}
    assert {"part", "turned"} | sizes == layout["pieces"][0].keys()
    assert {"keep", "used_in"} | sizes == layout["leftovers"][0].keys()
    assert {"direction", "at_nm", "of_nm", "set_up"} <= layout["cuts"][0].keys()
    assert [level["objective"] for level in found["levels"]] == [
        "cost",
        "stock_pieces",
        "offcut_value",
        "set_ups",
        "cuts",
    ]
    json.dumps(found)


def test_ids_are_the_callers_and_sizes_exact() -> None:
    found = cut_document(job())
    pieces = found["layouts"][0]["pieces"]
    assert {piece["part"] for piece in pieces} == {7}
    assert len(pieces) == 4
    assert pieces[0]["length_nm"] * 2 == 47 * INCH
    assert pieces[0]["width_nm"] * 4 == 9 * INCH
    assert found["layouts"][0]["stock"] == "B1"


def test_areas_add_up() -> None:
    sums = cut_document(job())["totals"]
    out = ("parts", "kerf", "offcuts", "scrap")
    heaps = sum(sums[f"area_{name}_nm2"] for name in out)
    assert sums["area_stock_nm2"] == heaps == 96 * 15 * INCH * INCH // 2


def test_without_widths_lengths_add_up() -> None:
    found = cut_document(
        {
            "unit": "mm",
            "saw": {"kerf": 3.2},
            "keep": {"length": 200},
            "stock": [{"id": "bar", "length": 2400, "quantity": None, "cost": 900}],
            "parts": [{"id": "leg", "length": 700.1, "quantity": 7}],
        }
    )
    sums = found["totals"]
    out = ("parts", "kerf", "offcuts", "scrap")
    assert sums["length_stock_nm"] == sum(sums[f"length_{name}_nm"] for name in out)
    assert sums["length_parts_nm"] == 7 * 700_100_000
    assert (sums["cost"], sums["stock_pieces"]) == (2700, 3)
    cost = found["levels"][0]
    assert cost == {"objective": "cost", "value": 2700, "bound": 2700, "proven": True}


def test_a_number_in_the_file_is_exact() -> None:
    assert read('{"x": 0.1}')["x"] == Decimal("0.1")


def test_what_has_no_place_is_no_error() -> None:
    long = job()
    long["parts"][0]["length"] = "99"
    found = cut_document(long)
    assert found["layouts"] == []
    (unplaced,) = found["unplaced"]
    assert (unplaced["part"], unplaced["quantity"]) == (7, 4)
    assert "Longer than any" in unplaced["why"]
    assert not any(level["proven"] for level in found["levels"])


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("unit", "cm"),
        ("saw", None),
        ("saw.kerf", "wide"),
        ("saw.kerf", -1),
        ("keep.length", True),
        ("stages", 4),
        ("first", "diagonal"),
        ("stock", "boards"),
        ("stock[0]", 5),
        ("stock[0].id", None),
        ("stock[0].length", "0"),
        ("stock[0].length", Decimal("1e999999")),
        ("stock[0].length", float("nan")),
        ("stock[0].quantity", -1),
        ("stock[0].quantity", 1.5),
        ("stock[0].cost", -5),
        ("stock[0].offcut", "yes"),
        ("stock[0].trimmed", 1),
        ("stock[0].defects", [{}]),
        ("stock[0].period", "one"),
        ("parts[0].width", None),
        ("parts[0].width", "-2"),
        ("parts[0].quantity", None),
        ("parts[0].quantity", 10**9),
        ("parts[0].may_turn", 1),
        ("parts[0].species", 3),
        ("periods", ["one"]),
        ("pins", [{}]),
        ("plane", []),
    ],
)
def test_each_fault_is_a_sentence_that_names_its_input(path: str, value: Any) -> None:
    bad = job()
    names = path.replace("[0]", ".0").split(".")
    place: Any = bad
    for name in names[:-1]:
        place = place[int(name) if name.isdecimal() else name]
    last: Any = int(names[-1]) if names[-1].isdecimal() else names[-1]
    place[last] = value
    with pytest.raises(WorkshopError) as refused:
        cut_document(bad)
    assert refused.value.input == path
    assert str(refused.value).endswith(".")


def test_two_parts_with_one_id_are_refused() -> None:
    twice = job()
    twice["parts"] *= 2
    with pytest.raises(WorkshopError) as refused:
        cut_document(twice)
    assert refused.value.input == "parts[0].id"


@pytest.mark.parametrize("text", ["", "[", "[]", "7", '{"a": NaN}', "[" * 100_000])
def test_what_is_no_job_file_is_refused(text: str) -> None:
    with pytest.raises(WorkshopError):
        read(text)


def test_what_is_left_out_is_said() -> None:
    found = cut_document(
        job(machine={"longest_crosscut": "12"}, offcut_value=3, colour="red")
    )
    assert [any(word in one for one in found["warnings"]) for word in WORDS] == [
        True
    ] * 3


WORDS = ("machine limits", "value of offcuts", "colour")


def test_a_trimmed_offcut_is_sawn_without_trims_and_an_unsaid_one_is_asked_about() -> (
    None
):
    asked = job()
    asked["stock"][0] |= {"length": "23 1/2", "width": "2 1/4", "offcut": True}
    asked["parts"][0]["quantity"] = 1
    found = cut_document(asked)
    assert found["unplaced"]
    assert any("“trimmed”: true" in one for one in found["warnings"])
    asked["stock"][0]["trimmed"] = True
    found = cut_document(asked)
    assert found["unplaced"] == []
    assert found["layouts"][0]["cuts"] == []
    assert found["warnings"] == []


def test_each_layout_is_a_file_to_look_at() -> None:
    found = diagrams(job())
    assert list(found) == ["layout-1"]
    assert found["layout-1"].startswith("<svg xmlns=")


def test_the_seconds_allowed_bound_the_work() -> None:
    assert cut_document(job(), seconds=0.0)["layouts"]
