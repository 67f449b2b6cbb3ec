"""The bench in a real browser: ticking, noting, photographing; phone, no script."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Browser, Page, expect

from app.store.workspace import Workspace
from tests.services.bench import SLUG, build, jpeg

pytestmark = pytest.mark.browser
PART = f"/series/{SLUG}/1"


@pytest.fixture
def steps(workspace: Workspace) -> list[int]:
    """Two steps from a design."""
    return build(workspace)


@pytest.fixture
def camera(tmp_path: Path) -> list[Path]:
    """Three photos, the second cut short."""
    found = [tmp_path / name for name in ("a.jpg", "half.jpg", "c.jpg")]
    for path, data in zip(found, (jpeg(40), jpeg(90)[:400], jpeg(200)), strict=True):
        path.write_bytes(data)
    return found


def test_a_tick_stays_in_its_place_and_can_be_undone(
    page: Page, steps: list[int]
) -> None:
    page.goto(PART)
    page.evaluate("window.notLoadedAgain = true")
    page.get_by_role("button", name="Tick off Bevel the walls").click()
    undo = page.get_by_role("button", name="Undo Bevel the walls")
    expect(undo).to_be_focused()
    expect(page.get_by_text("1 of 2 steps still to do.")).to_be_visible()
    undo.press("Enter")
    expect(page.get_by_text("2 of 2 steps still to do.")).to_be_visible()
    assert page.evaluate("window.notLoadedAgain")


def test_a_note_is_kept_and_stays_in_sight(page: Page, steps: list[int]) -> None:
    page.goto(PART)
    page.get_by_text("Write a note on this step").last.click()
    form = page.locator(f"#step-{steps[1]}")
    form.get_by_label("What happened").fill("Straps held **well**")
    form.get_by_label("Time in the film").fill("half past")
    form.get_by_role("button", name="Keep the note").click()
    expect(form.get_by_label("What happened").last).to_have_value(
        "Straps held **well**"
    )
    expect(page.get_by_text("is not a time in the film")).to_be_in_viewport()
    form.get_by_label("Time in the film").last.fill("2:30")
    form.get_by_role("button", name="Keep the note").click()
    expect(form.get_by_role("strong")).to_be_in_viewport()
    expect(form.get_by_text("2:30 in the film")).to_be_visible()


def test_photos_go_one_by_one_and_a_bad_one_stops_no_other(
    page: Page, steps: list[int], camera: list[Path]
) -> None:
    page.goto(PART)
    first = page.locator(f"#step-{steps[0]}")
    first.get_by_text("Add photos to this step").click()
    first.get_by_label("Photos").set_input_files(camera)
    first.get_by_role("button", name="Add the photos").click()
    expect(first.get_by_text("“half.jpg” is cut short or damaged")).to_be_visible()
    first.get_by_role("link", name="Show the log with what was kept").click()
    expect(first.get_by_role("img")).to_have_count(2)
    source = first.get_by_role("img").first.get_attribute("src")
    shown = page.request.get(str(source)).body()
    assert Image.open(BytesIO(shown)).size == (60, 40)


def test_the_bench_works_without_script(
    browser: Browser, live_server: str, steps: list[int], camera: list[Path]
) -> None:
    with browser.new_context(base_url=live_server, java_script_enabled=False) as bare:
        page = bare.new_page()
        page.goto(PART)
        page.get_by_role("button", name="Tick off Glue the ring").click()
        expect(page.get_by_text("1 of 2 steps still to do.")).to_be_visible()
        page.get_by_label("Photos").last.set_input_files([camera[0], camera[2]])
        page.get_by_role("button", name="Add the photos").last.click()
        expect(page.get_by_role("img", name="Photo a.jpg")).to_be_visible()
        expect(page.get_by_role("img", name="Photo c.jpg")).to_be_visible()


def test_the_bench_is_usable_with_one_thumb(page: Page, steps: list[int]) -> None:
    page.set_viewport_size({"width": 390, "height": 800})
    page.goto(PART)
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    # 44 px: the least target of WCAG 2.2, success criterion 2.5.5.
    for button in page.locator("#bench .step-head button").all():
        assert (button.bounding_box() or {"height": 0})["height"] >= 56
    for fold in page.locator("#bench .beside summary").all():
        assert (fold.bounding_box() or {"height": 0})["height"] >= 44
    size = page.locator("#bench .step h3").first.evaluate(
        "e => parseFloat(getComputedStyle(e).fontSize)"
    )
    assert size >= 24
