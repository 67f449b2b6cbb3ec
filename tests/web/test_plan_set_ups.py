"""The order of cuts as its page tells it."""

from __future__ import annotations

import re

from flask import render_template
from flask.testing import FlaskClient

from app.core.cutting.set_up_list import by_set_up, prepared
from tests.core.cutting.test_by_period import series


def told(client: FlaskClient) -> str:
    plan = series()
    with client.application.test_request_context("/"):
        page = render_template(
            "_plan_set_ups.html", set_ups=by_set_up(plan), prepared=prepared(plan)
        )
    return re.sub(r"\s+", " ", re.sub(r"<[^>]*>", " ", page)).replace(" ;", ";")


def test_each_setting_stands_once_with_the_cuts_made_at_it(client: FlaskClient) -> None:
    page = told(client)
    settings = [
        "1. Crosscut stop at 10 in",
        "2. Crosscut stop at 24 in",
        "3. Rip fence",
    ]
    places = [page.index(words) for words in settings]
    assert places == sorted(places)
    assert "for tray; 1 cut, 2 blanks done" in page
    assert "C1, on each of 2 left end, squared first" in page
    assert "offcut C1-a until box" in page
    assert "scrap; the rest goes on" in page


def test_what_is_jointed_and_squared_first_stands_above_the_cuts(
    client: FlaskClient,
) -> None:
    page = told(client)
    assert "joint the upper edge and square the left end of C1 ." in page
    assert page.index("Before the first cut") < page.index("Crosscut stop")
