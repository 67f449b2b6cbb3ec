"""One drawing at full size as a PDF: what a browser prints is seldom true."""

from __future__ import annotations

from app.core.document import to_plain
from app.core.length import Length
from app.core.template import pages
from app.publish import typeset
from app.publish.sheet import Picture


def render(picture: Picture, unit: str, note: str) -> bytes:
    """Pages that print true on the paper that goes with ``unit``.

    ``note`` stands at each page's foot.
    """
    told = {"drawing": facts(picture), "unit": unit, "note": note}
    return typeset.pdf(typeset.ONE_DRAWING, told)


def facts(picture: Picture) -> dict[str, object]:
    """A picture at true size with its pages' corners, as the typesetter reads it."""
    found: dict[str, object] = to_plain(picture)
    size = Length(picture.true_wide), Length(picture.true_high)
    found["corners"] = [list(corner) for corner in pages(*size)]
    return found
