"""The sizes of one piece on one line, each unit once."""

from __future__ import annotations

import re
from html import unescape

import pytest
from flask import Flask

from app.core.length import inches
from app.core.part import Dimensions
from app.main import create_app
from app.services import settings
from app.store.workspace import Workspace
from app.web.dimensions import dimensions

# Thickness 13/16, width 1 7/8, length 12 25/32 and 0.008 in more.
PIECE = Dimensions(
    length=inches("12.789"), width=inches("1 7/8"), thickness=inches("13/16")
)


@pytest.fixture
def app(workspace: Workspace) -> Flask:
    return create_app(workspace, TESTING=True)


def words(workspace: Workspace, app: Flask, **typed: str) -> str:
    stored = settings.load(workspace)
    settings.save(workspace, settings.typed(stored) | typed, stored.version)
    with app.test_request_context():
        return unescape(re.sub(r"<[^>]+>", "", dimensions(PIECE)))


def test_three_sizes_name_their_unit_once(app: Flask, workspace: Workspace) -> None:
    assert words(workspace, app) == (
        "13/16 × 1 7/8 × 12 25/32 in (true length 0.008 more)"
    )


def test_the_other_system_follows_on_its_own(app: Flask, workspace: Workspace) -> None:
    """25.4 mm to the inch: 20.6375, 47.625 and 324.8406 mm, shown to 0.1 mm."""
    assert words(workspace, app, both="yes") == (
        "13/16 × 1 7/8 × 12 25/32 in (20.6 × 47.6 × 324.8 mm) (true length 0.008 more)"
    )


def test_a_metric_shop_reads_millimetres_first(
    app: Flask, workspace: Workspace
) -> None:
    assert words(workspace, app, both="yes", unit="mm").startswith(
        "20.6 × 47.6 × 324.8 mm (13/16 × 1 7/8 × 12 25/32 in)"
    )


def test_each_size_that_rounding_changed_is_named(
    app: Flask, workspace: Workspace
) -> None:
    """20.6375 and 47.625 mm are 20.6 and 47.6 mm and 0.037(5) and 0.025 more."""
    assert words(workspace, app, unit="mm") == (
        "20.6 × 47.6 × 324.8 mm "
        "(true thickness 0.038 more, width 0.025 more, length 0.041 more)"
    )


def test_a_number_never_stands_away_from_its_unit(app: Flask) -> None:
    with app.test_request_context():
        shown = dimensions((inches("13/16"), inches("1 7/8"), inches("12 25/32")))
    held = shown.split('<span class="whole">')[1:]
    assert [unescape(re.sub(r"<[^>]+>", "", one)).strip() for one in held] == [
        "13/16 ×",
        "1 7/8 ×",
        "12 25/32 in",
    ]


@pytest.mark.parametrize(
    ("sizes", "shown"),
    [
        ((None, inches("6"), inches("96")), "6 × 96 in"),
        ((inches("6"), inches("96.004")), "6 × 96 in (true length 0.004 more)"),
        ((None, None, None), "–"),
    ],
)
def test_what_is_not_known_is_left_out(
    app: Flask, sizes: tuple[object, ...], shown: str
) -> None:
    with app.test_request_context():
        text = re.sub(r"<[^>]+>", "", dimensions(sizes))  # type: ignore[arg-type]
    assert unescape(text) == shown
