"""A series: starting one, its plan, its parts."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from app.services import dealer, episodes, series, series_wood
from app.web import here
from app.web.forms import mends, sent_version

bp = Blueprint("series", __name__, url_prefix="/series")


@bp.get("/new")
def new() -> str:
    """The form that starts a series."""
    return render_template("series_new.html")


@bp.post("/new")
@mends("series.new")
def create() -> Response:
    """Start a series."""
    form = request.form
    slug = series.create(
        here.workspace(), form.get("title", ""), form.get("summary", "")
    )
    return redirect(url_for("series.show", slug=slug), 303)


@bp.get("/<slug>")
def show(slug: str) -> str:
    """A series with its plan."""
    found = series.show(here.workspace(), slug)
    wood = series_wood.show(here.workspace(), slug)
    lines = dealer.EXAMPLES[here.shop().unit]
    return render_template("series.html", series=found, wood=wood, dealer_lines=lines)


@bp.post("/<slug>")
@mends("series.show")
def save(slug: str) -> Response:
    """Change the series' own words."""
    form = request.form
    series.save(
        here.workspace(),
        slug,
        sent_version(),
        form.get("title", ""),
        form.get("summary", ""),
        form.get("disclosure", ""),
    )
    return redirect(url_for("series.show", slug=slug), 303)


@bp.post("/<slug>/add")
@mends("series.show")
def add(slug: str) -> Response:
    """Add a part at the end."""
    form = request.form
    number = episodes.add(
        here.workspace(),
        slug,
        form.get("title", ""),
        form.get("introduces", ""),
        form.get("due_on", ""),
    )
    return redirect(url_for("series.show", slug=slug) + f"#part-{number}", 303)


@bp.post("/<slug>/<int:number>/planned")
@mends("series.show")
def plan(slug: str, number: int) -> Response:
    """Change what the plan says of a part."""
    form = request.form
    episodes.plan(
        here.workspace(),
        slug,
        number,
        sent_version(),
        form.get("title", ""),
        form.get("introduces", ""),
        form.get("due_on", ""),
    )
    return redirect(url_for("series.show", slug=slug) + f"#part-{number}", 303)


@bp.post("/<slug>/<int:number>/move")
@mends("series.show")
def move(slug: str, number: int) -> Response:
    """Give a part another place in the order."""
    place = episodes.move(here.workspace(), slug, number, request.form.get("to", ""))
    return redirect(url_for("series.show", slug=slug) + f"#part-{place}", 303)


@bp.post("/<slug>/<int:number>/remove")
@mends("series.show")
def remove(slug: str, number: int) -> Response:
    """Take out a part that holds nothing."""
    episodes.remove(here.workspace(), slug, number)
    return redirect(url_for("series.show", slug=slug), 303)
