"""Over size by: the workspace's policy, and what a design says otherwise."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core import registry
from app.core.allowance import MOST, Over, read
from app.core.design import Design
from app.core.errors import WorkshopError
from app.core.length import Length, Unit, inches, mm
from app.core.part import Dimensions, Part
from app.core.quantities import woods
from app.core.shop import Shop
from tests.core.forms.grids import FREE

PARTS = ("wall", "base", "wall_panel")
SHOP = Shop(
    over_length=inches("1/2"), over_width=inches("1/8"), over_thickness=inches("1/16")
)
POLICY = Over(inches("1/2"), inches("1/8"), inches("1/16"))


def test_the_workspaces_policy_holds_where_a_design_says_nothing() -> None:
    for text in (None, "", "  \n ; \n"):
        allowances = read(text, PARTS, SHOP)
        assert all(allowances.of(part) == POLICY for part in PARTS)


@pytest.mark.parametrize(
    ("typed", "wall"),
    [
        ("wall: length 1 in", ("1", "1/8", "1/16")),
        ("wall: thickness 1/8, length 1", ("1", "1/8", "1/8")),
        ("Wall : Width 0 in", ("1/2", "0", "1/16")),
        ("base: length 3\nwall: length 2; wall: width 1", ("2", "1", "1/16")),
        ("wall: length 25.4 mm", ("1", "1/8", "1/16")),
    ],
)
def test_a_design_says_otherwise_by_part(
    typed: str, wall: tuple[str, str, str]
) -> None:
    allowances = read(typed, PARTS, SHOP)
    assert allowances.of("wall") == Over(*map(inches, wall))
    assert allowances.of("wall_panel") == POLICY


def test_a_part_of_two_words_and_a_metric_shop() -> None:
    metric = Shop(unit=Unit.MILLIMETRE)
    found = read("wall panel: width 10", PARTS, metric).of("wall_panel")
    assert found.width == mm(10)


def test_sanding_is_taken_from_both_faces() -> None:
    sanded = read(None, PARTS, Shop(over_thickness=mm(2), sanding=mm("0.25")))
    assert sanded.of("wall").thickness == mm("2.5")
    own = read("wall: thickness 3 mm", PARTS, Shop(sanding=mm("0.25")))
    assert own.of("wall").thickness == mm(3)


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("lid: length 1", "names no part of this form"),
        ("wal: length 1", "names no part of this form"),
        ("length 1 in", "names no part of this form"),
        ("wall: depth 1", "is no allowance"),
        ("wall: length", "is no allowance"),
        ("wall: length much", "is not a length"),
        ("wall: length -1", "cannot be negative"),
        ("wall: length 301 mm", "more than 300 mm"),
    ],
)
def test_what_is_no_allowance_is_refused_by_its_input(typed: str, says: str) -> None:
    with pytest.raises(WorkshopError, match=says) as refused:
        read(typed, PARTS, SHOP)
    assert refused.value.input == "over_size"


@pytest.mark.parametrize("typed", ["wal: length 1", "lid: length 1", "wall: depth 1"])
def test_the_nearest_it_names_can_be_read(typed: str) -> None:
    with pytest.raises(WorkshopError) as refused:
        read(typed, PARTS, SHOP)
    near = refused.value.nearest
    read(near if ":" in near else f"{near}: length 1", PARTS, SHOP)


sides = st.integers(0, MOST.nm).map(Length)


@given(sides, sides, sides)
def test_a_blank_less_its_part_is_what_it_is_over_size_by(
    length: Length, width: Length, thickness: Length
) -> None:
    finished = Dimensions(mm(300), mm(100), mm(20))
    over = Over(length, width, thickness)
    part = Part("wall", "Wall", 1, "walnut", finished, over.on(finished))
    assert part.over_size == Dimensions(length, width, thickness)


def example(form: str, shop: Shop) -> Design:
    return registry.work_out(form, registry.form(form).example(Unit.INCH), shop)


@pytest.mark.parametrize("form", [key for key in registry.forms() if key != FREE])
@pytest.mark.parametrize("side", ["over_length", "over_width", "over_thickness"])
def test_every_form_follows_the_workspaces_policy(form: str, side: str) -> None:
    """More allowance, more wood to the saw; and no blank smaller than its part."""
    usual = example(form, SHOP)
    more = example(form, replace(SHOP, **{side: getattr(SHOP, side) + inches("1/4")}))
    rough = [sum(one.rough for one in woods(design)) for design in (usual, more)]
    assert rough[1] > rough[0]
    for part in usual.parts:
        over = part.over_size
        assert min(over.length, over.width, over.thickness) >= Length(0), part.key
