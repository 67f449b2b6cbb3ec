"""The wiring: subjects are found, and none stands in another's way."""

from __future__ import annotations

from collections import Counter

from flask.testing import FlaskClient


def test_no_two_views_answer_to_the_same_address(client: FlaskClient) -> None:
    met = Counter(
        (rule.rule, method)
        for rule in client.application.url_map.iter_rules()
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}
    )
    assert [place for place, times in met.items() if times > 1] == []


def test_every_subject_that_has_pages_is_found(client: FlaskClient) -> None:
    assert {"home", "series", "episodes", "settings", "security", "errors"} <= set(
        client.application.blueprints
    )
