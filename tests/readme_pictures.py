"""The README's pictures: cut out of the demo's own pages at 1280 px.

    python -m tests.photograph --readme

Each begins at a place on a page and is as high as what it has to show; the colours
are few, so that the files stay small.
"""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from PIL import Image
from playwright.sync_api import Page, sync_playwright

from app.main import resource
from tests.browser.conftest import open_browser

FOLDER = resource("static") / "pictures" / "readme"
SERIES = "/series/one-windowsill-five-builds"
WIDE = 1280
ABOVE = 20
COLOURS = 96
MOST_BYTES = 150_000


@dataclass(frozen=True)
class Cut:
    """A piece of a page: px from ``place`` down, and from left to right."""

    name: str
    path: str
    place: str
    height: int
    left: int = 0
    right: int = WIDE


COLUMN = {"left": 60, "right": 900}
CUTS = (
    Cut("series", SERIES, "h1", 900),
    Cut("rack", "/rack", "h1", 860, **COLUMN),
    Cut("design", f"{SERIES}/1", "#design", 980, **COLUMN),
    Cut("wood", f"{SERIES}/1", "#cutting-diagrams", 760, **COLUMN),
    Cut("out", f"{SERIES}/1", "#out", 900),
)


def take(address: str) -> list[str]:
    """Take them all; gives what was wrong, in words."""
    FOLDER.mkdir(parents=True, exist_ok=True)
    with sync_playwright() as playwright:
        browser = open_browser(playwright)
        page = browser.new_page(
            viewport={"width": WIDE, "height": 900}, reduced_motion="reduce"
        )
        faults = [fault for cut in CUTS if (fault := _take(page, address, cut))]
        browser.close()
    return faults


def _take(page: Page, address: str, cut: Cut) -> str:
    page.goto(address + cut.path)
    page.wait_for_load_state("networkidle")
    page.evaluate("document.fonts.ready")
    box = page.locator(cut.place).first.bounding_box()
    if box is None:
        return f"{cut.path} has no {cut.place} to begin at"
    clip = {
        "x": cut.left,
        "y": max(box["y"] - ABOVE, 0),
        "width": cut.right - cut.left,
        "height": cut.height,
    }
    picture = page.screenshot(full_page=True, clip=clip)  # type: ignore[arg-type]
    size = _write(picture, FOLDER / f"{cut.name}.png")
    return f"{cut.name}.png has {size} bytes" if size > MOST_BYTES else ""


def _write(picture: bytes, to: Path) -> int:
    with Image.open(BytesIO(picture)) as image:
        few = image.convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
        few.save(to, optimize=True)
    return to.stat().st_size
