"""The README's pictures: cut out of the demo's own pages at 1280 px.

    python -m tests.photograph --readme

Each goes from one place of a page to another, so that it shows something whole; the
colours are few, so that the files stay small.
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
AROUND = 20
COLOURS = 96
MOST_BYTES = 150_000


@dataclass(frozen=True)
class Cut:
    """A piece of a page, from the top of one place to the top of another.

    ``whole``: to the other's bottom instead. ``sides``: left and right, px.
    """

    name: str
    path: str
    start: str
    end: str
    whole: bool = False
    sides: tuple[int, int] = (0, WIDE)


COLUMN, BROAD = (64, 890), (64, 1224)
FOURTH = ".drawings > .drawing:nth-of-type(4)"
CUTS = (
    Cut("series", SERIES, "h1", "#part-3"),
    Cut("rack", "/rack", "h1", "#bring-in", sides=COLUMN),
    Cut("design", f"{SERIES}/1", "#design", FOURTH, whole=True, sides=BROAD),
    Cut("wood", f"{SERIES}/1", "#cutting-diagrams", ".board", whole=True, sides=COLUMN),
    Cut("out", f"{SERIES}/3", "#out", "#block-used"),
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
    places = [page.locator(one).first for one in (cut.start, cut.end)]
    start, end = (place.bounding_box() for place in places)
    if start is None or end is None:
        return f"{cut.path} has no {cut.end if start else cut.start}"
    top = max(start["y"] - AROUND, 0)
    foot = end["y"] + (end["height"] + AROUND if cut.whole else 0)
    left, right = cut.sides
    clip = {"x": left, "y": top, "width": right - left, "height": foot - top}
    picture = page.screenshot(full_page=True, clip=clip)  # type: ignore[arg-type]
    size = _write(picture, FOLDER / f"{cut.name}.png")
    return f"{cut.name}.png has {size} bytes" if size > MOST_BYTES else ""


def _write(picture: bytes, to: Path) -> int:
    with Image.open(BytesIO(picture)) as image:
        few = image.convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
        few.save(to, optimize=True)
    return to.stat().st_size
