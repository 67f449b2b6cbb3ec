"""A printed list pasted into the form: plain lines are parts, the rest is asked."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core import registry
from app.core.design import Design
from app.core.errors import WorkshopError
from app.core.forms._printed_list import is_printed
from app.core.inputs import FaultyInputs
from app.core.length import Display, Unit, inches
from app.core.shop import Shop
from tests.conftest import shared

METRIC = Shop(unit=Unit.MILLIMETRE, display=Display(Unit.MILLIMETRE))
# Lines of our own.
PLAIN = (
    "2 sides, 7/8 by 5 by 14 in. S-4-S\n\n1 bottom, 3/8 by 4-1/2 by 12-1/4 in., rough\n"
)


def made(text: str, species: str = "cherry", shop: Shop = Shop()) -> Design:
    return registry.work_out("parts_list", {"file": text, "species": species}, shop)


def faults(text: str, species: str = "cherry") -> dict[str, str]:
    with pytest.raises(FaultyInputs) as refused:
        made(text, species)
    return refused.value.faults


def test_plain_lines_are_parts_of_the_wood_that_is_named() -> None:
    sides, bottom = made(PLAIN).parts
    assert (sides.name, sides.quantity, sides.species) == ("sides", 2, "cherry")
    size = bottom.finished
    assert (size.thickness, size.width) == (inches("3/8"), inches("4 1/2"))
    assert size.length == inches("12 1/4")
    assert sides.more == (("surfaced", "S-4-S"),)
    assert bottom.more == (("note", "rough"),)


def test_printed_sizes_are_inches_in_a_metric_shop_too() -> None:
    assert made(PLAIN, shop=METRIC).parts[0].finished.length == inches("14")


def test_a_kept_list_is_worked_out_again_the_same() -> None:
    design = made(PLAIN)
    again = registry.work_out("parts_list", design.inputs, METRIC)
    assert [part.finished for part in again.parts] == [
        part.finished for part in design.parts
    ]


def test_each_line_that_is_not_plain_is_asked_about_by_number_and_text() -> None:
    text = f"Bill of stock\n{PLAIN}1 pt. of shellac\n2 rails, 3/4 by 2 in.\n"
    assert faults(text) == {
        "file": (
            "Line 1, “Bill of stock”: it gives no thickness by width by length.\n"
            "Line 5, “1 pt. of shellac”: it counts something that is not wood.\n"
            "Line 6, “2 rails, 3/4 by 2 in.”: it gives two sizes where a part has "
            "three.\n"
            "Write those lines like “2 sides, 7/8 by 5 by 14 in.”, or take out what is "
            "no part."
        )
    }


def test_one_line_is_asked_about_in_the_singular() -> None:
    assert "Write that line like" in faults(PLAIN + "1 box of nails\n")["file"]


def test_very_many_questions_come_a_part_at_a_time() -> None:
    told = faults(PLAIN + "1 box of nails\n" * 23)["file"]
    assert told.count("“1 box of nails”") == 20
    assert "There are 3 more of these." in told


@pytest.mark.parametrize("species", ["", "cherry, maple"])
def test_one_wood_must_be_named_and_everything_is_said_at_once(species: str) -> None:
    found = faults(PLAIN + "1 box of nails\n", species)
    assert set(found) == {"file", "species"}
    assert "which one all of them are of" in found["species"]


@pytest.mark.parametrize(
    "line",
    [
        "2 sides, 7/8 by 5 by 99999 in.",
        f"{'9' * 5000} sides, 7/8 by 5 by 14 in.",
        f"2 sides, 7/8 by 5 by {'9' * 5000} in.",
    ],
)
def test_what_no_shop_has_is_asked_about(line: str) -> None:
    assert "Line 4, “" in faults(f"{PLAIN}{line}\n")["file"]


@pytest.mark.parametrize(
    "text",
    [
        "part,quantity,thickness,width,length,species\n2 sides,2,1,2,3,oak\n",
        "Part;Quantity\n2 sides, 7/8 by 5 by 14 in.",
        "sides,2,7/8,5,14,cherry",
        "",
    ],
)
def test_a_table_is_not_taken_for_a_printed_list(text: str) -> None:
    assert not is_printed(text)


def test_a_whole_printed_list_is_parts_once_its_questions_are_answered() -> None:
    """H. H. Windsor, Mission Furniture, Part 3 (1912): 162 lines of 202 are plain."""
    read = 0
    folder = shared("fixtures/stocklists")
    for file in sorted(folder.glob("*.txt")):
        text = file.read_text("utf-8")
        asked = faults_or_none(text)
        kept = [
            line
            for number, line in enumerate(text.splitlines(), 1)
            if f"Line {number}, “" not in asked
        ]
        if any(line.strip() for line in kept):
            read += len(made("\n".join(kept)).parts)
    assert read == 162


def faults_or_none(text: str) -> str:
    try:
        made(text, "oak")
    except FaultyInputs as fault:
        return fault.faults["file"]
    except WorkshopError as fault:
        return str(fault)
    return ""


lines = st.lists(
    st.one_of(st.text(max_size=30), st.just("2 sides, 7/8 by 5 by 14 in.")), max_size=6
)


@given(lines)
def test_any_lines_give_parts_or_a_sentence(found: list[str]) -> None:
    text = "\n".join(found)
    try:
        parts = made(text).parts
    except WorkshopError:
        return
    # Every line that holds anything is a part: none was left out, none guessed.
    holding = sum(bool(line.strip()) for line in text.splitlines())
    assert not is_printed(text) or len(parts) == holding
