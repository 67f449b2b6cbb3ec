"""Designing a build in a browser: choosing by its picture, changing, seeing it anew."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from app.core import registry
from app.services import designs, episodes, series
from app.store.workspace import Workspace

pytestmark = pytest.mark.browser


@pytest.fixture
def part(workspace: Workspace) -> str:
    """An empty part; the address of its design page."""
    slug = series.create(workspace, "Porch pieces", "")
    episodes.add(workspace, slug, "Planter", "", "")
    return f"/series/{slug}/1/design"


def test_a_form_is_chosen_by_its_picture(page: Page, part: str) -> None:
    page.goto(part)
    for module in registry.forms().values():
        row = page.get_by_role("listitem").filter(has_text=module.SUMMARY)
        expect(row.locator("svg")).to_be_visible()
    page.get_by_role("link", name="Tapered vessel").click()
    expect(page.get_by_role("heading", level=1)).to_have_text(
        "Tapered vessel for part 1"
    )
    expect(page.get_by_role("img", name="The finished piece")).to_be_visible()


def test_a_changed_input_redraws_the_build_without_loading_the_page(
    page: Page, part: str
) -> None:
    page.goto(f"{part}?form=tapered_vessel")
    page.evaluate("window.same = true")
    tilt = page.locator(".size").filter(has_text="Blade tilt for the corners")
    before = tilt.inner_text()
    page.get_by_label("Sides", exact=True).fill("8")
    page.get_by_label("Sides", exact=True).press("Tab")
    expect(tilt).not_to_have_text(before)
    assert page.evaluate("window.same") is True
    walls = page.get_by_role("img", name="The finished piece")
    expect(walls).to_be_visible()


def test_what_cannot_be_built_is_told_while_typing_and_what_would_work(
    page: Page, part: str
) -> None:
    page.goto(f"{part}?form=mitred_tray")
    page.get_by_label("Rail width").fill("9 in")
    page.get_by_label("Rail width").press("Tab")
    told = page.locator("#tried .refusal")
    expect(told).to_be_visible()
    expect(page.get_by_text("The nearest that works")).to_be_visible()
    expect(page.get_by_label("Rail width")).to_have_value("9 in")


def test_a_pattern_of_your_own_is_seen_before_it_is_kept(
    page: Page, part: str, workspace: Workspace
) -> None:
    page.goto(f"{part}?form=tapered_vessel")
    page.get_by_label("Pattern of the strips").select_option("own")
    page.get_by_label("Your own pattern").fill("maple\nwalnut\ncherry")
    page.get_by_label("Your own pattern").press("Tab")
    named = page.locator("#tried svg text").filter(has_text="Black cherry")
    expect(named.first).to_be_visible()
    page.get_by_role("button", name="Save the design").click()
    expect(page.get_by_role("heading", name="Design", exact=True)).to_be_visible()
    slug = page.url.split("/series/")[1].split("/")[0]
    episode = episodes.find(workspace, slug, 1)
    with workspace.read() as work:
        kept = designs.within(work, episode.id)
    assert kept is not None
    assert kept.inputs["own_pattern"].split() == ["maple", "walnut", "cherry"]


@pytest.mark.parametrize("form", list(registry.forms()))
def test_every_form_opens_on_something_drawn_and_is_kept_as_it_stands(
    page: Page, part: str, form: str
) -> None:
    page.goto(f"{part}?form={form}")
    expect(page.locator("#tried .refusal")).to_have_count(0)
    expect(page.locator("#tried svg").first).to_be_visible()
    page.get_by_role("button", name="Save the design").click()
    expect(page.get_by_role("heading", name="Set-ups", exact=True)).to_be_visible()
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= page.viewport_size["width"]  # type: ignore[index]
