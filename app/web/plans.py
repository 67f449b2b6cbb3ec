"""An episode's wood: planning the cuts, buying boards, marking as cut."""

from __future__ import annotations

from flask import Blueprint, request
from werkzeug.wrappers import Response

from app.services import plans
from app.services.episodes import EpisodeView
from app.web import here
from app.web.forms import mends, sent_version
from app.web.pages import to_episode

bp = Blueprint("plans", __name__)

FIRST = (
    ("either", "whichever wastes less"),
    ("crosscut", "crosscut to length"),
    ("rip", "rip along the board"),
)


def section(episode: EpisodeView) -> dict[str, object]:
    """The facts of the wood section."""
    shown = plans.show(here.workspace(), episode.id)
    return {"wood": shown, "wood_first": FIRST, "today": here.today()}


@bp.post("/series/<slug>/<int:number>/plan")
@mends("episodes.show")
def make(slug: str, number: int) -> Response:
    """Plan the cuts, or plan them again."""
    plans.make(
        here.workspace(),
        slug,
        number,
        sent_version(),
        request.form.get("dealer", ""),
        request.form.get("first", "either"),
        here.now(),
    )
    return to_episode(slug, number, "wood")


@bp.post("/series/<slug>/<int:number>/plan/buy")
@mends("episodes.show")
def buy(slug: str, number: int) -> Response:
    """Record the purchase of the boards the plan needs."""
    plans.buy(
        here.workspace(),
        slug,
        number,
        sent_version(),
        request.form.get("on", ""),
        request.form.get("supplier", ""),
        here.now(),
    )
    return to_episode(slug, number, "wood")


@bp.post("/series/<slug>/<int:number>/plan/cut")
@mends("episodes.show")
def mark_cut(slug: str, number: int) -> Response:
    """Record that the plan was cut."""
    plans.mark_cut(
        here.workspace(),
        slug,
        number,
        sent_version(),
        request.form.get("on", ""),
        here.now(),
    )
    return to_episode(slug, number, "wood")
