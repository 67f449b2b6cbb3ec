"""Boards of random width: what to look for at the dealer's, and what was bought."""

from __future__ import annotations

from flask import Blueprint, request
from werkzeug.wrappers import Response

from app.services import before_sawing, boards_typed, bought_boards, dealer
from app.services.episodes import EpisodeView
from app.services.rack_work import Clock
from app.web import here
from app.web.forms import mends, sent_version
from app.web.pages import to_episode

bp = Blueprint("bought_boards", __name__, url_prefix="/series/<slug>/<int:number>")


def section(episode: EpisodeView) -> dict[str, object]:
    """The facts of the boards to choose, and of the work beside the cuts."""
    return {
        "before_sawing": before_sawing.show_for(here.workspace(), episode.id),
        "to_choose": bought_boards.show_for(here.workspace(), episode.id),
        "dealer_lines": dealer.EXAMPLES[here.shop().unit],
        "boards_like": boards_typed.like(here.shop()),
    }


@bp.post("/plan/boards/<line>")
@mends("episodes.show")
def buy(slug: str, number: int, line: str) -> Response:
    """Record the boards as bought, and plan the cuts from them."""
    clock = Clock(here.today(), here.now())
    bought_boards.buy(
        here.workspace(), slug, number, line, sent_version(), request.form, clock
    )
    bought_boards.plan_again(here.workspace(), slug, number, here.now())
    return to_episode(slug, number, "wood")
