"""An episode's design: choose a form, try inputs, keep what is right."""

from __future__ import annotations

from flask import Blueprint, Response, g, make_response, request
from werkzeug.datastructures import MultiDict
from werkzeug.wrappers import Response as AnyResponse

from app.core.errors import WorkshopError
from app.core.wood import all_species
from app.services import designs, episodes, full_size
from app.services.design_view import DesignView
from app.services.designs import FormView
from app.services.episodes import EpisodeView
from app.web import here
from app.web.forms import FormState, mends, sent_version
from app.web.pages import page, to_episode, wants_partial

bp = Blueprint("designs", __name__)

FILE = "file_from_disk"
NOT_TEXT = (
    "That file is not text in UTF-8. Save the list as CSV in UTF-8, or paste it here."
)


def section(episode: EpisodeView) -> dict[str, object]:
    """The facts of the design section."""
    return {"design": designs.show(here.workspace(), episode.id, here.shop())}


@bp.get("/series/<slug>/<int:number>/design")
def edit(slug: str, number: int) -> Response:
    """Choose a form, then fill it in."""
    episode = episodes.find(here.workspace(), slug, number)
    stored = designs.show(here.workspace(), episode.id, here.shop())
    wanted = request.values.get("form") or (stored.form if stored else "")
    if not wanted:
        return page(
            "design_choose.html",
            partial="design_choose.html",
            episode=episode,
            forms=designs.choices(here.shop()),
        )
    return _filling(episode, stored, designs.form(wanted, here.shop()))


def _filling(
    episode: EpisodeView, stored: DesignView | None, form: FormView
) -> Response:
    """The page with the form's fields, and what they come to."""
    same = stored is not None and stored.form == form.key
    values = form.start
    if same and stored is not None:
        # An input left empty when it was kept stays empty, not at its example.
        values = dict.fromkeys(form.one_of, "") | stored.inputs
        values = {n: values.get(n, form.start[n]) for n in form.start}
    refused = g.get("refused")
    typed = dict(refused.typed) if refused and refused.typed else values
    tried, trouble = _tried(form, typed)
    return page(
        "design.html",
        partial="_design_preview.html",
        episode=episode,
        form=form,
        version=stored.version if stored else 0,
        changing=stored,
        values=values,
        tried=tried,
        trouble=trouble,
        woods=[one.name for one in all_species()],
    )


def _tried(
    form: FormView, typed: dict[str, str]
) -> tuple[DesignView | None, WorkshopError | None]:
    try:
        asked = {name: typed.get(name, "") for name in form.start}
        return designs.attempt(form.key, asked, here.shop()), None
    except WorkshopError as fault:
        return None, fault


@bp.post("/series/<slug>/<int:number>/design/try")
def preview(slug: str, number: int) -> Response:
    """What the inputs come to; nothing is kept."""
    episode = episodes.find(here.workspace(), slug, number)
    typed, fault = _typed()
    form = designs.form(typed.get("form", ""), here.shop())
    tried, trouble = _tried(form, dict(typed)) if fault is None else (None, fault)
    if wants_partial():
        answer = page(
            "design.html",
            partial="_design_preview.html",
            episode=episode,
            form=form,
            tried=tried,
            trouble=trouble,
        )
    else:
        g.refused = FormState("designs.save", "", typed, trouble)
        stored = designs.show(here.workspace(), episode.id, here.shop())
        answer = _filling(episode, stored, form)
    answer.status_code = 422 if trouble else 200
    return make_response(answer)


@bp.post("/series/<slug>/<int:number>/design")
@mends("designs.edit")
def save(slug: str, number: int) -> AnyResponse:
    """Keep the design."""
    episode = episodes.find(here.workspace(), slug, number)
    typed, fault = _typed()
    if fault is not None:
        raise fault
    form = designs.form(typed.get("form", ""), here.shop())
    asked = {name: typed[name] for name in form.start if name in typed}
    version = sent_version()
    designs.save(here.workspace(), episode.id, form.key, asked, version)
    return to_episode(slug, number, "design")


def _typed() -> tuple[MultiDict[str, str], WorkshopError | None]:
    """What was typed, with a chosen file's text in its field."""
    typed = request.form.copy()
    # The button beside a refusal: the value that works, in place of what does not.
    name, given, value = typed.pop("use", "").partition("=")
    if given:
        typed[name] = value
    sent = request.files.get(FILE)
    if sent is None or not sent.filename:
        return typed, None
    try:
        typed["file"] = sent.read().decode("utf-8-sig")
    except UnicodeDecodeError:
        return typed, WorkshopError(NOT_TEXT, input="file")
    return typed, None


@bp.get("/series/<slug>/<int:number>/design/<key>.pdf")
def template_pdf(slug: str, number: int, key: str) -> Response:
    """A template on pages that print true."""
    episode = episodes.find(here.workspace(), slug, number)
    content = full_size.pdf(here.workspace(), episode, key, here.shop())
    return _printed(content, "application/pdf", f"{episode.slug}-{key}.pdf")


@bp.get("/series/<slug>/<int:number>/design/<key>.svg")
def template_svg(slug: str, number: int, key: str) -> Response:
    """A template alone, for a cutting machine or another program."""
    episode = episodes.find(here.workspace(), slug, number)
    content = full_size.svg(here.workspace(), episode, key, here.shop())
    return _printed(content.encode(), "image/svg+xml", f"{episode.slug}-{key}.svg")


def _printed(content: bytes, kind: str, name: str) -> Response:
    answer = Response(content, content_type=kind)
    plain = name.encode("ascii", "replace").decode().replace("?", "-")
    answer.headers["Content-Disposition"] = f'inline; filename="{plain}"'
    answer.headers["Content-Security-Policy"] = "sandbox"
    return answer
