"""Going out, in a real browser: count, copy, edit, freeze, take along."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from app.store.workspace import Workspace
from tests.services.shop import SLUG, porch

pytestmark = pytest.mark.browser
PAGE = f"/series/{SLUG}/1"


@pytest.fixture
def out(page: Page, workspace: Workspace) -> Page:
    """The page of the first part."""
    porch(workspace)
    page.goto(PAGE)
    return page


def test_the_count_follows_what_is_typed(out: Page) -> None:
    opening = out.get_by_role("region", name="Opening")
    opening.get_by_text("Write it in your own words").click()
    opening.get_by_label("Opening, your words").fill("ä😀")
    # Two characters; two and four bytes in UTF-8 (RFC 3629).
    expect(opening.get_by_text("2 characters, 6 bytes")).to_be_visible()


def test_a_block_is_copied_by_its_button(out: Page) -> None:
    out.context.grant_permissions(["clipboard-read", "clipboard-write"])
    opening = out.get_by_role("region", name="Opening")
    opening.get_by_role("button", name="Copy").click()
    expect(opening.get_by_text("Copied")).to_be_visible()
    copied = out.evaluate("navigator.clipboard.readText()")
    assert copied == "Lantern stand.\nPart 1 of 3 of the series Porch pieces."


def test_words_are_kept_frozen_and_taken_along(out: Page) -> None:
    opening = out.get_by_role("region", name="Opening")
    opening.get_by_text("Write it in your own words").click()
    opening.get_by_label("Opening, your words").fill("A stand for a lantern.")
    opening.get_by_role("button", name="Keep these words").click()
    expect(opening.get_by_text("(your words)")).to_be_visible()
    # The page came by htmx: its buttons must work as on the first visit.
    expect(opening.get_by_role("button", name="Copy")).to_be_visible()
    out.get_by_role("button", name="Freeze revision 1").click()
    expect(out.get_by_text(re.compile(r"^Revision 1, frozen"))).to_be_visible()
    with out.expect_download() as taken:
        out.get_by_role("link", name="The whole pack of revision 1 (zip)").click()
    assert taken.value.suggested_filename == "01-lantern-stand-revision-1.zip"


def test_an_item_and_a_promise_are_noted_where_they_belong(out: Page) -> None:
    used = out.get_by_role("region", name="Supplies and tools beyond the steps")
    used.get_by_text("Add a supply or a tool").click()
    used.get_by_label("Name").fill("hardwax oil")
    used.get_by_label("It was given to me").check()
    used.get_by_role("button", name="Add it").click()
    disclosure = out.get_by_role("region", name="Disclosure")
    expect(disclosure.get_by_text("I was given hardwax oil").first).to_be_visible()
    told = out.get_by_role("region", name="Promises to viewers")
    told.get_by_text("Record a promise").click()
    told.get_by_label("What viewers were told").fill("a planter of the offcuts")
    told.get_by_role("button", name="Record it").click()
    expect(told.get_by_text("Open, no date.")).to_be_visible()
    told.get_by_role("link", name="All promises of the series").click()
    expect(out.get_by_role("heading", name="Promises of Porch pieces")).to_be_visible()
