"""A parts list read from CSV: any heading, each fault with its line and column."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core import registry
from app.core.design import Design
from app.core.errors import WorkshopError
from app.core.forms._list_rows import COLUMNS, HEADER
from app.core.length import Unit, inches, mm
from app.core.shop import Shop

METRIC = Shop(unit=Unit.MILLIMETRE)
ROW = "shelf,2,3/4,5 1/2,24,cherry"


def made(text: str, shop: Shop = Shop()) -> Design:
    return registry.work_out("parts_list", {"file": text}, shop)


def refusal(text: str, shop: Shop = Shop()) -> WorkshopError:
    with pytest.raises(WorkshopError) as refused:
        made(text, shop)
    assert refused.value.input == "file"
    return refused.value


def test_a_row_is_a_part() -> None:
    (part,) = made(f"{HEADER}\n{ROW}\n").parts
    assert (part.name, part.quantity, part.species) == ("shelf", 2, "cherry")
    size = part.finished
    assert (size.thickness, size.width) == (inches("3/4"), inches("5 1/2"))
    assert size.length == inches("24")
    assert part.blank.length == size.length + Shop().over_length


@pytest.mark.parametrize(
    "text",
    [
        f"\ufeff{HEADER}\r\n{ROW}\r\n",
        f"{HEADER}\n\n{ROW}",
        f"{HEADER.upper()}\n{ROW}\n\n\n",
        "species,length,width,thickness,quantity,part\ncherry,24,5 1/2,3/4,2,shelf",
        f'{HEADER}\nshelf,2,"3/4""","5 1/2""","2\'",cherry',
        f"{HEADER.replace(',', ';')}\n{ROW.replace(',', ';')}",
        f"{HEADER}\nshelf, 2 , 3/4 ,5 1/2, 24 in,cherry",
    ],
)
def test_the_same_list_written_in_other_ways(text: str) -> None:
    """Quoting, line ends and byte order mark: RFC 4180."""
    assert made(text).parts == made(f"{HEADER}\n{ROW}\n").parts


def test_other_columns_stay_with_their_part_as_text() -> None:
    text = f"{HEADER},Note,shop\n{ROW},=SUM(A1),\nleg,4,1,1,9,oak,,top row\n"
    shelf, leg = made(text).parts
    assert shelf.more == (("note", "=SUM(A1)"),)
    assert leg.more == (("shop", "top row"),)


def test_each_width_is_one_step_with_its_own_fence() -> None:
    text = f"{HEADER}\n{ROW}\nleg,4,1 1/2,1 1/2,16,ash\nrail,2,3/4,5 1/2,9,ash\n"
    design = made(text)
    fences = {one.key: one.fence for one in design.set_ups}
    rips = [step for step in design.steps if step.name.startswith("Rip")]
    assert [fences[step.set_up] for step in rips] == [inches("5 1/2"), inches("1 1/2")]
    assert [step.detail for step in rips] == ["shelf, rail.", "leg."]
    assert len({step.key for step in design.steps}) == len(design.steps)
    assert {step.set_up for step in rips} == {one.key for one in design.set_ups}


def test_bare_numbers_keep_the_unit_they_were_typed_in() -> None:
    text = f"{HEADER}\nleg,4,40,40,720,ash\n"
    design = made(text, METRIC)
    assert design.parts[0].finished.length == mm(720)
    # Kept with its unit, so that an inch shop reads the same later.
    assert registry.work_out("parts_list", design.inputs, Shop()).parts[0].finished == (
        design.parts[0].finished
    )


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "missing"),
        (f"{HEADER}\n", "no parts under it"),
        ("part,quantity,thickness,width,length\nx,1,1,1,1", "no column species"),
        ("part,qauntity,thickness,width,length,species\n", "qauntity"),
        (f"{HEADER},part\n{ROW},x", "the column part twice"),
        (f"{HEADER}\n{ROW}\nleg,two,1,1,9,oak", "Line 3, quantity: “two”"),
        (f"{HEADER}\nleg,0,1,1,9,oak", "Line 2, quantity"),
        (f"{HEADER}\nleg,-4,1,1,9,oak", "Line 2, quantity"),
        (f"{HEADER}\nleg,4,thin,1,9,oak", "Line 2, thickness"),
        (f"{HEADER}\nleg,4,1,-1,9,oak", "Line 2, width"),
        (f"{HEADER}\nleg,4,1,1,0,oak", "Line 2, length"),
        (f"{HEADER}\nleg,4,1,1,900 m,oak", "Line 2, length"),
        (f"{HEADER}\nleg,4,1,1,,oak", "Line 2, length: nothing is there"),
        (f"{HEADER}\nleg,4,1,1,9", "Line 2, species: nothing is there"),
        (f"{HEADER}\nleg,4,1,1,9,oak,more", "Line 2 has 7 fields"),
        (f'{HEADER}\n"leg,4,1,1,9,oak', "cannot be read as CSV"),
        (f'{HEADER}\nleg,4,1",1,9,"o"ak', "cannot be read as CSV"),
        ("PK\x03\x04\0\0", "invisible control mark"),
        (HEADER + f"\n{ROW}" * 501, "500 is the most"),
    ],
)
def test_each_fault_names_its_line_and_column(text: str, sentence: str) -> None:
    assert sentence in str(refusal(text))


def test_equal_names_stay_apart() -> None:
    row = "rail,1,1,2,9,oak\n"
    keys = [
        part.key
        for part in made(f"{HEADER}\n{row}{row}rail 2,1,1,2,9,oak\n{row}").parts
    ]
    assert keys[0] == "rail"
    assert len(set(keys)) == 4


def test_a_formula_is_text_and_its_guarding_quote_is_taken_off() -> None:
    """Spreadsheets guard a formula with one leading quote: OWASP ASVS 5.0, 1.2.10."""
    (part,) = made(f"{HEADER}\n'=leg,4,1,1,9,oak\n").parts
    assert part.name == "=leg"


def test_wood_adds_up_over_the_rows() -> None:
    design = made(f"{HEADER}\n{ROW}\nleg,4,1 1/2,1 1/2,16,ash\n")
    volume = next(one.value for one in design.sizes if one.key == "finished_volume")
    # 2 × 3/4 × 5 1/2 × 24 + 4 × 1 1/2 × 1 1/2 × 16 = 198 + 144 cubic inches
    assert volume == 342 * 25_400_000**3


cells = st.one_of(
    st.text(max_size=12), st.sampled_from(["1", "3/4", "oak", '"', ",", "\r", "=A1"])
)


@given(st.lists(st.lists(cells, max_size=8), max_size=6), st.booleans())
def test_any_text_gives_parts_or_a_sentence(
    rows: list[list[str]], written: bool
) -> None:
    out = io.StringIO()
    writer = csv.writer(out)
    if written:
        writer.writerow(COLUMNS)
    for row in rows:
        try:
            writer.writerow(row)
        except csv.Error:
            out.write(",".join(row) + "\n")
    assert parts_or_sentence(out.getvalue())


@given(st.text(max_size=200))
def test_any_junk_gives_parts_or_a_sentence(text: str) -> None:
    assert parts_or_sentence(text)


def parts_or_sentence(text: str) -> object:
    try:
        return made(text).parts
    except WorkshopError as fault:
        return str(fault)
