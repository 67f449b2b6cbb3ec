"""The settings: set once, used by every design and plan."""

from __future__ import annotations

from zoneinfo import available_timezones

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from app.services import settings
from app.web import here
from app.web.forms import mends, sent_version

bp = Blueprint("settings", __name__, url_prefix="/settings")


@bp.get("")
def show() -> str:
    """The settings as they stand."""
    stored = settings.load(here.workspace())
    return render_template(
        "settings.html",
        version=stored.version,
        values=settings.typed(stored),
        zones=sorted(available_timezones()),
        denominators=settings.DENOMINATORS,
    )


@bp.post("")
@mends("settings.show")
def save() -> Response:
    """Keep the settings as typed."""
    settings.save(here.workspace(), request.form, sent_version())
    return redirect(url_for("settings.show", saved="yes"), 303)
