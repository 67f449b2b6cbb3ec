"""Set-ups stand in the order of work: a maker reads down the list at the machines."""

from __future__ import annotations

import importlib

import pytest

from app.core import registry
from app.core.shop import Shop

FORMS = [key for key in registry.forms() if key != "parts_list"]


@pytest.mark.parametrize("form", FORMS)
def test_set_ups_come_in_the_order_in_which_the_steps_use_them(form: str) -> None:
    grid = importlib.import_module(f"tests.core.forms.grid_{form}").GRID
    for typed in grid[::12]:
        design = registry.work_out(form, typed, Shop())
        used = [step.set_up for step in design.steps if step.set_up]
        assert list(dict.fromkeys(used)) == [one.key for one in design.set_ups], typed
