"""What a request stands on: the workspace, the moment, the settings."""

from __future__ import annotations

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from flask import current_app, g

from app.core.shop import Shop
from app.services import settings as settings_service
from app.services.settings import SettingsView
from app.store.workspace import Workspace


def workspace() -> Workspace:
    """The workspace that this server serves."""
    return current_app.extensions["stockthread"]  # type: ignore[no-any-return]


def now() -> datetime:
    """This moment, UTC."""
    clock = current_app.config.get("CLOCK")
    return clock() if clock else datetime.now(UTC)


def today() -> date:
    """The date on the workspace's calendar."""
    return now().astimezone(ZoneInfo(settings().zone)).date()


def settings() -> SettingsView:
    """The workspace's settings, read once for the request."""
    if "settings" not in g:
        g.settings = settings_service.load(workspace())
    return g.settings  # type: ignore[no-any-return]


def forget_settings() -> None:
    """Read them again: they were saved just now."""
    g.pop("settings", None)


def shop() -> Shop:
    """The shop as set up in the settings."""
    return settings().shop
