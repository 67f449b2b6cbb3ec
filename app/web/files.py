"""Series in and out as files, and the backup."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path

from flask import Blueprint, current_app, redirect, render_template, request, url_for
from flask import send_file as flask_send_file
from werkzeug.wrappers import Response

from app.core.errors import WorkshopError
from app.services import care, files, tasks
from app.services.tasks import Progress
from app.web import here
from app.web.forms import mends
from app.web.security import takes_up_to

bp = Blueprint("files", __name__)

MOST_BYTES = 4 * 1024**3  # a series with years of photos


@bp.get("/import")
def bring_in() -> str:
    """The form that takes a series' zip."""
    return render_template("import.html")


@bp.post("/import")
@mends("files.bring_in")
@takes_up_to(MOST_BYTES)
def take() -> Response:
    """Look at the zip at once; bring it in beside the pages."""
    sent = request.files.get("file")
    if sent is None or not sent.filename:
        raise WorkshopError("Choose the zip of a series first.", input="file")
    workspace = here.workspace()
    slug = request.form.get("slug", "").strip()
    handle, name = tempfile.mkstemp(suffix=".zip")
    kept = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            sent.save(file)
        title = files.look(workspace, kept, slug)
    except BaseException:
        kept.unlink(missing_ok=True)
        raise
    addresses = current_app.create_url_adapter(request)
    assert addresses is not None

    def work(progress: Progress) -> str:
        try:
            made = files.import_series(workspace, kept, progress, slug)
        finally:
            kept.unlink(missing_ok=True)
        return addresses.build("series.show", {"slug": made.slug})

    task = tasks.start(f"Bringing in “{title}”", work)
    return redirect(url_for("tasks.show", task_id=task), 303)


@bp.get("/series/<slug>/files.zip")
def export(slug: str) -> Response:
    """A series as a zip of open files."""
    originals = request.args.get("photos") == "originals"

    def write(to: Path) -> None:
        files.export_series(here.workspace(), slug, to, originals=originals)

    return _sent(f"{slug}.zip", write)


@bp.get("/settings/backup.zip")
def backup() -> Response:
    """One verified archive of the workspace."""
    now = here.now()

    def write(to: Path) -> None:
        care.backup(here.workspace(), to, now)

    return _sent(f"stockthread-backup-{now:%Y-%m-%d-%H%M}.zip", write)


def _sent(name: str, write: Callable[[Path], None]) -> Response:
    """A file made for this answer and gone after it."""
    scratch = Path(tempfile.mkdtemp(prefix="stockthread-"))
    try:
        write(scratch / name)
        answer: Response = flask_send_file(
            scratch / name, "application/zip", as_attachment=True, download_name=name
        )
    except BaseException:
        shutil.rmtree(scratch, ignore_errors=True)
        raise
    answer.headers["Cache-Control"] = "no-store"
    answer.call_on_close(lambda: shutil.rmtree(scratch, ignore_errors=True))
    return answer
