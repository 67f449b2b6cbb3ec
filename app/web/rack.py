"""The rack and the pieces on it."""

from __future__ import annotations

from collections.abc import Callable

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from app.services import rack, rack_work
from app.services.rack_work import Clock
from app.web import here
from app.web.forms import mends, sent_version

bp = Blueprint("rack", __name__, url_prefix="/rack")


def _clock() -> Clock:
    return Clock(here.today(), here.now())


def _to(label: str, section: str = "") -> Response:
    return redirect(url_for("rack.piece", label=label) + section, 303)


@bp.get("")
def show() -> str:
    """Everything on hand, and what happened lately."""
    return render_template("rack.html", rack=rack.show(here.workspace()))


@bp.post("/buy")
@mends("rack.show")
def buy() -> Response:
    """Record a purchase."""
    label = rack_work.buy(here.workspace(), request.form, _clock())
    return redirect(url_for("rack.show") + f"#{label}", 303)


@bp.post("/count")
@mends("rack.show")
def count_in() -> Response:
    """Record wood that was there before."""
    label = rack_work.count_in(here.workspace(), request.form, _clock())
    return redirect(url_for("rack.show") + f"#{label}", 303)


@bp.get("/<label>")
def piece(label: str) -> str:
    """One pile with its whole story."""
    return render_template(
        "stock_piece.html", stock=rack.stock(here.workspace(), label)
    )


@bp.post("/<label>/plane")
@mends("rack.piece")
def plane(label: str) -> Response:
    """Surface pieces of it."""
    return _to(rack_work.plane(here.workspace(), label, request.form, _clock()))


@bp.post("/<label>/cut")
@mends("rack.piece")
def cut(label: str) -> Response:
    """Cut pieces of it by hand."""
    rack_work.cut(here.workspace(), label, request.form, _clock())
    return _to(label, "#became")


@bp.post("/<label>/discard")
@mends("rack.piece")
def discard(label: str) -> Response:
    """Throw pieces of it out."""
    return _gone(rack_work.discard, label)


@bp.post("/<label>/give-away")
@mends("rack.piece")
def give_away(label: str) -> Response:
    """Give pieces of it to somebody."""
    return _gone(rack_work.give_away, label)


@bp.post("/<label>/recount")
@mends("rack.piece")
def recount(label: str) -> Response:
    """Say how many there really are."""
    return _gone(rack_work.recount, label)


def _gone(work: Callable[..., None], label: str) -> Response:
    work(here.workspace(), label, request.form, _clock())
    return _to(label, "#story")


@bp.post("/<label>/place")
@mends("rack.piece")
def move(label: str) -> Response:
    """Say where it stands now."""
    place = request.form.get("place", "")
    rack_work.move(here.workspace(), label, place, sent_version())
    return _to(label)


@bp.post("/<label>/undo/<int:movement_id>")
@mends("rack.piece")
def undo(label: str, movement_id: int) -> Response:
    """Take back a record that was a mistake."""
    reason = request.form.get("reason", "")
    rack_work.undo(here.workspace(), label, movement_id, reason, _clock())
    return _to(label, "#story")
