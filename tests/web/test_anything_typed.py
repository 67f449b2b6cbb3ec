"""Whatever is sent to whichever address: never the program's own mistake."""

from __future__ import annotations

import re
from collections.abc import Iterator
from io import BytesIO

import pytest
from flask.testing import FlaskClient
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from werkzeug.routing import IntegerConverter, Rule

from app.services import care
from app.store.workspace import Workspace, open_workspace
from tests.web.full_shop import FORMS, VTT, browser, fill

# Every field that a form has, and names that none has.
FIELDS = sorted({name for form in FORMS.values() for name in form})
FIELDS += ["done", "take", "facts", "theme", "back", "given", "rest", "once", "?"]
USUAL = sorted({text for form in FORMS.values() for text in form.values()})
NASTY = ["", " ", "\0", "\x07", "-1", "0", "1e400", "1e99999999", "NaN", "inf", "٣"]
NASTY += ["2026-02-31", "0001-01-01", "9" * 30, "9" * 5000, "1/0", "½", "../x", "%00"]
NASTY += [
    "javascript:alert(1)",
    "<b>",
    "=1+1",
    "\u202e",
    "🪚",
    "x" * 300,
    "a,b\n;,",
    "'",
]
SLUGS = ["porch-pieces", "kitchen", "none", "new", "W1", "opening", "draft", "%00"]
typed = st.sampled_from(USUAL) | st.sampled_from(NASTY) | st.text(max_size=12)
numbers = st.sampled_from(["1", "2", "3", "4", "99", "9" * 30])


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Workspace]:
    opened = open_workspace(tmp_path_factory.mktemp("shop") / "data")
    fill(browser(opened, TESTING=True))
    yield opened
    opened.close()


@pytest.fixture(scope="module")
def client(whole: Workspace) -> FlaskClient:
    return browser(whole)


def posting(client: FlaskClient) -> list[Rule]:
    rules = client.application.url_map.iter_rules()
    return [rule for rule in rules if "POST" in (rule.methods or ())]


def address(rule: Rule, draw: st.DataObject) -> str:
    """The rule's address with something drawn for each of its arguments."""

    def one(found: re.Match[str]) -> str:
        kind = rule._converters[found[1]]
        some = numbers if isinstance(kind, IntegerConverter) else st.sampled_from(SLUGS)
        return draw.draw(some)

    return re.sub(r"<(?:[^<>:]+:)?([a-z_]+)>", one, rule.rule)


def form(rule: Rule, place: str, draw: st.DataObject) -> dict[str, object]:
    """A form that would do, with some fields changed, missing or added."""
    known = FORMS.get(place, {})
    changed = draw.draw(st.dictionaries(st.sampled_from(FIELDS), typed, max_size=4))
    lost = draw.draw(st.sets(st.sampled_from(FIELDS), max_size=2))
    sent: dict[str, object] = {**known, **changed}
    for name in lost:
        sent.pop(name, None)
    for name in ("photos", "captions", "file", "file_from_disk"):
        if rule.rule.endswith(("photos", "captions", "import", "design")):
            data = draw.draw(st.binary(max_size=40) | st.sampled_from([VTT, b"PK\3\4"]))
            sent[name] = (BytesIO(data), draw.draw(typed) or "x")
    return sent


@settings(
    max_examples=250,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(draw=st.data())
def test_nothing_that_is_sent_breaks_the_program(
    client: FlaskClient, draw: st.DataObject
) -> None:
    rule = draw.draw(st.sampled_from(posting(client)))
    places = [place for place in FORMS if _fits(rule, place)]
    made = draw.draw(st.sampled_from(places)) if places else address(rule, draw)
    if draw.draw(st.booleans()):
        made = address(rule, draw)
    answer = client.post(made, data=form(rule, made, draw))
    assert answer.status_code < 500, (made, answer.text[-500:])


def _fits(rule: Rule, place: str) -> bool:
    pattern = re.sub(r"<[^<>]+>", "[^/]+", rule.rule)
    return re.fullmatch(pattern, place) is not None


def test_after_all_that_every_page_stands_and_the_ledger_balances(
    client: FlaskClient, whole: Workspace
) -> None:
    for place in ("/", "/rack", "/settings", "/series/porch-pieces", "/series/kitchen"):
        assert client.get(place).status_code == 200
    for part in ("porch-pieces/1", "porch-pieces/2", "kitchen/1"):
        assert client.get(f"/series/{part}").status_code in (200, 404)
    assert care.check(whole, deep=True).findings == ()
