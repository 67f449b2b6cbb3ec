"""What each page costs the server: ``python -m tests.benchmarks.pages``.

Every page of the demo series, asked for in turn in one run, so that a slow moment
of the machine meets all of them. Read the ratios to an empty page, the form for a
new series: the milliseconds belong to one machine.
"""

from __future__ import annotations

import statistics
import tempfile
import time
from pathlib import Path

from flask.testing import FlaskClient

from app.main import create_app, resource
from app.services.files import import_series
from app.store.workspace import open_workspace

ROUNDS = 20
EMPTY = "/series/new"


def addresses(slug: str, episodes: int) -> tuple[str, ...]:
    """The pages to ask for, the empty one first."""
    series = f"/series/{slug}"
    parts = [f"{series}/{number}" for number in range(1, episodes + 1)]
    rest = ("/", series, *parts, f"{parts[0]}/design", f"{series}/promises")
    return (EMPTY, *rest, "/rack", "/settings")


def ask(client: FlaskClient, address: str) -> tuple[float, int]:
    """Milliseconds for one page, and how large it is in kB."""
    began = time.perf_counter()
    answer = client.get(address)
    took = (time.perf_counter() - began) * 1000
    if answer.status_code != 200:
        raise SystemExit(f"{address} answered {answer.status_code}.")
    return took, len(answer.data) // 1000


def measured(client: FlaskClient, pages: tuple[str, ...]) -> dict[str, float]:
    """The median of the rounds, by page; a first round warms up."""
    times: dict[str, list[float]] = {page: [] for page in pages}
    for round_number in range(ROUNDS + 1):
        for page in pages:
            took, _ = ask(client, page)
            if round_number:
                times[page].append(took)
    return {page: statistics.median(taken) for page, taken in times.items()}


def main() -> None:
    """Print the table."""
    with tempfile.TemporaryDirectory() as place:
        workspace = open_workspace(Path(place) / "data")
        try:
            made = import_series(workspace, resource("demo_series"))
            client = create_app(workspace).test_client()
            pages = addresses(made.slug, made.episodes)
            medians = measured(client, pages)
            sizes = {page: ask(client, page)[1] for page in pages}
        finally:
            workspace.close()
    width = max(map(len, medians))
    print(f"{ROUNDS} rounds; an empty page is {EMPTY}")
    print(f"{'page':<{width}}{'ms':>9}{'times empty':>13}{'kB':>6}")
    for page, median in medians.items():
        ratio = median / medians[EMPTY]
        print(f"{page:<{width}}{median:>9.1f}{ratio:>13.1f}{sizes[page]:>6}")


if __name__ == "__main__":
    main()
