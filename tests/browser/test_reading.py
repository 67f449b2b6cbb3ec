"""The episode's page read downwards: what stands open, and how it fits a phone."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from app.services import chapters, designs, plans
from app.store.workspace import Workspace
from tests.conftest import NOON
from tests.services.shop import SLUG, porch

pytestmark = pytest.mark.browser
PAGE = f"/series/{SLUG}/1"
HEXAGON = {
    "sides": "6",
    "outside_side": "4",
    "height": "6",
    "wall": "1/2",
    "species": "cherry",
}
CHERRY = "cherry, 3/4, 7 1/2, 96, 42.50"
# What scrolls by itself inside the page: the way of the series and a drawing that was
# made larger may.
INNER = """() => [...document.querySelectorAll("main *")].filter(
    (e) => (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1)
        && getComputedStyle(e).overflowX === "auto"
        && !e.matches(".thread, textarea, .sight")
).map((e) => e.className)"""


@pytest.fixture
def planned(workspace: Workspace) -> None:
    """A vessel designed and its cuts planned."""
    first, *_ = porch(workspace)
    designs.save(workspace, first, "straight_vessel", HEXAGON, 0)
    plans.make(workspace, SLUG, 1, 0, CHERRY, "either", NOON)


@pytest.mark.usefixtures("planned")
def test_set_ups_are_folded_to_their_numbers_and_open_one_by_one(page: Page) -> None:
    page.goto(PAGE)
    design = page.get_by_role("region", name="Design", exact=True)
    bevel = design.locator("details.set-up", has_text="Bevel both ends")
    expect(bevel.locator("summary")).to_contain_text("blade 30°")
    expect(bevel.locator("summary")).to_contain_text("caution")
    expect(bevel.get_by_text("Face down")).to_be_hidden()
    bevel.locator("summary").focus()
    page.keyboard.press("Enter")
    expect(bevel.get_by_text("Face down")).to_be_visible()
    expect(design.get_by_text("Face down").filter(visible=True)).to_have_count(1)


@pytest.mark.usefixtures("planned")
@pytest.mark.parametrize("paper", ["", "shop"])
def test_nothing_is_cut_off_on_a_phone(
    page: Page, live_server: str, paper: str
) -> None:
    cookie = {"name": "stockthread_paper", "value": paper, "url": live_server}
    page.context.add_cookies([cookie] if paper else [])  # type: ignore[list-item]
    page.set_viewport_size({"width": 390, "height": 800})
    page.goto(PAGE)
    page.evaluate("document.querySelectorAll('details').forEach((e) => e.open = true)")
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    assert page.evaluate(INNER) == []


@pytest.mark.usefixtures("planned")
def test_chapters_stay_on_a_phone_read_at_twice_its_size(
    page: Page, workspace: Workspace
) -> None:
    chapters.add(workspace, SLUG, 1, "1:02:30", "Bevelling both ends of every wall")
    page.set_viewport_size({"width": 195, "height": 400})  # 390 at 200 %
    page.goto(PAGE)
    expect(page.get_by_text("Bevelling both ends of every wall").first).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= 195


@pytest.mark.usefixtures("planned")
def test_a_diagram_names_its_pieces_and_tells_its_scale(page: Page) -> None:
    page.goto(PAGE)
    wood = page.get_by_role("region", name="Wood", exact=True)
    diagram = wood.locator("figure.board").first
    expect(diagram.get_by_text("A: Wall panel strip, 2 1/8 × 25 1/8")).to_be_visible()
    expect(diagram.get_by_text("times as large as lengths")).to_be_visible()
    expect(diagram.get_by_text("A", exact=True)).to_have_count(3)


@pytest.mark.usefixtures("planned")
def test_a_link_from_the_margin_leads_to_the_step_in_hand(page: Page) -> None:
    page.goto(PAGE)
    bench = page.get_by_role("region", name="Bench", exact=True)
    expect(bench.locator("[aria-current=step] > details")).to_have_attribute("open", "")
    expect(bench.locator(".step > details[open]")).to_have_count(1)
    bench.locator("[aria-current=step] > details > summary").click()
    bench.get_by_role("link", name="On with step 1").click()
    expect(bench.locator("[aria-current=step] > details")).to_have_attribute("open", "")
