"""A straight vessel sized by what it is to hold."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.design import Design
from app.core.length import Display, Length, Unit, inches, mm
from app.core.shop import Shop
from app.core.volume_typed import Volume
from tests.core.forms.vessels import size, vessel

METRIC = Shop(unit=Unit.MILLIMETRE, display=Display(unit=Unit.MILLIMETRE))


def holding(volume: str, shop: Shop = Shop(), **given_texts: object) -> Design:
    return vessel(shop, outside_side="", inside_volume=volume, **given_texts)


def holds(design: Design) -> int:
    value = next(one.value for one in design.sizes if one.key == "inside_volume")
    assert isinstance(value, int)
    return value


@pytest.mark.parametrize(
    ("base", "height"),
    [("none", "100"), ("under", "100"), ("rebate", "106"), ("groove", "111")],
)
def test_a_litre_is_a_cube_of_a_hundred_millimetres_above_the_base(
    base: str, height: str
) -> None:
    """A litre is a cubic decimetre: SI brochure, table 8."""
    design = holding(
        "1", METRIC, sides=4, base=base, height=height, wall="10",
        base_thickness="6", groove_up="5",
    )  # fmt: skip
    assert size(design, "inside_inscribed") == mm(100)
    assert size(design, "outside_side") == mm(120)
    assert holds(design) == 10**24


def test_a_quart_in_six_sides_by_the_area_of_a_hexagon() -> None:
    """A US quart is 57.75 in³, NIST SP 811 B.8; a hexagon 6 in high over it."""
    design = holding("1 qt", sides=6, base="none", height="6 in")
    across = math.sqrt(57.75 / 6 / (2 * math.sqrt(3))) * 2
    assert size(design, "inside_inscribed").nm / 25.4e6 == pytest.approx(across)
    wall = size(design, "outside_inscribed") - size(design, "inside_inscribed")
    assert wall == inches("1")


def test_what_it_holds_stays_as_given_and_the_width_shows_its_working() -> None:
    design = holding("2.5 litres", METRIC, sides=7, height="160")
    assert holds(design) == 5 * 10**24 // 2
    assert design.inputs["inside_volume"] == "2.5 l"
    across = next(one for one in design.sizes if one.key == "inside_inscribed")
    assert "√(2.5 litres / (7 × tan(180°/7) ×" in across.values


@given(st.integers(3, 16), st.integers(200, 9000), st.integers(60, 400))
def test_the_width_found_holds_the_volume_to_a_nanometre(
    sides: int, millilitres: int, height: int
) -> None:
    design = holding(f"{millilitres} ml", METRIC, sides=sides, height=height, wall="4")
    again = vessel(
        METRIC,
        sides=sides,
        height=height,
        wall="4",
        inside_inscribed=_typed(size(design, "inside_inscribed")),
    )
    hair = sides * size(design, "inside_side").nm * mm(height).nm
    assert abs(holds(again) - millilitres * 10**21) <= hair


def _typed(length: Length) -> str:
    return f"{length.nm // 10**6}.{length.nm % 10**6:06d} mm"


def test_a_bare_number_is_in_what_the_shop_shows() -> None:
    assert holds(holding("120")) == Volume.read("120 in3").nm3
    assert holds(holding("2", METRIC, height="150")) == 2 * 10**24
