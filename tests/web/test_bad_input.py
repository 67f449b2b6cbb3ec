"""Bad input in every field: its own sentence, nothing lost, nothing changed.

One workspace serves all the cases: that a case left everything as it was is part
of what is checked after it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from html import unescape

import pytest
from flask.testing import FlaskClient

from app.store.workspace import Workspace, open_workspace
from tests.web.full_shop import (
    FORMS,
    NEXT,
    PART,
    PROMISES,
    browser,
    fill,
    said,
    state,
)


@dataclass(frozen=True)
class Shop:
    """A full workspace and a browser on it."""

    workspace: Workspace
    client: FlaskClient

    def state(self) -> str:
        return state(self.workspace.folder)


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    workspace = open_workspace(tmp_path_factory.mktemp("shop") / "data")
    fill(browser(workspace, TESTING=True))
    yield Shop(workspace, browser(workspace))
    workspace.close()


# Chosen from a list or carried along: a page shows such a value as its own.
CHOSEN = {"form", "kind", "per", "direction", "unit", "version", "form_key", "take"}
CHOSEN |= {"in_episode", "base", "zone", "denominator", "first", "rest"}


LONG = "x" * 300
CONTROL = "invisible control mark (U+0007) after “a”"
DATE = "is not a date. Type it like 2026-03-02."
FEBRUARY = "“2026-02-31” is not in the calendar: February 2026 has the days 01 to 28"
STORY = f"{PART}/notes"
# Address, field, what is typed into it, a piece of the sentence it gets.
CASES = [
    ("/series/new", "title", "", "A title is missing."),
    ("/series/new", "title", "\u200f \n ", "A title is missing."),
    ("/series/new", "title", LONG, "The title has 300 characters; 200 is the most."),
    ("/series/new", "title", "a\0", "control mark (U+0000) after “a”"),
    ("/series/new", "summary", "a\x07", CONTROL),
    ("/series/new", "summary", "y" * 100_001, "100,000 is the most that any field"),
    ("/series/porch-pieces", "title", LONG, "300 characters"),
    ("/series/porch-pieces/add", "due_on", "2026-02-31", FEBRUARY),
    ("/series/porch-pieces/add", "due_on", "0206-03-01", "years go from 1900 to 2199"),
    ("/series/porch-pieces/add", "due_on", "2026-13-01", "the months 01 to 12"),
    ("/series/porch-pieces/add", "due_on", "٢٠٢٦-٠٣-٠٢", DATE),
    (f"{PART}/planned", "due_on", "20260302", DATE),
    (f"{PART}/planned", "introduces", "a\x07", CONTROL),
    (f"{PART}/move", "to", "99", "“99” is no place in this series."),
    (f"{PART}/move", "to", "-1", "“-1” is no place in this series."),
    (f"{PART}/move", "to", "1e400", "“1e400” is no place in this series."),
    ("/settings", "kerf", "2", "A kerf is wider than nothing and no wider than 1/2"),
    ("/settings", "kerf", "-1/8", "a size cannot be negative"),
    ("/settings", "kerf", "wide", "“wide” is not a length"),
    ("/settings", "most_tilt", "1e99999999", "is no angle this machine could reach"),
    ("/settings", "most_gauge", "NaN", "“NaN” is no angle this machine could reach"),
    ("/settings", "air_now_humidity", "96 %", "is no relative humidity"),
    ("/settings", "air_dry_celsius", "21", "Type it with its letter, like 21 C"),
    ("/settings", "air_damp_celsius", "999 C", "The moisture table holds from 31"),
    ("/settings", "air_damp_humidity", "5", "The dampest air brings wood to"),
    ("/settings", "currency", "dollars", "A currency is its three letters"),
    ("/rack/buy", "species", "", "Species is missing."),
    ("/rack/buy", "species", LONG, "200"),
    ("/rack/buy", "thickness", "-3/4", "a size cannot be negative"),
    ("/rack/buy", "width", "1/0", "nothing can be divided by zero"),
    ("/rack/buy", "length", "9999 m", "“9999 m” is not a length"),
    ("/rack/buy", "length", "1e400", "“1e400” is not a length"),
    ("/rack/buy", "length", "NaN", "“NaN” is not a length"),
    ("/rack/buy", "length", "40'", "will not do"),
    ("/rack/buy", "quantity", "two", "Pieces: “two” is not a whole number"),
    ("/rack/buy", "quantity", "-2", "Pieces cannot be negative; 1 is the least."),
    ("/rack/buy", "quantity", "9" * 30, "is not a whole number"),
    ("/rack/buy", "price", "-5", "“-5” is not a price."),
    ("/rack/buy", "price", "1e400", "“1e400” is not a price."),
    ("/rack/buy", "on", "2026-02-31", FEBRUARY),
    ("/rack/buy", "on", "2026-03-03", "2026-03-03 is still to come."),
    ("/rack/buy", "supplier", "a\x07", CONTROL),
    ("/rack/count", "place", LONG, "200"),
    ("/rack/W1/cut", "sizes", "", "Type the sizes to cut"),
    ("/rack/W1/cut", "sizes", "900", "“900” is not|there are 96 in"),
    ("/rack/W1/cut", "kerf", "-1", "a size cannot be negative"),
    ("/rack/W1/plane", "thickness", "2", "less than 3/4 in"),
    ("/rack/W1/plane", "quantity", "0", "1 is the least"),
    ("/rack/W1/discard", "reason", "", "Say why it is thrown out"),
    ("/rack/W1/discard", "quantity", "99", "W1 has 1 on the rack; 99 cannot be taken."),
    ("/rack/W1/give-away", "note", "y" * 2001, "2000"),
    ("/rack/W1/recount", "counted", "", "Type how many are there"),
    ("/rack/W1/recount", "counted", "1e400", "is not a whole number"),
    ("/rack/W1/place", "place", LONG, "200"),
    ("/rack/W1/undo/1", "reason", "", "later ones build on it|Take those back first"),
    (f"{PART}/head", "title", LONG, "300 characters"),
    (f"{PART}/head", "video_url", "javascript:alert(1)", "is not a web address."),
    (f"{PART}/head", "video_url", "https://", "“https://” is not a web address."),
    (f"{PART}/head", "video_url", "https://[x", "is not a web address."),
    (f"{PART}/head", "due_on", "next week", DATE),
    (f"{PART}/head", "opening", "a\x07", CONTROL),
    (STORY, "text", " \n ", "The note is empty."),
    (STORY, "text", "y" * 20_001, "The note has 20001 characters; 20000 is the most."),
    (STORY, "text", "a\x07", CONTROL),
    (STORY, "at", "half past", "“half past” is not a time in the film."),
    (STORY, "at", "99:99", "“99:99” is not a time in the film."),
    (f"{PART}/notes/1", "at", "25:00:00", "is more than a day into the film"),
    (f"{PART}/steps", "name", "", "The step has no name."),
    (f"{PART}/steps", "tool", LONG, "too long|300 characters"),
    (f"{PART}/photos/1", "caption", "y" * 2001, "2001 characters"),
    (f"{PART}/photos/1", "alt", "a\x07", CONTROL),
    (f"{PART}/film", "length", "0:00", "A film of 0:00 has nothing to show."),
    (f"{PART}/film", "length", "-1:00", "is not a time in the film."),
    (f"{PART}/chapters", "at", "", "The chapter has no time."),
    (f"{PART}/chapters", "at", "1:00", "There is a chapter at 1:00 already, “Rip”."),
    (f"{PART}/chapters", "title", "", "The chapter has no title."),
    (f"{PART}/chapters/1", "title", LONG, "The title has 300 characters"),
    (f"{PART}/chapters/take", "take", "note-99", "None is ticked."),
    (f"{PART}/used", "name", "", "Give it a name, like “wood glue”."),
    (f"{PART}/used", "url", "javascript:alert(1)", "is not a web address."),
    (f"{PART}/used", "cost", "NaN", "“NaN” is not a price."),
    (f"{PART}/used/1", "quantity", LONG, "80"),
    (f"{PART}/promises", "text", "", "Write down what the viewers were told."),
    (f"{PART}/promises", "due", "2026-02-31", FEBRUARY),
    (f"{PROMISES}/1", "text", "y" * 2001, "2000"),
    (f"{PROMISES}/1/keep", "in_episode", "", "Choose the part that keeps it."),
    (f"{PROMISES}/1/keep", "in_episode", "1", "cannot keep it too"),
    (f"{NEXT}/promises/1/kept-here", "how", "a\x07", CONTROL),
    (f"{PART}/out/blocks/opening", "text", "a\x07", CONTROL),
    (f"{NEXT}/plan", "dealer", "walnut, 1", "Line 1 of what the dealer sells has not"),
    (f"{NEXT}/plan", "dealer", "walnut, -1, 8, 96, 7", "a size cannot be negative"),
    (f"{NEXT}/plan", "dealer", f"{LONG}, 1, 8, 96, 7", "is too long for a wood"),
    (f"{NEXT}/plan", "dealer", "walnut, 1, 8, 96, $7", "“$7” is not a price."),
    (f"{NEXT}/plan", "dealer", "a\n" * 61, "61 lines of boards are too many"),
    (f"{NEXT}/plan/buy", "supplier", LONG, "200"),
    (f"{NEXT}/plan/cut", "on", "2026-02-31", FEBRUARY),
    (f"{NEXT}/plan/cut", "on", "2026-03-03", "2026-03-03 is still to come."),
    (f"{NEXT}/design", "sides", "17", "Sides|16 is the most"),
    (f"{NEXT}/design", "sides", "2", "3 is the least"),
    (f"{NEXT}/design", "sides", "six", "“six” is not a whole number"),
    (f"{NEXT}/design", "sides", "٣", "“٣” is not a whole number"),
    (f"{NEXT}/design", "height", "-6", "a size cannot be negative"),
    (f"{NEXT}/design", "height", "400 m", "“400 m” is not a length|will not do"),
    (f"{NEXT}/design", "height", "0", "must be more than nothing."),
    (f"{NEXT}/design", "wall", "5", "wall|Wall"),
    (f"{NEXT}/design", "species", ",,", "name at least one species"),
    (f"{NEXT}/design", "base", "nailed", "“nailed” is none of them"),
]


@pytest.mark.parametrize(
    ("address", "field", "typed", "says"),
    CASES,
    ids=[f"{case[0]}-{case[1]}-{i}" for i, case in enumerate(CASES)],
)
def test_a_wrong_field_has_its_sentence_keeps_what_was_typed_and_changes_nothing(
    shop: Shop, address: str, field: str, typed: str, says: str
) -> None:
    form = FORMS.get(address, {}) | {field: typed}
    before = shop.state()
    answer = shop.client.post(address, data=form)
    assert answer.status_code == 422
    assert any(words in said(answer) for words in says.split("|")), said(answer)
    page = unescape(answer.text)
    for name, value in form.items():
        if name not in CHOSEN and name in page:
            assert value in page, f"{name} is lost"
    assert shop.state() == before
