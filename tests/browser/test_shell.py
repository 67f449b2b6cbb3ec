"""The notebook itself: starting a series, two windows, keyboard, phone, no script."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser, Page, expect

from app.services import episodes, series
from app.store.workspace import Workspace

pytestmark = pytest.mark.browser
LONG = "A tall twelve-sided vessel of walnut and maple with a captured lid and inlay"


@pytest.fixture
def trays(workspace: Workspace) -> str:
    """A series of three parts."""
    name = series.create(workspace, "Four trays", "One tray, grown.")
    for title in ("Plain tray", "Tray with a lid", LONG):
        episodes.add(workspace, name, title, "Splines", "2026-05-01")
    return name


def test_a_first_series_starts_from_an_empty_notebook(page: Page) -> None:
    page.goto("/")
    page.get_by_role("link", name="Start a series").click()
    page.get_by_label("Title").fill("Porch pieces")
    page.get_by_role("button", name="Start the series").click()
    expect(page.get_by_role("heading", name="Porch pieces")).to_be_visible()
    page.get_by_label("Title").last.fill("Planter")
    page.get_by_role("button", name="Add the part").click()
    page.get_by_role("link", name="Planter", exact=True).click()
    expect(page).to_have_url(re.compile(r"/series/porch-pieces/1$"))
    expect(page.get_by_role("heading", level=1, name="Planter")).to_be_visible()
    thread = page.get_by_role("navigation", name="Parts of Porch pieces")
    expect(thread.get_by_role("link", name="Planter")).to_have_attribute(
        "aria-current", "page"
    )


def test_a_refused_form_keeps_what_was_typed_and_its_address(
    page: Page, trays: str
) -> None:
    page.goto(f"/series/{trays}")
    page.get_by_text("Change title and words").click()
    page.get_by_label("What it is about").fill("All with lids.")
    page.get_by_label("Title", exact=True).first.fill("  ")
    page.get_by_role("button", name="Save the words").click()
    expect(page.get_by_text("A title is missing")).to_be_visible()
    expect(page.get_by_label("What it is about")).to_have_value("All with lids.")
    expect(page).to_have_url(re.compile(rf"/series/{trays}$"))
    expect(page.get_by_label("Title").first).to_be_focused()


def test_saving_keeps_the_place_on_the_page(page: Page, trays: str) -> None:
    page.goto(f"/series/{trays}")
    page.locator("#part-3").get_by_text("Change", exact=False).first.click()
    page.locator("#part-3").get_by_label("What it introduces").fill("Inlay")
    page.get_by_role("button", name="Save part 3").click()
    expect(page.get_by_text("Introduces: Inlay")).to_be_visible()
    expect(page).to_have_url(re.compile(r"#part-3$"))
    expect(page.locator("#part-3")).to_be_in_viewport()


def test_two_windows_and_nothing_is_lost(page: Page, trays: str) -> None:
    address = f"/series/{trays}/1"
    other = page.context.new_page()
    for window in (page, other):
        window.goto(address)
        window.get_by_text("Change title, opening").click()
    page.locator("#head").get_by_label("Opening").fill("From the first window.")
    page.get_by_role("button", name="Save the head").click()
    expect(page.get_by_role("paragraph").get_by_text("From the first")).to_be_visible()
    other.locator("#head").get_by_label("Opening").fill("From the second window.")
    other.get_by_role("button", name="Save the head").click()
    expect(other.get_by_role("alert").filter(has_text="another window")).to_be_visible()
    expect(other.get_by_text("Saved now: From the first window.")).to_be_visible()
    expect(other.locator("#head").get_by_label("Opening")).to_have_value(
        "From the second window."
    )
    other.get_by_role("button", name="Save the head").click()
    expect(
        other.get_by_role("paragraph").get_by_text("From the second")
    ).to_be_visible()


def test_the_keyboard_alone_is_enough(page: Page, trays: str) -> None:
    page.goto(f"/series/{trays}/1")
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="Go to the page’s text")).to_be_focused()
    page.keyboard.press("Enter")
    names = page.get_by_role("navigation", name="Parts of")
    page.keyboard.press("Tab")
    expect(names.get_by_role("link").first).to_be_focused()
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Tray with a lid")
    page.get_by_text("Change title, opening").focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    page.keyboard.press("ControlOrMeta+a")
    page.keyboard.type("Lidded tray")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Lidded tray")


@pytest.mark.parametrize(
    "path", ["/", "/series/new", "/settings", "", "/3", "/nowhere"]
)
def test_a_phone_scrolls_downwards_only(page: Page, trays: str, path: str) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    here = path if path.startswith("/s") or path in ("/", "/nowhere") else None
    page.goto(here or f"/series/{trays}{path}")
    width = page.evaluate("document.documentElement.scrollWidth")
    assert width <= 390, page.url


@pytest.mark.parametrize("width", [390, 1280])
def test_far_too_much_text_makes_no_page_wider(
    page: Page, workspace: Workspace, width: int
) -> None:
    name = series.create(workspace, "Unbroken" * 20, "word " * 400 + "x" * 300)
    for _ in range(12):
        episodes.add(workspace, name, "W" * 190, "Introduces" * 30, "")
    page.set_viewport_size({"width": width, "height": 900})
    for path in ("/", f"/series/{name}", f"/series/{name}/1"):
        page.goto(path)
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path


def test_the_thread_scrolls_in_itself_on_a_phone(
    page: Page, workspace: Workspace
) -> None:
    name = series.create(workspace, "Long run", "")
    for number in range(1, 9):
        episodes.add(workspace, name, f"Build number {number}", "", "")
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(f"/series/{name}/1")
    last = page.get_by_role("navigation", name="Parts of").get_by_role("link").last
    expect(last).not_to_be_in_viewport()
    last.focus()
    expect(last).to_be_in_viewport()


def test_seven_parts_are_in_sight_at_once_on_a_wide_page(
    page: Page, workspace: Workspace
) -> None:
    name = series.create(workspace, "A week of trays", "")
    for number in range(1, 8):
        title = f"A tray with a long name and handles {number}"
        episodes.add(workspace, name, title, "", "")
    for path in ("/", f"/series/{name}", f"/series/{name}/1"):
        page.goto(path)
        for knot in (
            page.get_by_role("navigation", name="Parts of").get_by_role("link").all()
        ):
            expect(knot).to_be_in_viewport(ratio=0.99)


def test_a_long_thread_shows_the_part_in_hand_and_where_it_goes_on(
    page: Page, workspace: Workspace
) -> None:
    name = series.create(workspace, "Long run", "")
    for number in range(1, 12):
        episodes.add(workspace, name, f"Build number {number}", "", "")
    page.set_viewport_size({"width": 390, "height": 844})
    thread = page.get_by_role("navigation", name="Parts of")
    for number, classes in ((1, "thread goes-on"), (11, "thread came-from")):
        page.goto(f"/series/{name}/{number}")
        expect(thread).to_have_class(classes)
        in_hand = thread.get_by_role("link", name=f"Build number {number} ,")
        expect(in_hand).to_be_in_viewport(ratio=0.99)


def test_the_chosen_paper_stays(page: Page) -> None:
    page.goto("/settings")
    page.get_by_role("button", name="dark").click()
    expect(page.locator("html")).to_have_attribute("data-theme", "dark")
    expect(page).to_have_url(re.compile(r"/settings$"))
    page.goto("/series/new")
    expect(page.locator("html")).to_have_attribute("data-theme", "dark")


def test_every_form_also_works_without_script(
    browser: Browser, live_server: str, trays: str
) -> None:
    context = browser.new_context(base_url=live_server, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"/series/{trays}")
    page.locator("#add").get_by_label("Title").fill("Last tray")
    page.get_by_role("button", name="Add the part").click()
    page.wait_for_url("**/series/four-trays#part-4")
    page.locator("#add").get_by_label("Title").fill("   ")
    page.locator("#add").get_by_label("What it introduces").fill("Hinges")
    page.get_by_role("button", name="Add the part").click()
    expect(page.get_by_text("A title is missing")).to_be_visible()
    expect(page.locator("#add").get_by_label("What it introduces")).to_have_value(
        "Hinges"
    )
    context.close()


def test_lengths_in_the_settings_are_typed_as_makers_do(page: Page) -> None:
    page.goto("/settings")
    page.get_by_label("Kerf", exact=True).fill("3/32")
    page.get_by_role("button", name="Save the settings").click()
    expect(page.get_by_role("status")).to_contain_text("Saved.")
    expect(page.get_by_label("Kerf", exact=True)).to_have_value("3/32 in")
    page.get_by_label("Kerf", exact=True).fill("a bit")
    page.get_by_role("button", name="Save the settings").click()
    expect(page.get_by_text("“a bit” is not a length")).to_be_visible()
    expect(page.get_by_label("Kerf", exact=True)).to_have_value("a bit")
