"""Wiring: the workspace, the settings of Flask, the pages."""

from __future__ import annotations

import secrets
from pathlib import Path

from flask import Blueprint, Flask
from flask_wtf.csrf import CSRFProtect
from werkzeug.routing import IntegerConverter

from app import web
from app.core.discover import modules
from app.store.workspace import Workspace
from app.web.forms import form_state

HERE = Path(__file__).parent


class Whole(IntegerConverter):
    """A number in an address: no more digits than any row or part has."""

    regex = r"[0-9]{1,9}"


def resource(name: str) -> Path:
    """A folder that travels in the wheel, or lies beside ``app`` in a checkout."""
    inside = HERE / name
    return inside if inside.is_dir() else HERE.parent / name


def create_app(workspace: Workspace, **config: object) -> Flask:
    """The pages of one open workspace."""
    app = Flask(
        "app",
        template_folder=str(resource("templates")),
        static_folder=str(resource("static")),
    )
    app.config.update({"SECRET_KEY": secrets.token_hex(32)} | config)
    app.extensions["stockthread"] = workspace
    app.url_map.converters["int"] = Whole
    app.add_template_global(form_state)
    CSRFProtect(app)
    for module in modules(web).values():
        blueprint = getattr(module, "bp", None)
        if isinstance(blueprint, Blueprint):
            app.register_blueprint(blueprint)
    return app
