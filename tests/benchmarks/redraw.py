"""How soon a change shows: ``python -m tests.benchmarks.redraw``.

Opens each form's page in a real browser on the build of its grid that takes longest,
changes one number and waits until sizes and drawings stand there anew: from the
change to the frame after it, in the page's own clock, without a page load. Beside it
the settings page loaded whole, in the same run, as the baseline.
"""

from __future__ import annotations

import statistics
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from app.services import episodes, series
from app.store.workspace import Workspace, open_workspace
from tests.benchmarks.sizes import slowest
from tests.browser.conftest import open_browser, served
from tests.core.forms.grids import Typed, forms

ROUNDS = 9
FILL = """typed => {
  for (const [name, text] of Object.entries(typed)) {
    const field = document.querySelector(`.designing [name="${name}"]`);
    if (field) field.value = text;
  }
}"""
CHANGE = """coats => new Promise(done => {
  const field = document.querySelector('.designing [name="coats"]');
  field.value = coats;
  const began = performance.now();
  document.body.addEventListener('htmx:afterSettle', () =>
    requestAnimationFrame(() => done(performance.now() - began)), {once: true});
  field.dispatchEvent(new Event('change', {bubbles: true}));
})"""
LOADED = "performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd"


def design_page(workspace: Workspace) -> str:
    """A series with one part; the address of the part's design page."""
    slug = series.create(workspace, "Redraw", "")
    episodes.add(workspace, slug, "One", "", "")
    return f"/series/{slug}/1/design"


def redrawn(page: Page, address: str, form: str, typed: Typed) -> list[float]:
    """Milliseconds from a change to its drawing, after a first round for warmth."""
    page.goto(f"{address}?form={form}")
    blank = dict.fromkeys(
        page.eval_on_selector_all(
            '.designing input[type="text"]', "all => all.map(one => one.name)"
        ),
        "",
    )
    page.evaluate(FILL, blank | typed)
    taken = [page.evaluate(CHANGE, str(2 + i % 3)) for i in range(ROUNDS + 1)]
    if page.locator("#tried .refusal").count():
        raise SystemExit(f"{form} was refused: {page.locator('#tried').inner_text()}")
    return taken[1:]


def main() -> None:
    """Print the table."""
    builds = {form: slowest(form) for form in forms()}
    with tempfile.TemporaryDirectory() as place, sync_playwright() as playwright:
        workspace = open_workspace(Path(place) / "data")
        window = open_browser(playwright).new_page()
        for address in served(workspace):
            where = address + design_page(workspace)
            print(f"{'form':<18}{'median ms':>10}{'worst':>7}{'times a page':>14}")
            for form, typed in builds.items():
                taken = redrawn(window, where, form, typed)
                window.goto(f"{address}/settings")
                base = float(window.evaluate(LOADED))
                middle = statistics.median(taken)
                ratio = middle / base
                print(f"{form:<18}{middle:>10.0f}{max(taken):>7.0f}{ratio:>14.1f}")
        workspace.close()


if __name__ == "__main__":
    main()
