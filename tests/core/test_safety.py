"""Cautions travel with the tool and the wood, and always with the same key."""

from __future__ import annotations

import pytest

from app.core.safety import (
    NoSuchCaution,
    all_cautions,
    cautions,
    for_material,
    for_tool,
    standing,
)

# The words every form, step and set-up uses for its tool.
TOOLS = [
    *("table saw", "mitre gauge", "crosscut sled", "band saw", "jointer"),
    *("thickness planer", "router table", "hand plane", "clamps", "drill press"),
    *("random orbital sander", "hand saw", "brush or cloth"),
]


def test_every_caution_says_why_where_it_was_read_and_how_sure_that_is() -> None:
    for one in all_cautions():
        assert one.text.endswith("."), one.key
        assert one.source, one.key
        assert one.reason, one.key
        assert one.confidence in {"read", "memory"}, one.key
        subject, _, hazard = one.key.partition(".")
        assert subject, one.key
        assert hazard.replace("-", "").isalnum(), one.key


def test_a_caution_from_the_trade_alone_says_so() -> None:
    for key in ("table-saw.thin-strip", "table-saw.cradle", "lathe.check-the-joints"):
        (one,) = cautions([key])
        assert one.source == "common practice, no source"


def test_the_cautions_defer_to_manual_local_codes_and_licensed_practice() -> None:
    said = standing().text
    for words in ("manual of your tool", "local codes", "licensed practice"):
        assert words in said


@pytest.mark.parametrize("tool", TOOLS)
def test_every_tool_of_a_step_brings_its_own_cautions_first(tool: str) -> None:
    keys = for_tool(tool)
    assert keys[0].startswith(tool.replace(" ", "-") + ".")
    assert len(cautions(keys)) == len(keys)


def test_a_machine_brings_what_every_motor_asks_for_and_a_hand_tool_does_not() -> None:
    assert "powered-machine.eye-injury" in for_tool("band saw")
    assert not [key for key in for_tool("hand plane") if key.startswith("powered")]
    assert "powered-machine.eye-injury" in for_tool("some new machine")
    assert for_tool("") == ()


def test_the_work_at_hand_narrows_a_tools_cautions() -> None:
    thin = for_tool("table saw", "thin rip")
    assert "table-saw.thin-strip" in thin
    assert "table-saw.kickback" in thin
    assert "table-saw.crosscut-contact" not in thin
    assert "table-saw.fence-as-stop" in for_tool("mitre gauge")
    assert "table-saw.cradle" in for_tool("table saw", "spline slots")
    assert "thickness-planer.end-grain" in for_tool("thickness planer")


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("walnut", "black-walnut.skin-and-eye-sensitiser"),
        ("White Oak", "oak.skin-and-eye-sensitiser-nose-cancer-link"),
        ("oak", "oak.skin-and-eye-sensitiser-nose-cancer-link"),
        ("western redcedar", "western-red-cedar.asthma-sensitiser"),
        ("cherry", "wood-dust.cancer"),
        ("some foreign wood", "wood-dust.cancer"),
        ("boiled linseed oil", "drying-oil.rags"),
        ("yellow glue", "pva-glue.low-hazard"),
        ("epoxy", "epoxy.skin-sensitiser"),
        ("MDF", "mdf.very-fine-dust-formaldehyde"),
    ],
)
def test_a_material_brings_its_cautions_by_the_name_it_goes_by(
    name: str, key: str
) -> None:
    assert key in for_material(name)


def test_cautions_come_once_each_in_the_order_named() -> None:
    keys = ["jointer.heavy-cut", "band-saw.tight-curve", "jointer.heavy-cut"]
    assert [one.key for one in cautions(keys)] == keys[:2]


def test_a_caution_that_cannot_be_found_is_never_left_out() -> None:
    with pytest.raises(NoSuchCaution, match=r"jointer\.nothing"):
        cautions(["jointer.heavy-cut", "jointer.nothing"])
