"""The first page: the series there are, or how to begin."""

from __future__ import annotations

from flask import Blueprint, render_template

from app.services import series
from app.web import here

bp = Blueprint("home", __name__)


@bp.get("/")
def show() -> str:
    """Every series, or the first step."""
    return render_template("home.html", listing=series.listing(here.workspace()))
