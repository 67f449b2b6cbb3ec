"""Supplies and tools beyond the steps."""

from __future__ import annotations

import pytest

from app.core.errors import NotFound, StaleEdit, WorkshopError
from app.services import used
from app.services.used import UsedTyped
from app.store.workspace import Workspace
from tests.services.shop import porch


def test_an_item_is_added_changed_and_removed(workspace: Workspace) -> None:
    first, *_ = porch(workspace)
    item = used.add(
        workspace,
        first,
        UsedTyped(
            "supply", "  wood   glue ", "60 ml", "https://shop.example", True, "4.5"
        ),
    )
    (view,) = used.of_episode(workspace, first)
    assert (view.name, view.given, view.cost, view.price) == (
        "wood glue",
        True,
        450,
        "4.50",
    )
    used.edit(workspace, first, item, UsedTyped("tool", "clamp"), view.version)
    (view,) = used.of_episode(workspace, first)
    assert (view.kind, view.name, view.given, view.price) == (
        "tool",
        "clamp",
        False,
        "",
    )
    used.remove(workspace, first, item, view.version)
    assert used.of_episode(workspace, first) == ()


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        (UsedTyped("supply", " "), "name"),
        (UsedTyped("supply", "g" * 201), "name"),
        (UsedTyped("supply", "glue", "x" * 81), "quantity"),
        (UsedTyped("wood", "glue"), "kind"),
        (UsedTyped("supply", "glue", url="javascript:alert(1)"), "url"),
        (UsedTyped("supply", "glue", url="ftp://shop.example/glue"), "url"),
        (UsedTyped("supply", "glue", url="shop.example"), "url"),
        (UsedTyped("supply", "glue", url="https://shop.example/a b"), "url"),
        (UsedTyped("supply", "glue", url="https://[::1"), "url"),
        (UsedTyped("supply", "glue", cost="a lot"), "cost"),
    ],
)
def test_what_cannot_be_kept_names_its_field_and_keeps_nothing(
    workspace: Workspace, typed: UsedTyped, field: str
) -> None:
    first, *_ = porch(workspace)
    with pytest.raises(WorkshopError) as caught:
        used.add(workspace, first, typed)
    assert caught.value.input == field
    assert used.of_episode(workspace, first) == ()


def test_a_stale_edit_loses_neither_side(workspace: Workspace) -> None:
    first, *_ = porch(workspace)
    item = used.add(workspace, first, UsedTyped("supply", "glue"))
    used.edit(workspace, first, item, UsedTyped("supply", "hide glue"), 1)
    with pytest.raises(StaleEdit) as caught:
        used.edit(workspace, first, item, UsedTyped("supply", "fish glue"), 1)
    assert caught.value.stored["name"] == "hide glue"
    with pytest.raises(StaleEdit):
        used.remove(workspace, first, item, 1)


def test_an_item_of_another_part_is_not_found(workspace: Workspace) -> None:
    first, second, _ = porch(workspace)
    item = used.add(workspace, first, UsedTyped("supply", "glue"))
    with pytest.raises(NotFound):
        used.remove(workspace, second, item, 1)
