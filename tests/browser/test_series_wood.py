"""Planning the wood of a whole series in the browser."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Locator, Page, expect

from app.services import designs, episodes
from app.store.workspace import Workspace
from tests.services.entry_series import HEAD, SELLS, entry

LONGEST_WAIT = 60_000  # ms; another program may have the machine meanwhile


def wood(page: Page) -> Locator:
    return page.get_by_role("region", name="Wood for the whole series")


def plan(page: Page, slug: str, sells: str) -> None:
    page.goto(f"/series/{slug}")
    wood(page).get_by_label("What the dealer sells").fill(sells)
    wood(page).get_by_role("button", name="Plan the wood for all parts").click()
    shown = wood(page).get_by_role("heading", name="What to buy now")
    expect(shown).to_be_visible(timeout=LONGEST_WAIT)


@pytest.mark.parametrize("width", [1280, 390])
def test_the_plan_says_what_to_buy_keep_and_cut_up(
    page: Page, workspace: Workspace, width: int
) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    slug = entry(workspace)
    plan(page, slug, SELLS)
    expect(wood(page)).to_contain_text("to buy for all parts")
    expect(wood(page)).to_contain_text(re.compile(r"for part \d"))
    wood(page).get_by_text("How the boards are cut in all parts").click()
    expect(wood(page).locator("figure.board svg").first).to_be_visible()
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= width


def test_a_design_that_changes_marks_the_plan(page: Page, workspace: Workspace) -> None:
    slug = entry(workspace)
    plan(page, slug, SELLS)
    episode = episodes.find(workspace, slug, 3)
    parts = {"file": f"{HEAD}\nbottom,1,3/4,5,20,walnut"}
    designs.save(workspace, episode.id, "parts_list", parts, 1)
    page.reload()
    expect(wood(page)).to_contain_text("After this plan was made, the design changed")
    wood(page).get_by_role("link", name="Plan the wood again").click()
    expect(wood(page).get_by_label("What the dealer sells")).to_be_visible()
