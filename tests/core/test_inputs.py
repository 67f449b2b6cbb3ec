"""Reading what a form is told: the right sentence for each field."""

from __future__ import annotations

from dataclasses import dataclass, fields
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core import registry
from app.core.design import Design
from app.core.errors import WorkshopError
from app.core.inputs import Ask, FaultyInputs, ask, listed, read, typed
from app.core.length import Length, Unit, inches, mm
from app.core.shop import Shop

INCH, METRIC = Shop(), Shop(unit=Unit.MILLIMETRE)


@dataclass(frozen=True)
class Shelf:
    span: Length = ask("Span", Ask.LENGTH, help="Wall to wall.")
    boards: int = ask("Boards", Ask.COUNT, default=2, least=1, most=9)
    share: Fraction = ask("Share", Ask.RATIO, default=Fraction(1, 2))
    joint: str = ask("Joint", Ask.CHOICE, default="dado", choices=("dado", "dowel"))
    wood: tuple[str, ...] = ask("Wood", Ask.SPECIES, default=("oak",))
    gap: Length = ask("Gap", Ask.LENGTH, default=Length(0), least=Length(0))


def test_every_kind_is_read() -> None:
    asked = {
        "span": "23 1/2",
        "boards": " 3 ",
        "share": "25 %",
        "joint": "Dowel",
        "wood": "white oak,\n cherry ,",
        "gap": "0",
    }
    shelf = read(Shelf, asked, INCH)
    assert shelf == Shelf(
        inches("23 1/2"), 3, Fraction(1, 4), "dowel", ("white oak", "cherry"), Length(0)
    )


def test_a_bare_number_is_in_the_shop_unit() -> None:
    assert read(Shelf, {"span": "600"}, METRIC).span == mm(600)
    assert read(Shelf, {"span": "60"}, INCH).span == inches("60")


@pytest.mark.parametrize(
    ("key", "text", "sentence", "nearest"),
    [
        ("span", "", "Span is missing. Wall to wall.", ""),
        ("span", "wide", "it has no number in it", ""),
        ("span", "-3", "a size cannot be negative", ""),
        ("span", "0", "Span must be more than nothing", "1/64 in"),
        ("span", "99 m", "will not do", "196.850394 in"),
        ("span", "1e9 m", "is not a length", ""),
        ("boards", "two", "Type it in figures", ""),
        ("boards", "2.6", "must be a whole number", "3"),
        ("boards", "-2", "cannot be negative", "1"),
        ("boards", "10", "9 is the most", "9"),
        ("boards", "0", "1 is the least", "1"),
        ("boards", "9" * 400, "is not a whole number", ""),
        ("share", "half", "Type it like 0.5", ""),
        ("share", "3/2", "1 is the most", "1"),
        ("joint", "dovel", "is one of dado, dowel", "dowel"),
        ("wood", " , ,", "name at least one species", ""),
        ("spam", "1", "Did you mean span?", "span"),
    ],
)
def test_each_fault_has_its_own_sentence_and_field(
    key: str, text: str, sentence: str, nearest: str
) -> None:
    with pytest.raises(FaultyInputs) as refused:
        read(Shelf, {"span": "1"} | {key: text}, INCH)
    assert sentence in str(refused.value)
    assert refused.value.input == key
    if not nearest.endswith(" in"):
        assert refused.value.nearest == nearest


def test_the_nearest_value_is_accepted_when_typed() -> None:
    with pytest.raises(FaultyInputs) as refused:
        read(Shelf, {"span": "99 m"}, INCH)
    assert read(Shelf, {"span": refused.value.nearest}, INCH).span == mm(5000)


def test_every_fault_is_told_in_one_pass() -> None:
    with pytest.raises(FaultyInputs) as refused:
        read(Shelf, {"boards": "0", "wodo": "x", "joint": "glue"}, INCH)
    assert set(refused.value.faults) == {"span", "boards", "wodo", "joint"}


@given(st.integers(1, 5_000_000_000), st.sampled_from(Unit))
def test_a_length_as_typed_reads_back_to_itself(nm: int, unit: Unit) -> None:
    shop = Shop(unit=unit)
    assert Length.read(typed(Length(nm), unit), shop.unit) == Length(nm)


def test_every_default_of_every_form_reads_back_to_itself() -> None:
    for shop in (INCH, METRIC):
        for module in registry.forms().values():
            for field, item in zip(
                fields(module.Inputs), listed(module.Inputs, shop.unit), strict=True
            ):
                assert item.label
                if item.default:
                    given_texts = {
                        other.key: "1"
                        for other in listed(module.Inputs)
                        if other.required
                    }
                    got = read(
                        module.Inputs, given_texts | {item.key: item.default}, shop
                    )
                    assert getattr(got, item.key) == field.default


junk = st.one_of(
    st.text(max_size=30),
    st.sampled_from(["6", "4 in", "1/2", "-1", "0", "1e5", "½", "100 m", "none", "٣"]),
)
KEYS = sorted(
    {"oops", *(i.key for m in registry.forms().values() for i in listed(m.Inputs))}
)


@given(
    st.sampled_from(sorted(registry.forms())),
    st.dictionaries(st.sampled_from(KEYS), junk, max_size=6),
)
def test_whatever_is_typed_gives_a_design_or_a_sentence(
    form: str, given_texts: dict[str, str]
) -> None:
    for shop in (INCH, METRIC):
        made = outcome(form, given_texts, shop)
        if isinstance(made, Design):
            assert all(part.volume > 0 for part in made.parts)
        else:
            assert made


def outcome(form: str, given_texts: dict[str, str], shop: Shop) -> Design | str:
    try:
        return registry.work_out(form, given_texts, shop)
    except WorkshopError as fault:
        return str(fault)


def test_an_unknown_form_names_the_nearest() -> None:
    with pytest.raises(WorkshopError) as refused:
        registry.form("strait_vessel")
    assert refused.value.nearest == "straight_vessel"
    assert refused.value.input == "form"


SMALL = {"outside_diameter": "6", "inside_diameter": "5", "thickness": "5/8"}


@pytest.mark.parametrize(
    ("typed", "key", "least", "most"),
    [
        # 25 mm, the input's most, takes more wood than a stave 5/8 in thick has.
        (SMALL | {"turning_allowance": "2"}, "turning_allowance", "0", "1/16"),
        (SMALL | {"inside_diameter": "12 ft"}, "inside_diameter", "5", "6"),
        (SMALL | {"inside_diameter": "25"}, "inside_diameter", "5", "6"),
        (SMALL | {"staves": "2"}, "staves", "4", "12"),
        (SMALL | {"outside_diameter": "0"}, "outside_diameter", "5", "6"),
    ],
)
def test_the_nearest_works_with_all_that_was_typed_beside_it(
    typed: dict[str, str], key: str, least: str, most: str
) -> None:
    with pytest.raises(WorkshopError) as refused:
        registry.work_out("stave_cylinder", typed, INCH)
    near = refused.value.nearest
    assert refused.value.input == key
    registry.work_out("stave_cylinder", typed | {key: near}, INCH)
    if key == "staves":
        assert int(least) <= int(near) <= int(most)
    else:
        assert inches(least) <= Length.read(near, INCH.unit) <= inches(most)


def test_nothing_is_near_what_cannot_be_read() -> None:
    with pytest.raises(WorkshopError) as refused:
        registry.work_out("stave_cylinder", SMALL | {"height": "1e9"}, INCH)
    assert refused.value.nearest == ""
