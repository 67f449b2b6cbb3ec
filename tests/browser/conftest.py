"""A real server and a real browser for the tests that drive the pages."""

from __future__ import annotations

import os
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Playwright, sync_playwright
from waitress.server import BaseWSGIServer

from app.serving import ADDRESS, listen, make_server
from app.store.workspace import Workspace
from tests.chromium import on_system

ABORTED = ("htmx:afterRequest,", "htmx:sendAbort,")


def open_browser(playwright: Playwright) -> Browser:
    """A browser without a screen."""
    # A browser refuses its own sandbox to the system's administrator.
    alone = ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    return playwright.chromium.launch(executable_path=on_system(), args=alone)


def served(workspace: Workspace) -> Iterator[str]:
    """The address of a real server on a workspace, as long as it is wanted."""
    with listen(0) as ear:
        server = make_server(workspace, ear)
        thread = threading.Thread(target=server.run, daemon=True)
        thread.start()
        yield f"http://{ADDRESS}:{ear.getsockname()[1]}"
        # In its own thread, or it would wait for a browser that is gone.
        server.trigger.pull_trigger(lambda: stop(server))
        thread.join(5)
        server.task_dispatcher.shutdown()


def stop(server: BaseWSGIServer) -> None:
    """Let go of every connection and of the port."""
    for channel in list(server.active_channels.values()):
        channel.handle_close()
    server.close()


def harmless(told: str) -> bool:
    """A refusal, or a redraw given up for a later one or for another page.

    What fails on its way is told by names of its own beside these.
    """
    return "status of 4" in told or told.startswith(ABORTED)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One browser for all tests."""
    with sync_playwright() as playwright:
        opened = open_browser(playwright)
        yield opened
        opened.close()


@pytest.fixture
def live_server(workspace: Workspace) -> Iterator[str]:
    """A real server on an empty workspace; its address without the last slash."""
    yield from served(workspace)


@pytest.fixture
def page(browser: Browser, live_server: str, tmp_path: Path) -> Iterator[Page]:
    """A fresh window, 1280 wide; a faulty or blocked script fails the test."""
    context = browser.new_context(
        base_url=live_server,
        viewport={"width": 1280, "height": 900},
        accept_downloads=True,
    )
    context.set_default_timeout(10_000)
    window = context.new_page()
    faults: list[str] = []
    window.on("pageerror", lambda error: faults.append(str(error)))
    window.on(
        "console",
        lambda line: (
            faults.append(line.text)
            if line.type == "error" and not harmless(line.text)
            else None
        ),
    )
    yield window
    context.close()
    assert faults == []
