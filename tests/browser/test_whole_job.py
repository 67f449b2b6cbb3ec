"""The whole job in a browser: an empty workspace to part 2 drawing on part 1."""

from __future__ import annotations

import io
import re
import zipfile
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Locator, Page, expect

pytestmark = pytest.mark.browser

CAPTIONS = """WEBVTT

00:00:00.000 --> 00:00:04.000
Six sides, each four inches wide, from one cherry board.

00:00:50.000 --> 00:00:55.000
What is left of it goes into the next part.
"""


def region(page: Page, name: str) -> Locator:
    """A section of the page by its heading."""
    return page.get_by_role("region", name=name, exact=True)


def start_series(page: Page) -> None:
    page.goto("/")
    page.get_by_role("link", name="Start a series").first.click()
    page.get_by_label("Title").fill("Sill and Shelf")
    page.get_by_label("What it is about").fill("Small things for a kitchen window.")
    page.get_by_role("button", name="Start the series").click()
    expect(page.get_by_role("heading", name="Sill and Shelf")).to_be_visible()


def add_part(page: Page, title: str) -> None:
    form = page.locator("#add")
    form.get_by_label("Title").fill(title)
    form.get_by_role("button", name="Add the part").click()
    expect(page.get_by_role("link", name=title).first).to_be_visible()


def buy_board(page: Page) -> None:
    page.get_by_role("link", name="Rack", exact=True).click()
    form = page.locator("#buy")
    form.get_by_label("Species").fill("cherry")
    form.get_by_label("Thickness").fill("3/4")
    form.get_by_label("Width").fill("7 1/2")
    form.get_by_label("Length").fill("96 in")
    form.get_by_label("Price").fill("42.50")
    form.get_by_role("button", name="Record the purchase").click()
    expect(region(page, "On hand").get_by_text("42.50").first).to_be_visible()


def open_part(page: Page, title: str) -> None:
    page.get_by_role("link", name="Series", exact=True).click()
    page.get_by_role("link", name="Sill and Shelf").first.click()
    page.get_by_role("link", name=title).first.click()
    expect(page.get_by_role("heading", name=title, level=1)).to_be_visible()


def design_vessel(page: Page) -> None:
    region(page, "Design").get_by_role("link", name="Choose").first.click()
    page.get_by_role("link", name="Straight vessel").click()
    page.get_by_role("textbox", name="Sides").fill("6")
    page.get_by_role("textbox", name="Height of the walls").fill("6")
    page.get_by_role("textbox", name="Species, bottom to top").fill("cherry")
    page.get_by_role("button", name="Save the design").click()
    sizes = region(page, "Design").locator(".sizes").first
    expect(sizes.get_by_text("30°").first).to_be_visible()


def plan_and_cut(page: Page) -> None:
    wood = region(page, "Wood")
    wood.get_by_label("What the dealer sells").fill("cherry, 1/2, 7 1/2, 36, 14.00")
    wood.get_by_role("button", name="Plan the cuts").click()
    expect(wood.get_by_role("heading", name="Cut list")).to_be_visible()
    buy = wood.get_by_role("button", name="Buy these boards")
    if buy.count():
        buy.click()
    wood.get_by_role("button", name="Mark as cut").click()
    expect(wood.get_by_text("The blanks and offcuts are on the")).to_be_visible()


def glue_and_build(page: Page) -> None:
    wood = region(page, "Wood")
    record = wood.get_by_role("link", name="Record the glue-up")
    while record.count():
        before = record.count()
        opener = wood.locator("summary", has_text="Glue up").first
        opener.click()
        wood.get_by_role("button", name="Record the glue-up").first.click()
        expect(record).to_have_count(before - 1)
    wood.get_by_role("button", name="Record the build").click()
    expect(wood.get_by_role("heading", name="Built")).to_be_visible()


def keep_the_log(page: Page, picture: Path) -> None:
    bench = region(page, "Bench")
    bench.get_by_role("button", name="Tick off").first.click()
    expect(bench.get_by_role("button", name="Undo")).to_have_count(1)
    bench.locator("summary", has_text=re.compile("^Write a note$")).click()
    form = bench.locator("form", has=page.get_by_label("What happened")).last
    form.get_by_label("What happened").fill("The **last joint** closed by hand.")
    form.get_by_label("Time in the film").fill("0:50")
    form.get_by_role("button", name="Keep the note").click()
    expect(bench.get_by_text("The last joint closed by hand.")).to_be_visible()
    bench.locator("#send-photos-any").set_input_files(picture)
    bench.get_by_role("button", name="Add the photos").last.click()
    expect(bench.locator("ul.photos img")).to_have_count(1)


def finish_the_film(page: Page) -> None:
    film = region(page, "Film")
    film.get_by_label("Caption file").set_input_files(
        {
            "name": "final.vtt",
            "mimeType": "text/vtt",
            "buffer": CAPTIONS.encode(),
        }
    )
    film.get_by_role("button", name="Add the captions").click()
    expect(film.get_by_text("final.vtt")).to_be_visible()
    for at, title in (("0:00", "The idea"), ("0:20", "Cutting"), ("0:50", "Closing")):
        opener = film.locator("summary", has_text=re.compile("^Add a chapter$"))
        form = film.locator(
            "form", has=page.get_by_role("button", name="Add the chapter")
        )
        if not form.is_visible():
            opener.click()
        form.get_by_label("Starts at").fill(at)
        form.get_by_label("Title").fill(title)
        form.get_by_role("button", name="Add the chapter").click()
        expect(film.get_by_text(title, exact=True).first).to_be_visible()
    expect(film.get_by_text("Players will take this list.")).to_be_visible()


def publish(page: Page) -> None:
    head = page.locator("#head")
    head.get_by_text("Change title, opening, date, link").click()
    head.get_by_label("Link to the video").fill("https://video.example/sill-1")
    head.get_by_role("button", name="Save the head").click()
    expect(page.get_by_role("link", name="The video").first).to_be_visible()
    told = region(page, "Promises to viewers")
    told.get_by_text("Record a promise").click()
    told.get_by_label("What viewers were told").fill("a tray from what is left")
    told.get_by_role("button", name="Record it").click()
    expect(told.get_by_text("Open, no date.")).to_be_visible()
    page.get_by_role("button", name="Freeze revision 1").click()
    expect(page.get_by_text(re.compile(r"^Revision 1, frozen"))).to_be_visible()


def pack(page: Page) -> dict[str, bytes]:
    """The files of the newest revision's pack."""
    with page.expect_download() as taken:
        page.get_by_role("link", name="The whole pack of revision 1 (zip)").click()
    with zipfile.ZipFile(io.BytesIO(Path(taken.value.path()).read_bytes())) as found:
        return {name.split("/", 1)[-1]: found.read(name) for name in found.namelist()}


def design_tray(page: Page) -> None:
    region(page, "Design").get_by_role("link", name="Choose").first.click()
    page.get_by_role("link", name="Parts list").click()
    page.get_by_role("textbox", name="Parts").fill(
        "part,quantity,thickness,width,length,species\nslat,2,5/8,2 1/2,16,cherry\n"
    )
    page.get_by_role("button", name="Save the design").click()
    expect(region(page, "Design").get_by_role("row", name="slat").first).to_be_visible()


def test_from_an_empty_workspace_to_the_second_part(page: Page, tmp_path: Path) -> None:
    picture = tmp_path / "closing.jpg"
    Image.new("RGB", (640, 480), (150, 90, 60)).save(picture)

    start_series(page)
    add_part(page, "Six-sided holder")
    add_part(page, "Slatted tray")
    buy_board(page)
    open_part(page, "Six-sided holder")
    design_vessel(page)
    plan_and_cut(page)
    glue_and_build(page)
    keep_the_log(page, picture)
    finish_the_film(page)
    publish(page)
    first = pack(page)
    description = first["description.txt"].decode()
    assert "0:20 Cutting" in description
    assert "cherry" in first["materials.md"].decode()
    assert first["plan.pdf"].startswith(b"%PDF")

    open_part(page, "Slatted tray")
    design_tray(page)
    plan_and_cut(page)
    glue_and_build(page)
    told = region(page, "Promises to viewers")
    told.get_by_text("Keep it in this part").click()
    told.get_by_role("button", name="Keep it here").click()
    expect(told.get_by_text("a tray from what is left")).to_be_visible()
    page.get_by_role("button", name="Freeze revision 1").click()
    expect(page.get_by_text(re.compile(r"^Revision 1, frozen"))).to_be_visible()
    second = pack(page)["description.txt"].decode()
    assert "left over from part 1" in second
    assert "https://video.example/sill-1" in second
    assert "a tray from what is left" in second
