"""Templates of what is typeset: plans and templates to print, an episode's page.

The typesetting engine needs no network. The maker's text reaches it as JSON data,
never as source; it sees no folder but its templates', no packages and no fonts but
those named here, and a fixed time.
"""

from __future__ import annotations

import json
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from importlib.resources import as_file, files
from pathlib import Path

import typst

HERE = files(__name__)
PLAN, ONE_DRAWING = "plan.typ", "one_drawing.typ"
SOURCES = (PLAN, ONE_DRAWING, "full_size.typ")
# The engine stamps a document; the same facts must give the same bytes.
TIMESTAMP = 946_684_800  # 2000-01-01, UTC


def text(name: str) -> str:
    """A template's source."""
    return HERE.joinpath(name).read_text("utf-8")


def pdf(name: str, facts: Mapping[str, object]) -> bytes:
    """The document that a template makes of the facts, which it reads as JSON."""
    with _folder() as root, _fonts() as fonts:
        made = typst.compile(
            str(root / name),
            root=str(root),
            font_paths=[str(fonts)],
            ignore_system_fonts=True,
            format="pdf",
            sys_inputs={"sheet": json.dumps(facts, ensure_ascii=False)},
            timestamp=TIMESTAMP,
        )
    return bytes(made)


@contextmanager
def _folder() -> Iterator[Path]:
    """A folder with nothing but the engine's templates, gone afterwards.

    It is all that the typesetting engine is let see of the disk.
    """
    with tempfile.TemporaryDirectory(prefix="stockthread-plan-") as name:
        root = Path(name)
        for source in SOURCES:
            (root / source).write_text(text(source), "utf-8")
        yield root


@contextmanager
def _fonts() -> Iterator[Path]:
    """The folder of the family that is set in."""
    with as_file(HERE.joinpath("fonts")) as found:
        yield found
