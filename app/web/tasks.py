"""Watching long work; on its own page, which also works without script."""

from __future__ import annotations

from flask import Blueprint, redirect, url_for
from werkzeug.wrappers import Response

from app.services import tasks
from app.services.tasks import Stage
from app.web.pages import page, wants_partial

bp = Blueprint("tasks", __name__, url_prefix="/tasks")


@bp.get("/<task_id>")
def show(task_id: str) -> Response:
    """How far the work is; goes on to its result when it is done."""
    state = tasks.state(task_id)
    if state.stage is Stage.DONE and state.result and not wants_partial():
        return redirect(state.result, 303)
    return page("task.html", partial="_task.html", task=state)


@bp.post("/<task_id>/stop")
def stop(task_id: str) -> Response:
    """Stop the work at its next step."""
    tasks.stop(task_id)
    return redirect(url_for("tasks.show", task_id=task_id), 303)
