"""From boards nobody has seen to a plan of the real ones, in a browser."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from app.store.workspace import Workspace
from tests.services import yard
from tests.services.porch_rack import put, walnut
from tests.services.test_bought_boards import PARTS, SELLS
from tests.services.test_glued_parts import TOP
from tests.services.yard import in_short

__all__ = ["in_short"]

pytestmark = pytest.mark.browser

PAGE = f"/series/{yard.SLUG}/1"


def test_real_boards_are_typed_in_and_the_plan_is_made_of_them(
    page: Page, workspace: Workspace
) -> None:
    yard.start(workspace, PARTS)
    yard.make(workspace, SELLS)
    page.set_viewport_size({"width": 390, "height": 800})
    page.goto(PAGE)
    wood = page.get_by_role("region", name="Wood", exact=True)
    wood.get_by_role("link", name="See how much").click()
    expect(wood.get_by_text("Buy about")).to_be_in_viewport()
    boards = wood.get_by_label("The boards you bought: walnut 4/4")
    boards.fill("7 1/2 x 98\nnine feet")
    button = wood.get_by_role("button", name="Record these boards and plan again")
    button.click()
    expect(wood.get_by_text("Line 2: “nine feet” is not width")).to_be_visible()
    expect(boards).to_have_value("7 1/2 x 98\nnine feet")
    boards.fill("7 1/2 x 98\n8 x 100\n2 x 6 1/4 x 97")
    button.click()
    expect(wood.get_by_role("button", name="Mark as cut")).to_be_visible()
    expect(wood.get_by_text("Buy about")).to_have_count(0)
    width = page.evaluate("document.documentElement.scrollWidth")
    assert width <= 390


def test_strips_are_glued_up_into_the_part(page: Page, workspace: Workspace) -> None:
    yard.shop(workspace, glue_narrowest="2")
    yard.start(workspace, TOP)
    put(workspace, walnut("99", "5"))
    yard.make(workspace)
    yard.cut(workspace)
    page.goto(PAGE)
    wood = page.get_by_role("region", name="Wood", exact=True)
    wood.get_by_text("Glue up top").click()
    wood.get_by_role("button", name="Record the glue-up").click()
    expect(wood.get_by_text("Everything is there.")).to_be_visible()
