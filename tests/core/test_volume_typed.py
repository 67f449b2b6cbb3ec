"""What a vessel is to hold, as makers type it."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.inputs import typed
from app.core.length import Unit
from app.core.volume_typed import LARGEST, NotAVolume, Volume

MM3 = 10**18


@pytest.mark.parametrize(
    ("text", "cubic_mm", "source"),
    [
        ("2 l", "2000000", "a litre is a cubic decimetre: BIPM, SI brochure, table 8"),
        ("2.5 litres", "2500000", "as above"),
        ("2 1/2 L", "2500000", "as above"),
        ("750 ml", "750000", "as above"),
        ("33cl", "330000", "as above"),
        ("120 in3", "1966447.68", "an inch is 25.4 mm: NIST SP 811, appendix B.8"),
        ("120 in³", "1966447.68", "as above"),
        ("1 cu in", "16387.064", "NIST SP 811, appendix B.8, volume"),
        ("1 gal", "3785411.784", "US gallon, NIST SP 811, appendix B.8, volume"),
        ("1 qt", "946352.946", "US liquid quart, NIST SP 811, appendix B.8"),
        ("1 pint", "473176.473", "US liquid pint, NIST SP 811, appendix B.8"),
        ("1 fl oz", "29573.5295625", "US fluid ounce, NIST SP 811, appendix B.8"),
    ],
)
def test_volumes_are_read_exactly(text: str, cubic_mm: str, source: str) -> None:
    assert Volume.read(text).nm3 == Fraction(cubic_mm) * MM3, source


def test_a_bare_number_is_in_what_the_shop_shows() -> None:
    assert Volume.read("120") == Volume.read("120 in3")
    assert Volume.read("2", Unit.MILLIMETRE) == Volume.read("2 l")


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("", "nothing is there"),
        ("-2 l", "cannot be negative"),
        ("lots", "no number in it"),
        ("2 pecks", "“pecks” is no unit of volume"),
        ("2 in", "“in” is no unit of volume"),
        ("2,5 l", "has a comma"),
        ("2 l 3 ml", "do not fit together"),
        ("2 1 l", "do not fit together"),
        ("1/0 l", "divided by zero"),
        ("9" * 12 + " l", "more than 100 000 litres"),
        ("2" * 500, "too long"),
    ],
)
def test_what_is_no_volume_says_why(text: str, fault: str) -> None:
    with pytest.raises(NotAVolume, match=fault) as refused:
        Volume.read(text, input="inside_volume")
    assert refused.value.input == "inside_volume"


@given(st.integers(1, LARGEST), st.sampled_from(Unit))
def test_a_volume_typed_out_is_read_back_the_same(nm3: int, unit: Unit) -> None:
    volume = Volume(nm3)
    assert Volume.read(typed(volume, unit), unit) == volume


def test_round_numbers_are_typed_as_they_were() -> None:
    assert typed(Volume.read("120 in3")) == "120 in3"
    assert typed(Volume.read("1/2 in3")) == "1/2 in3"
    assert typed(Volume.read("2.5 l"), Unit.MILLIMETRE) == "2.5 l"
