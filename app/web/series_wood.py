"""The wood of a whole series: planning it for all parts together."""

from __future__ import annotations

from flask import Blueprint, current_app, redirect, request, url_for
from werkzeug.wrappers import Response

from app.services import series_wood
from app.web import here
from app.web.forms import mends, sent_version

bp = Blueprint("series_wood", __name__, url_prefix="/series")


@bp.post("/<slug>/wood")
@mends("series.show")
def make(slug: str) -> Response:
    """Plan the wood of all parts, or plan it again."""
    typed = request.form.get("dealer", "")
    begun = series_wood.begin(here.workspace(), slug, sent_version(), typed)
    addresses = current_app.create_url_adapter(request)
    assert addresses is not None
    task = series_wood.search(
        here.workspace(),
        begun,
        here.now(),
        lambda: addresses.build("series.show", {"slug": slug}) + "#wood",
    )
    return redirect(url_for("tasks.show", task_id=task), 303)
