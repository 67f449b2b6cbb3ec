"""Photograph every page, wide and on a phone, for the eyes of whoever changes one.

    python -m tests.photograph --to DIR [--data DIR] [--theme light|dark|shop|grey]
    python -m tests.photograph --readme

Starts a server on a free port on the workspace in ``--data`` (without it: the demo,
built afresh), follows every link that stays inside from the first page, and takes one
picture of each kind of address at 1280 and 390 px. ``names.txt`` says which is which.
With ``--readme`` it takes the README's pictures of the demo into their place instead.
"""

from __future__ import annotations

import argparse
import re
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urldefrag, urljoin, urlsplit

from flask import Flask
from playwright.sync_api import Page, sync_playwright
from werkzeug.exceptions import HTTPException

from app.main import resource
from app.services.demo import build
from app.serving import ADDRESS, listen, log_to_terminal, make_app
from app.store.workspace import Workspace, open_workspace
from tests import readme_pictures
from tests.browser.conftest import open_browser, served

WIDTHS = (1280, 390)
# Enough for every kind of page, few enough to wait for.
MOST_PAGES = 400
HIGHEST = 16_000
NOWHERE = "/nowhere"


def main() -> int:
    """Photograph; the exit code is 1 where a page failed or was too wide."""
    asked = _arguments()
    log_to_terminal()
    with workspace_of(None if asked.readme else asked.data) as workspace:
        for address in served(workspace):
            if asked.readme:
                faults = readme_pictures.take(address)
            else:
                faults = photograph(
                    workspace, address, asked.to, asked.theme, asked.zoom
                )
    print(*faults, sep="\n", file=sys.stderr)
    return 1 if faults else 0


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.photograph")
    what = parser.add_mutually_exclusive_group(required=True)
    what.add_argument("--to", type=Path)
    what.add_argument("--readme", action="store_true")
    parser.add_argument("--data", type=Path)
    parser.add_argument("--theme", choices=("light", "dark", "shop", "grey"))
    parser.add_argument("--zoom", type=float, default=1.0)
    return parser.parse_args()


@contextmanager
def workspace_of(folder: Path | None) -> Iterator[Workspace]:
    """The workspace to photograph."""
    with tempfile.TemporaryDirectory() as room:
        if folder is None:
            folder = Path(room) / "demo"
            build(folder, resource("demo_series"), lambda *_: None)
        workspace = open_workspace(folder)
        try:
            yield workspace
        finally:
            workspace.close()


def photograph(
    workspace: Workspace, address: str, to: Path, theme: str | None, zoom: float
) -> list[str]:
    """Take the pictures; gives what was wrong, in words."""
    to.mkdir(parents=True, exist_ok=True)
    with listen(0) as ear:
        kinds = make_app(workspace, ear.getsockname()[1])
    faults: list[str] = []
    with sync_playwright() as playwright:
        browser = open_browser(playwright)
        found = pages(browser.new_page(), address, kinds)
        lines = [f"{name}\t{path}" for name, path in found.items()]
        (to / "names.txt").write_text("\n".join(lines) + "\n", "utf-8")
        for width in WIDTHS:
            context = browser.new_context(
                viewport={"width": int(width / zoom), "height": int(900 / zoom)},
                device_scale_factor=zoom,
                color_scheme="dark" if theme == "dark" else "light",
                reduced_motion="reduce",
            )
            dressed = "shop" if theme == "shop" else ""
            if dressed:
                cookie = {"name": "stockthread_paper", "value": dressed, "url": address}
                context.add_cookies([cookie])  # type: ignore[list-item]
            page = context.new_page()
            for name, path in found.items():
                faults += shot(page, address + path, to / f"{name}-{width}.png", theme)
            context.close()
        browser.close()
    return faults


def shot(page: Page, url: str, to: Path, theme: str | None) -> list[str]:
    """One picture of a whole page."""
    answer = page.goto(url)
    page.wait_for_load_state("networkidle")
    page.evaluate("document.fonts.ready")
    if theme == "grey":
        # Through the protocol: a style in the page is refused by its policy.
        session = page.context.new_cdp_session(page)
        session.send("Emulation.setEmulatedVisionDeficiency", {"type": "achromatopsia"})
    # In sight from top to foot, or what is below is not laid out yet.
    window = page.viewport_size
    assert window is not None
    high = page.evaluate("document.documentElement.scrollHeight")
    page.set_viewport_size({"width": window["width"], "height": min(high, HIGHEST)})
    page.screenshot(path=to, full_page=True)
    page.set_viewport_size(window)
    width = page.evaluate(
        "[document.documentElement.scrollWidth, document.documentElement.clientWidth]"
    )
    as_meant = answer and (answer.status == 404) == url.endswith(NOWHERE)
    faults = [] if as_meant else [f"{url} answered with an error"]
    if width[0] > width[1]:
        faults.append(f"{url} is {width[0]} wide where {width[1]} fit ({to.name})")
    return faults


def pages(page: Page, address: str, kinds: Flask) -> dict[str, str]:
    """One path for each kind of page, by a name for its file."""
    found: dict[str, str] = {}
    seen, ahead = {"/"}, ["/"]
    while ahead and len(seen) < MOST_PAGES:
        path = ahead.pop(0)
        name = kind_of(kinds, path)
        if name is None or name in found:
            continue
        answer = page.request.get(address + path)
        if "text/html" not in answer.headers.get("content-type", ""):
            continue
        if "attachment" in answer.headers.get("content-disposition", ""):
            continue
        found[name] = path
        for link in re.findall(r'href="([^"]+)"', answer.text()):
            there = urldefrag(urljoin(address + path, link.replace("&amp;", "&")))[0]
            if there.startswith(address + "/"):
                inside = there.removeprefix(address)
                if inside not in seen:
                    seen.add(inside)
                    ahead.append(inside)
    return found | {"not-found": NOWHERE}


def kind_of(app: Flask, path: str) -> str | None:
    """The name of the view that answers, so that equal pages count once."""
    try:
        endpoint, _ = app.url_map.bind(ADDRESS).match(urlsplit(path).path, "GET")
    except HTTPException:
        return None
    if not isinstance(endpoint, str) or endpoint == "static":
        return None
    return endpoint.replace(".", "-").replace("_", "-")


if __name__ == "__main__":
    raise SystemExit(main())
