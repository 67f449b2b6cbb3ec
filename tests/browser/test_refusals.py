"""What is refused leaves the page as it is, and what was typed in it."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from app.services import notes
from app.services.notes import NoteTyped
from app.store.workspace import Workspace
from tests.conftest import NOON
from tests.services.bench import SLUG, build

pytestmark = pytest.mark.browser
PART = f"/series/{SLUG}/1"
WORDS = "Held the square on it for an hour."


def test_words_for_a_note_that_is_gone_stay_on_the_page(
    page: Page, workspace: Workspace
) -> None:
    build(workspace)
    note = notes.add(workspace, SLUG, 1, NoteTyped("First"), NOON)
    page.goto(PART)
    page.evaluate("window.notLoadedAgain = true")
    form = page.locator(f"form[action$='/notes/{note}']")
    field = form.locator("textarea[name=text]")
    field.evaluate("node => node.closest('details').open = true")
    field.fill(WORDS)
    notes.remove(workspace, SLUG, 1, note, 1)
    form.get_by_role("button").first.click()
    expect(page.locator("#refusal")).to_contain_text("There is nothing here.")
    expect(page.locator("#refusal")).to_be_in_viewport()
    expect(field).to_have_value(WORDS)
    assert page.evaluate("window.notLoadedAgain")
    assert page.url.split("#")[0].endswith(PART)


def test_a_double_click_records_one_purchase(page: Page) -> None:
    page.goto("/rack")
    form = page.locator("form[action$='/rack/buy']")
    for name, typed in (("species", "walnut"), ("thickness", "1"), ("width", "6")):
        form.locator(f"[name={name}]").fill(typed)
    form.locator("[name=length]").fill("96")
    form.get_by_role("button").last.dblclick()
    expect(page.get_by_role("link", name="W1").first).to_be_visible()
    page.goto("/rack")
    expect(page.get_by_role("link", name="W2")).to_have_count(0)
