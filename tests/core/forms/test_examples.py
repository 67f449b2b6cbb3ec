"""What a form's page opens on: a build in the maker's own unit."""

from __future__ import annotations

import pytest

from app.core import registry
from app.core.length import Length, Unit
from app.core.part import Part
from app.core.shop import Shop


def parts(form: str, unit: Unit) -> tuple[Part, ...]:
    example = registry.form(form).example(unit)
    return registry.work_out(form, example, Shop(unit=unit)).parts


@pytest.mark.parametrize("unit", list(Unit))
@pytest.mark.parametrize("form", list(registry.forms()))
def test_the_example_is_a_thing_of_a_hands_size(form: str, unit: Unit) -> None:
    for part in parts(form, unit):
        assert Length(25_000_000) < part.finished.length < Length(450_000_000)
        assert Length(4_000_000) < part.finished.thickness < Length(45_000_000)


@pytest.mark.parametrize("form", list(registry.forms()))
def test_a_metric_example_is_in_whole_millimetres(form: str) -> None:
    example = registry.form(form).example(Unit.MILLIMETRE)
    assert not any(mark in text for text in example.values() for mark in ('"', "in "))
    made = parts(form, Unit.MILLIMETRE)
    assert all(part.finished.thickness.nm % 1_000_000 == 0 for part in made)
