"""What every page is dressed in: its paper, its styles, its place."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from flask import (
    Blueprint,
    Response,
    current_app,
    make_response,
    redirect,
    request,
    url_for,
)

from app.core.errors import WorkshopError
from app.services import series
from app.services.series import Thread
from app.web import here

bp = Blueprint("theme", __name__)

COOKIE = "stockthread_paper"
THEMES = ("light", "dark", "shop")
A_YEAR = 365 * 24 * 3600


@bp.post("/theme")
def choose() -> Response:
    """Keep the paper that was chosen and go back to the page."""
    chosen = request.form.get("theme", "")
    answer = make_response(redirect(_own_path(request.form.get("back", "")), 303))
    if chosen in THEMES:
        answer.set_cookie(
            COOKIE, chosen, max_age=A_YEAR, httponly=True, samesite="Strict", path="/"
        )
    else:
        answer.delete_cookie(COOKIE, httponly=True, samesite="Strict", path="/")
    return answer


def _own_path(back: str) -> str:
    ours = back.startswith("/") and not back.startswith("//") and "\\" not in back
    return back if ours and back.isprintable() else url_for("home.show")


@bp.app_template_global()
def theme() -> str:
    """The chosen paper; empty where the system decides."""
    chosen = request.cookies.get(COOKIE, "")
    return chosen if chosen in THEMES else ""


@bp.app_template_global()
def at(path: str) -> bool:
    """Whether the page lies under this entry of the notebook's head."""
    if path == "/":
        return request.path == "/" or request.path.startswith("/series")
    return request.path == path or request.path.startswith(path + "/")


@bp.app_template_global()
def has_page(subject: str) -> bool:
    """Whether this subject has pages, so that a link to them leads somewhere."""
    return subject in current_app.blueprints


@bp.app_template_global()
def subject_styles() -> tuple[str, ...]:
    """The style sheets of the subjects, after the shared one."""
    return tuple(n for n in _files("css", ".css") if n != "base.css")


@bp.app_template_global()
def page_scripts() -> tuple[str, ...]:
    """The small scripts, one for each behaviour."""
    return _files("js", ".js")


def _files(folder: str, suffix: str) -> tuple[str, ...]:
    root = Path(str(current_app.static_folder)) / folder
    return _listed(root, suffix)


@cache
def _listed(root: Path, suffix: str) -> tuple[str, ...]:
    return tuple(sorted(found.name for found in root.glob(f"*{suffix}")))


@bp.app_template_global()
def thread_here() -> Thread | None:
    """The thread of the series that the page lies in, if it lies in one."""
    place = request.view_args or {}
    slug = place.get("slug")
    if not isinstance(slug, str):
        return None
    try:
        return series.thread(here.workspace(), slug, place.get("number"))
    except WorkshopError:
        # The page that says why nothing can be read has to stand without it.
        return None


@bp.app_template_global()
def thread_of(slug: str) -> Thread | None:
    """The thread of a series that a page lists."""
    return series.thread(here.workspace(), slug, None)
