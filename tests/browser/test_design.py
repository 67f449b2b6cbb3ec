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


def test_what_was_unfolded_stays_so_when_a_change_redraws(
    page: Page, part: str
) -> None:
    page.goto(f"{part}?form=straight_vessel")
    moves = page.locator("details.group").filter(has_text="How the wood moves")
    moves.locator("> summary").click()
    takes = page.locator("details.group").filter(has_text="What it takes")
    before = takes.locator("> summary").inner_text()
    for height in ("no height", "9"):  # a refusal in between forgets nothing
        page.get_by_label("Height of the walls").fill(height)
        page.get_by_label("Height of the walls").press("Tab")
        refused = page.locator("#tried .refusal")
        expect(refused).to_have_count(1 if height == "no height" else 0)
    expect(takes.locator("> summary")).not_to_have_text(before)
    expect(moves).to_have_attribute("open", "")
    expect(takes).not_to_have_attribute("open", "")


def test_a_refusal_stays_in_sight_and_its_button_mends_the_field(
    page: Page, part: str
) -> None:
    page.goto(f"{part}?form=straight_vessel")
    wall = page.get_by_label("Wall thickness")
    wall.fill("9")
    wall.press("Tab")
    expect(page.locator("#tried .refusal")).to_be_in_viewport()
    expect(wall).to_have_attribute("aria-invalid", "true")
    page.evaluate("window.same = true")
    use = page.get_by_role("button", name="Use ")
    words = use.inner_text().removeprefix("Use ")
    use.press("Enter")
    expect(wall).to_have_value(words)
    expect(wall).to_be_focused()
    expect(wall).not_to_have_attribute("aria-invalid", "true")
    expect(page.locator("#tried svg").first).to_be_visible()
    assert page.evaluate("window.same") is True


def test_a_field_at_fault_is_unfolded_and_shown(page: Page, part: str) -> None:
    page.goto(f"{part}?form=straight_vessel")
    joint = page.get_by_label("Widest gap that will do")
    expect(joint).to_be_hidden()
    joint.evaluate("field => { field.value = 'wide'; }")
    page.get_by_label("Sides", exact=True).fill("8")
    page.get_by_label("Sides", exact=True).press("Tab")
    expect(joint).to_be_visible()
    expect(joint).to_have_attribute("aria-invalid", "true")


def test_what_the_choice_leaves_idle_is_out_of_sight_but_not_lost(
    page: Page, part: str
) -> None:
    page.goto(f"{part}?form=straight_vessel")
    base = page.get_by_label("Base", exact=True)
    thick = page.get_by_label("Base thickness")
    expect(page.get_by_label("Your own pattern")).to_be_hidden()
    with page.expect_response("**/design/try"):
        thick.fill("3/8")
    with page.expect_response("**/design/try") as answer:
        base.select_option("none")
    expect(thick).to_be_hidden()
    assert "3/8" in (answer.value.request.post_data or "")
    with page.expect_response("**/design/try"):
        base.select_option("groove")
    expect(thick).to_be_visible()
    expect(thick).to_have_value("3/8")


def test_texts_of_drawings_are_read_two_side_by_side_and_larger(
    page: Page, part: str
) -> None:
    page.goto(f"{part}?form=box")
    drawings = page.locator("#tried svg")
    first, second = drawings.nth(0).bounding_box(), drawings.nth(1).bounding_box()
    assert first is not None
    assert second is not None
    assert first["y"] == pytest.approx(second["y"], abs=1)
    # The smallest text is 3.2 mm of a page 120 mm wide.
    assert first["width"] * 3.2 / 120 >= 12
    page.locator(".larger > summary").first.press("Enter")
    larger = drawings.first.bounding_box()
    assert larger is not None
    assert larger["width"] > 1.5 * first["width"]
    page.set_viewport_size({"width": 390, "height": 844})
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= 390


def test_the_sizes_for_viewers_are_copied(page: Page, part: str) -> None:
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.goto(f"{part}?form=straight_vessel")
    page.get_by_role("button", name="Save the design").click()
    viewer = page.locator("details.viewer")
    viewer.locator("> summary").click()
    viewer.get_by_role("button", name="Copy").click()
    expect(viewer.get_by_text("Copied")).to_be_visible()
    copied = page.evaluate("navigator.clipboard.readText()")
    assert "Outside side\t4\t101.6" in copied
