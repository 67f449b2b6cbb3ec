"""The document that ``stockthread cut`` prints."""

from __future__ import annotations

import json
from decimal import Decimal
from typing import Any

import pytest

from app.core.cutting.job import Area, Machine, OffcutValue, Pin
from app.core.errors import WorkshopError
from app.core.length import Length, inches
from app.services.cut_jobs import cut, cut_document, read
from app.services.job_file import read_job

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


def full() -> dict[str, Any]:
    """A job that says all that can be said."""
    found = job(
        periods=[1, 2],
        pins=[{"part": 7, "stock": "B1", "quantity": 2}],
        machine={
            "longest_crosscut": "12",
            "longest_rip": "96",
            "shortest_piece": "10",
        },
        offcut_value={"full_length": "40", "full_width": "5"},
        plane="1/4",
    )
    found["stock"][0] |= {
        "defects": [{"x": "2", "y": "1", "length": "3", "width": "1"}],
        "period": 1,
    }
    found["parts"][0]["period"] = 2
    return found


def test_all_that_can_be_said_is_read() -> None:
    found, warnings = read_job(full())
    assert warnings == []
    assert found.periods == ("1", "2")
    assert found.pins == (Pin("7", "B1", 2),)
    assert found.machine == Machine(inches("12"), inches("96"), inches("10"))
    assert found.offcut_value == OffcutValue(inches("40"), inches("5"))
    (stock,), (part,) = found.stock, found.blanks
    assert stock.defects == (Area(*map(inches, ("2", "1", "3", "1"))),)
    assert (stock.period, part.period) == ("1", "2")


def test_what_is_not_said_is_as_usual() -> None:
    said = job(periods=None, pins=None, machine={"longest_rip": None}, offcut_value={})
    said["stock"][0] |= {"defects": None, "period": None}
    assert read_job(said) == read_job(job())


def test_a_wish_is_no_firm_pin() -> None:
    asked = job(pins=[{"part": 7, "stock": "B1", "prefer": True}])
    assert read_job(asked)[0].pins == (Pin("7", "B1", None, firm=False),)


def test_a_defect_of_a_bar_is_a_length_of_it() -> None:
    bar = {"id": "bar", "length": 96, "defects": [{"x": 5, "length": 2}]}
    asked = job(stock=[bar], parts=[{"id": "leg", "length": 5}])
    (spot,) = read_job(asked)[0].stock[0].defects
    assert (spot.x, spot.length, spot.width) == (inches("5"), inches("2"), Length(0))
    bar["defects"] = [{"x": 5, "y": 1, "length": 2}]
    with pytest.raises(WorkshopError, match="has no width"):
        read_job(asked)


def test_a_period_needs_periods() -> None:
    asked = job()
    asked["stock"][0]["period"] = "one"
    with pytest.raises(WorkshopError, match="list them in order") as refused:
        read_job(asked)
    assert refused.value.input == "stock[0].period"


def test_all_of_a_part_is_pinned_once() -> None:
    pin = {"part": 7, "stock": "B1"}
    with pytest.raises(WorkshopError, match="0 are left to pin") as refused:
        read_job(job(pins=[pin, pin]))
    assert refused.value.input == "pins[1].quantity"


def test_longest_cuts_of_a_job_of_lengths_are_said_to_be_unused() -> None:
    asked = job(
        stock=[{"id": "bar", "length": 96}],
        parts=[{"id": "leg", "length": 5}],
        machine={"longest_crosscut": 12},
    )
    (warning,) = read_job(asked)[1]
    assert "were not used" in warning


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
        ("stock[0].defects", {}),
        ("stock[0].defects[0]", 7),
        ("stock[0].defects[0].x", None),
        ("stock[0].defects[0].y", "high"),
        ("stock[0].defects[0].length", 0),
        ("stock[0].defects[0].length", "95"),
        ("stock[0].defects[0].width", 7),
        ("stock[0].period", "three"),
        ("parts[0].width", None),
        ("parts[0].width", "-2"),
        ("parts[0].quantity", None),
        ("parts[0].quantity", 10**9),
        ("parts[0].may_turn", 1),
        ("parts[0].species", 3),
        ("parts[0].period", 1.5),
        ("periods", "one"),
        ("periods[0]", None),
        ("periods[0]", ""),
        ("periods[0]", 2),
        ("pins", {}),
        ("pins[0]", "B1"),
        ("pins[0].part", "8"),
        ("pins[0].part", None),
        ("pins[0].stock", "B2"),
        ("pins[0].quantity", 5),
        ("pins[0].quantity", "all"),
        ("pins[0].prefer", "please"),
        ("machine", 3),
        ("machine.longest_crosscut", "0"),
        ("machine.longest_rip", True),
        ("machine.shortest_piece", "-1"),
        ("offcut_value", []),
        ("offcut_value.full_length", 0),
        ("offcut_value.full_width", "wide"),
        ("plane", []),
    ],
)
def test_each_fault_is_a_sentence_that_names_its_input(path: str, value: Any) -> None:
    bad = full()
    names = path.replace("[", ".").replace("]", "").split(".")
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


def test_what_no_one_reads_is_said() -> None:
    odd = job(colour="red", saw={"kerf": "1/8", "blade": 40})
    odd["stock"][0]["shelf"] = 2
    odd["stock"][0]["defects"] = []
    found = cut_document(odd)["warnings"]
    for name in ("“colour”", "“saw.blade”", "“stock[0].shelf”"):
        assert sum(name in one for one in found) == 1
    assert len(found) == 3


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
    found = cut(job()).drawings()
    assert list(found) == ["layout-1"]
    assert found["layout-1"].startswith("<svg xmlns=")


def test_the_seconds_allowed_bound_the_work() -> None:
    assert cut_document(job(), seconds=0.0)["layouts"]
