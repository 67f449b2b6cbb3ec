"""Going out: the blocks to copy, the files to take along, the frozen revisions."""

from __future__ import annotations

from urllib.parse import quote

from flask import Blueprint, Response, request
from werkzeug.wrappers import Response as Answer

from app.core.errors import NotFound
from app.core.hosts import DESCRIPTION_MOST, TITLE_MOST
from app.publish import pack
from app.publish.sheet import Sheet
from app.services import episodes, publishing, used
from app.services.episodes import EpisodeView
from app.web import here
from app.web.forms import mends, sent_version
from app.web.pages import to_episode

bp = Blueprint("publishing", __name__)
EPISODE = "/series/<slug>/<int:number>/out"
DRAFT = "draft"
# Our own short list; everything is sent to be saved, never to be opened here.
TYPES = {
    ".txt": "text/plain; charset=utf-8",
    ".md": "text/markdown; charset=utf-8",
    ".csv": "text/csv; charset=utf-8; header=present",
    ".vtt": "text/vtt; charset=utf-8",
    ".json": "application/json",
    ".jsonld": "application/ld+json",
    ".html": "text/html; charset=utf-8",
    ".pdf": "application/pdf",
    ".zip": "application/zip",
    ".jpg": "image/jpeg",
}


def section(episode: EpisodeView) -> dict[str, object]:
    """What the out section shows."""
    return {
        "out": publishing.show(here.workspace(), episode.id, here.today()),
        "used_kinds": tuple(used.KINDS.items()),
        "title_most": TITLE_MOST,
        "description_most": DESCRIPTION_MOST,
    }


@bp.post(f"{EPISODE}/blocks/<key>")
@mends("episodes.show")
def edit_block(slug: str, number: int, key: str) -> Answer:
    """Keep a block in the maker's words."""
    episode = episodes.find(here.workspace(), slug, number)
    form = request.form
    publishing.edit_block(
        here.workspace(),
        episode.id,
        key,
        form.get("text", ""),
        sent_version(),
        form.get("facts", ""),
    )
    return to_episode(slug, number, f"block-{key}")


@bp.post(f"{EPISODE}/blocks/<key>/restore")
@mends("episodes.show")
def restore_block(slug: str, number: int, key: str) -> Answer:
    """Go back to the computed text."""
    episode = episodes.find(here.workspace(), slug, number)
    publishing.restore_block(here.workspace(), episode.id, key, sent_version())
    return to_episode(slug, number, f"block-{key}")


@bp.post(f"{EPISODE}/freeze")
@mends("episodes.show")
def freeze(slug: str, number: int) -> Answer:
    """Freeze the present state as the next revision."""
    episode = episodes.find(here.workspace(), slug, number)
    publishing.freeze(
        here.workspace(), episode.id, here.today(), here.now(), here.settings().zone
    )
    return to_episode(slug, number, "revisions")


@bp.get(f"{EPISODE}/<revision>/pack.zip")
def pack_zip(slug: str, number: int, revision: str) -> Response:
    """The whole pack in one file."""
    made = _chosen(slug, number, revision)
    photos = publishing.photo_bytes(here.workspace(), made)
    name = pack.folder_name(made) + (
        f"-revision-{made.revision}" if made.revision else "-draft"
    )
    return _sent(pack.zip_bytes(made, photos), f"{name}.zip")


@bp.get(f"{EPISODE}/<revision>/<path:name>")
def one_file(slug: str, number: int, revision: str, name: str) -> Response:
    """One file of the pack."""
    made = _chosen(slug, number, revision)
    content = publishing.file_bytes(here.workspace(), made, name)
    return _sent(content, name.rpartition("/")[2])


def _chosen(slug: str, number: int, revision: str) -> Sheet:
    episode = episodes.find(here.workspace(), slug, number)
    if revision != DRAFT and not (revision.isdecimal() and revision.isascii()):
        raise NotFound(f"“{revision[:40]}” is no revision of this part.")
    which = None if revision == DRAFT else int(revision[:9])
    return publishing.chosen(here.workspace(), episode.id, which, here.today())


def _sent(content: bytes, name: str) -> Response:
    suffix = f".{name.rpartition('.')[2]}"
    answer = Response(content, content_type=TYPES[suffix])
    plain = name.encode("ascii", "replace").decode().replace("?", "-")
    # RFC 6266: a plain name for old readers, the real one beside it.
    answer.headers["Content-Disposition"] = (
        f"attachment; filename=\"{plain}\"; filename*=UTF-8''{quote(name)}"
    )
    answer.headers["Content-Security-Policy"] = "sandbox"
    return answer
