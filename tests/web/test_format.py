"""How values read on a page."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest
from flask import Flask
from markupsafe import Markup

from app.core.length import Length, inches, mm
from app.main import create_app
from app.services import settings
from app.store.workspace import Workspace
from app.web import format as shown_as
from app.web import here


@pytest.fixture
def app(workspace: Workspace) -> Flask:
    return create_app(workspace, TESTING=True)


def set_to(workspace: Workspace, **typed: str) -> None:
    stored = settings.load(workspace)
    settings.save(workspace, settings.typed(stored) | typed, stored.version)


@pytest.mark.parametrize(
    ("length", "shown"),
    [
        (inches("1 7/8"), '<b>1 <span class="frac">7/8</span></b> <small>in</small>'),
        (inches("3/64"), '<b><span class="frac">1/16</span></b> <small>in</small>'),
        (inches("24"), "<b>24</b> <small>in</small>"),
    ],
)
def test_fractions_are_set_as_fractions(app: Flask, length: Length, shown: str) -> None:
    with app.test_request_context():
        assert str(shown_as.measure(length)).startswith(
            f'<span class="measure"><span class="whole">{shown}</span>'
        )


def test_what_rounding_hid_is_said_in_a_quiet_tone(app: Flask) -> None:
    with app.test_request_context():
        shown = shown_as.measure(inches("1.869"))
    # 1 7/8 in is 1.875: 0.006 more than the true size.
    assert '<span class="hid">(true size 0.006 less)</span>' in shown


def test_what_is_exact_hides_nothing(app: Flask) -> None:
    with app.test_request_context():
        assert "hid" not in shown_as.measure(inches("1 7/8"))


def test_a_metric_shop_reads_millimetres(app: Flask, workspace: Workspace) -> None:
    set_to(workspace, unit="mm")
    with app.test_request_context():
        assert shown_as.measure(mm("47.6")) == Markup(
            '<span class="measure"><span class="whole"><b>47.6</b> '
            "<small>mm</small></span></span>"
        )
        assert shown_as.volume(10**24) == "1.00 litre"


def test_a_board_foot_is_144_cubic_inches(app: Flask) -> None:
    # NIST Handbook 44, appendix C: board foot = 144 cubic inches.
    with app.test_request_context():
        assert shown_as.volume(144 * 25_400_000**3) == "1.00 board foot"
        assert shown_as.volume(36 * 25_400_000**3) == "0.25 board feet"
        assert shown_as.volume(1) == "under 0.01 board feet"
        assert shown_as.volume(0) == "0.00 board feet"


def test_the_settings_are_read_once_for_a_request(
    app: Flask, workspace: Workspace
) -> None:
    with app.test_request_context():
        assert here.settings() is here.settings()


def test_moments_follow_the_workspaces_clock(app: Flask, workspace: Workspace) -> None:
    set_to(workspace, zone="America/Chicago")
    # US daylight saving time began on 8 March 2026 (15 U.S.C. 260a).
    with app.test_request_context():
        before = shown_as.moment(datetime(2026, 3, 8, 1, 30, tzinfo=UTC))
        after = shown_as.moment(datetime(2026, 3, 8, 12, 0, tzinfo=UTC))
    assert before == "7 March 2026, 19:30"
    assert after == "8 March 2026, 07:00"


def test_days_are_written_out() -> None:
    assert shown_as.day(date(2026, 3, 2)) == "2 March 2026"
    assert shown_as.day(None) == ""


@pytest.mark.parametrize(
    ("ms", "shown"), [(0, "0:00"), (65_999, "1:05"), (3_725_000, "1:02:05")]
)
def test_film_times(ms: int, shown: str) -> None:
    assert shown_as.film_time(ms) == shown


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        '<img src=x onerror="alert(1)">',
        "[x](javascript:alert(1))",
        "[x](data:text/html,<script>)",
        "![x](http://elsewhere.example/spy.png)",
        "<style>*{display:none}</style>",
        '<a href="x" style="color:red" onclick="y()">z</a>',
    ],
)
def test_notes_cannot_bring_their_own_html(text: str) -> None:
    shown = str(shown_as.markdown(text))
    for bad in ("<script", "<img", "<style", 'href="javascript', 'href="data', "<a "):
        assert bad not in shown


def test_notes_read_as_written() -> None:
    shown = str(
        shown_as.markdown("# Day one\n\nDry fit, *tight*.\n\n- [x](https://a.example)")
    )
    assert "<h3>Day one</h3>" in shown
    assert "<em>tight</em>" in shown
    assert 'rel="noopener noreferrer"' in shown
