"""A shop without the machine still gets the work done."""

from __future__ import annotations

import pytest

from app.core import registry
from app.core.by_hand import without
from app.core.figures import table
from app.core.safety import BY_HAND
from app.core.shop import Shop


def test_every_machine_is_named_once_and_is_no_hand_tool() -> None:
    machines = [row["machine"] for row in table("by_hand")]
    assert len(set(machines)) == len(machines)
    assert not {*machines} & BY_HAND


@pytest.mark.parametrize("key", registry.forms())
def test_every_machine_of_a_build_has_a_way_without_it(key: str) -> None:
    design = registry.work_out(key, registry.form(key).example(Shop().unit), Shop())
    used = {one.machine for one in design.set_ups} | {s.tool for s in design.steps}
    for machine in used - BY_HAND - {""}:
        assert without(machine), machine


def test_a_hand_tool_needs_no_other_way() -> None:
    assert without("hand plane") == ""
    assert without(" Thickness Planer").endswith("surface the stock for a fee.")
