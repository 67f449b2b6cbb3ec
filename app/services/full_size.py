"""A kept design's templates at full size, each to print by itself."""

from __future__ import annotations

from app.core.errors import NotFound
from app.core.shop import Shop
from app.publish import full_size
from app.publish.sheet import Picture
from app.services import designs
from app.services.episodes import EpisodeView
from app.services.sheet_build import picture
from app.store.workspace import Workspace


def pdf(workspace: Workspace, episode: EpisodeView, key: str, shop: Shop) -> bytes:
    """Pages that print true on the shop's paper.

    Raises NotFound where the design has no such template.
    """
    note = f"{episode.series_title}, part {episode.number}: {episode.title}"
    return full_size.render(_template(workspace, episode, key, shop), shop.unit, note)


def svg(workspace: Workspace, episode: EpisodeView, key: str, shop: Shop) -> str:
    """The drawing alone, its width and height in real millimetres."""
    return _template(workspace, episode, key, shop).svg


def _template(
    workspace: Workspace, episode: EpisodeView, key: str, shop: Shop
) -> Picture:
    shown = designs.show(workspace, episode.id, shop)
    drawings = shown.design.drawings if shown and shown.design else ()
    for drawing in drawings:
        if drawing.key == key and drawing.true_size:
            return picture(drawing)
    raise NotFound(f"This design has no template “{key[:40]}” at full size.")
