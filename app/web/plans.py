"""An episode's wood: planning the cuts, buying boards, marking as cut."""

from __future__ import annotations

from typing import Any, TypeGuard

from flask import Blueprint, current_app, request
from werkzeug.wrappers import Response

from app.core.errors import WorkshopError
from app.services import (
    episodes,
    plan_questions,
    plan_search,
    plan_wishes,
    plans,
)
from app.services.episodes import EpisodeView
from app.services.plan_job import Asked
from app.services.plan_questions import Answer
from app.services.plan_search import SearchView
from app.web import here
from app.web.episodes import facts
from app.web.forms import mends, sent_version
from app.web.pages import page, to_episode, wants_partial

bp = Blueprint("plans", __name__)

FIRST = (
    ("either", "whichever wastes less"),
    ("crosscut", "crosscut to length"),
    ("rip", "rip along the board"),
)
ROUNDS = (("2", "2"), ("3", "3"), ("free", "as many as it takes"))
HOW = (("must", "in any case"), ("rather", "where it costs no money"))
# What the wood section is made of; see app.web.episodes.
PARTS = ("plans", "bought_boards", "glued_parts", "building")


def section(episode: EpisodeView) -> dict[str, object]:
    """The facts of the wood section."""
    search = plan_search.look(here.workspace(), episode.id)
    over = search is None or search.over
    shown = plans.show(here.workspace(), episode.id, drawn=over)
    return {
        "wood": shown,
        "search": search,
        # What was typed for a search stands in the form until another is begun.
        "asked": search.asked if _stands(search, shown.version) else shown.asked,
        "wood_first": FIRST,
        "wood_rounds": ROUNDS,
        "wood_how": HOW,
        "today": here.today(),
    }


def _stands(search: SearchView | None, version: int) -> TypeGuard[SearchView]:
    """Whether what was typed for a search is newer than the plan that is kept."""
    if search is None or not search.unkept:
        return False
    return bool(search.told) or search.version == version


@bp.post("/series/<slug>/<int:number>/plan")
@mends("episodes.show")
def make(slug: str, number: int) -> Response:
    """Plan the cuts, or plan them again."""
    form = request.form
    wishes = plan_wishes.read(form, tuple(form.getlist("without")))
    return _look_for(slug, number, Asked(form.get("dealer", ""), wishes))


@bp.post("/series/<slug>/<int:number>/plan/wish")
@mends("episodes.show")
def take_back(slug: str, number: int) -> Response:
    """Plan again without one of the wishes."""
    episode = episodes.find(here.workspace(), slug, number)
    asked = plans.show(here.workspace(), episode.id, drawn=False).asked
    wishes = asked.wishes.less(_whole(request.form.get("wish", "")))
    return _look_for(slug, number, Asked(asked.dealer, wishes))


def _look_for(slug: str, number: int, asked: Asked) -> Response:
    plan_search.start(
        here.workspace(),
        slug,
        number,
        sent_version(),
        asked,
        here.now(),
        current_app.config.get("PATIENCE"),
    )
    return to_episode(slug, number, "wood")


@bp.get("/series/<slug>/<int:number>/plan")
def search(slug: str, number: int) -> Response:
    """How far the search for a plan is; the wood section once it is over."""
    episode = episodes.find(here.workspace(), slug, number)
    standing = plan_search.look(here.workspace(), episode.id)
    if not wants_partial():
        return to_episode(slug, number, "wood")
    if request.args.get("whole"):
        return _wood(episode)
    return page(
        "episode.html", partial="_standing.html", episode=episode, search=standing
    )


@bp.post("/series/<slug>/<int:number>/plan/stop")
@mends("episodes.show")
def stop(slug: str, number: int) -> Response:
    """Stop looking and keep the best plan so far."""
    episode = episodes.find(here.workspace(), slug, number)
    of = request.form.get("search", "")
    kept = plan_search.keep_best(here.workspace(), episode.id, of, here.now())
    if wants_partial():
        # The answer comes at once; what takes drawing follows it.
        return page("episode.html", partial="_kept.html", episode=episode, search=kept)
    return to_episode(slug, number, "wood")


@bp.post("/series/<slug>/<int:number>/plan/leave")
@mends("episodes.show")
def leave(slug: str, number: int) -> Response:
    """Stop looking and leave everything as it was."""
    episode = episodes.find(here.workspace(), slug, number)
    plan_search.leave(here.workspace(), episode.id, request.form.get("search", ""))
    return _wood(episode)


def _wood(episode: EpisodeView) -> Response:
    """The wood section alone where script asks for it, else the whole page."""
    if not wants_partial():
        return to_episode(episode.series_slug, episode.number, "wood")
    shown: Any = facts(episode, PARTS)
    return page("episode.html", partial="_wood.html", **shown)


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


@bp.post("/series/<slug>/<int:number>/plan/cut-some")
@mends("episodes.show")
def mark_some_cut(slug: str, number: int) -> Response:
    """Record that some boards of the plan were cut."""
    form = request.form
    plans.mark_some_cut(
        here.workspace(),
        slug,
        number,
        sent_version(),
        {at: _copies(at) for at in map(_whole, form.getlist("layout"))},
        form.get("on", ""),
        here.now(),
    )
    return to_episode(slug, number, "wood")


def _copies(at: int) -> int:
    return _whole(request.form.get(f"copies-{at}", "1"))


def _whole(typed: str) -> int:
    """A whole number of a form; -1, which is none of them, for anything else."""
    plain = typed.isascii() and typed.isdecimal() and len(typed) < 6
    return int(typed) if plain else -1


@bp.get("/series/<slug>/<int:number>/plan/why/<int:at>")
def why(slug: str, number: int, at: int) -> Response:
    """Why a board is cut as it is; ``at`` counts the plan's boards from 1."""
    answer = plan_questions.why(here.workspace(), slug, number, at - 1)
    return _answered(slug, number, answer, f"why-{at}")


@bp.get("/series/<slug>/<int:number>/plan/without-offcuts")
def without_offcuts(slug: str, number: int) -> Response:
    """What would have to be bought without the offcuts."""
    answer = plan_questions.without_offcuts(here.workspace(), slug, number)
    return _answered(slug, number, answer, "without-offcuts")


@bp.get("/series/<slug>/<int:number>/plan/what-if")
def what_if(slug: str, number: int) -> Response:
    """What would be otherwise with one thing changed; nothing is saved."""
    try:
        answer = plan_questions.what_if(here.workspace(), slug, number, request.args)
    except WorkshopError as error:
        if not wants_partial():
            raise
        # Beside the question, which keeps what was typed.
        answer = Answer("That cannot be worked out", (str(error),))
    return _answered(slug, number, answer, "what-if")


def _answered(slug: str, number: int, answer: Answer, place: str) -> Response:
    episode = episodes.find(here.workspace(), slug, number)
    return page(
        "question.html",
        partial="_answer.html",
        episode=episode,
        answer=answer,
        place=place,
    )


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
