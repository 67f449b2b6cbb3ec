"""A small workspace with one of everything, made through the pages.

Two parts of one series, the first with a design, a plan that is cut, a note, a
photo, captions, chapters, a promise and a frozen revision; and a second series,
whose rows the first one's addresses must not reach.
"""

from __future__ import annotations

import re
import sqlite3
from contextlib import closing
from hashlib import sha256
from html import unescape
from io import BytesIO
from pathlib import Path

from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from app.main import create_app
from app.store.workspace import DATABASE, Workspace
from tests.conftest import NOON
from tests.services.bench import jpeg

PART = "/series/porch-pieces/1"
NEXT = "/series/porch-pieces/2"
OTHER = "/series/kitchen/1"
PROMISES = "/series/porch-pieces/promises"
VTT = b"WEBVTT\n\n00:01.000 --> 00:02.500\nSix sides.\n"
DAY = "2026-03-02"
BOARD = {
    "species": "walnut",
    "kind": "board",
    "quantity": "2",
    "thickness": "3/4",
    "width": "8",
    "length": "96",
    "price": "8.50",
    "per": "board foot",
    "supplier": "the yard",
    "place": "wall",
    "name": "",
    "on": "2026-03-01",
}
VESSEL = {
    "form": "straight_vessel",
    "version": "0",
    "sides": "6",
    "outside_side": "4",
    "height": "6",
    "wall": "1/2",
    "base": "none",
    "species": "walnut",
}
DEALER = "walnut, 3/4, 8, 96, 70"
NOTE = {"text": "Cut two scraps first.", "step": "", "at": "2:30"}
USED = {
    "kind": "supply",
    "name": "wood glue",
    "quantity": "50 ml",
    "url": "https://glue.example/",
    "cost": "3.50",
}
PROMISE = {"text": "A lid comes later.", "at": "3:10", "due": "2026-04-01"}
CHAPTERS = (("0:00", "Start"), ("1:00", "Rip"), ("2:00", "Glue"))
PLANNED = {"title": "A planter", "introduces": "bevels", "due_on": "2026-03-09"}
SETTINGS = {
    "version": "0",
    "unit": "in",
    "denominator": "32",
    "currency": "USD",
    "zone": "UTC",
    "kerf": "1/8",
    "end_trim": "1/2",
    "edge_trim": "1/8",
    "keep_length": "8",
    "keep_width": "1",
    "over_length": "1/4",
    "over_width": "1/8",
    "over_thickness": "1/16",
    "plane_most": "3/8",
    "offcut_full_length": "48",
    "offcut_full_width": "6",
    "widest_crosscut": "0",
    "longest_rip": "0",
    "shortest_sawn": "0",
    "plan_seconds": "10",
    "glue_narrowest": "2 1/2",
    "resaw_height": "6 in",
    "resaw_kerf": "1/16",
    "resaw_allowance": "1/16",
    "most_tilt": "45",
    "most_gauge": "60",
    "longest_crosscut": "24 in",
    "shortest_jointed": "12 in",
    "shortest_planed": "12 in",
    "widest_planed": "12 in",
    "narrowest_rip": "3/4 in",
    "sanding": "0",
    "air_now_humidity": "45 %",
    "air_now_celsius": "68 F",
    "air_dry_humidity": "30 %",
    "air_dry_celsius": "20 C",
    "air_damp_humidity": "65",
    "air_damp_celsius": "25 °C",
}
HEAD = {
    "version": "1",
    "title": "A planter",
    "opening": "Six boards, one ring.",
    "due_on": "2026-03-09",
    "video_url": "https://films.example/1",
}


def _stored(key: str, fields: dict[str, str], version: str = "1") -> dict[str, str]:
    """A form of a stored row among equal ones."""
    return fields | {"version": version, "form_key": key}


# One form that would be taken for each posting address, or nearly: what it needs.
FORMS: dict[str, dict[str, str]] = {
    "/series/new": {"title": "Trays", "summary": "Four trays."},
    "/series/porch-pieces": {"version": "1", "title": "Porch", "summary": "Six."},
    "/series/porch-pieces/add": PLANNED,
    f"{PART}/planned": _stored("1", PLANNED),
    f"{PART}/move": {"to": "2", "form_key": "1"},
    "/settings": SETTINGS,
    "/rack/buy": BOARD,
    "/rack/count": BOARD,
    "/rack/W1/cut": {"direction": "crosscut", "sizes": "24", "kerf": "1/8", "on": DAY},
    "/rack/W1/plane": {"thickness": "1/2", "quantity": "1", "on": DAY},
    "/rack/W1/discard": {"reason": "rot", "quantity": "1", "on": DAY},
    "/rack/W1/give-away": {"note": "to a friend", "quantity": "1", "on": DAY},
    "/rack/W1/recount": {"counted": "7", "note": "behind the door", "on": DAY},
    "/rack/W1/place": {"version": "1", "place": "loft"},
    "/rack/W1/undo/1": {"reason": "wrong board", "form_key": "1"},
    f"{PART}/head": HEAD,
    f"{PART}/notes": NOTE,
    f"{PART}/notes/1": _stored("1", NOTE),
    f"{PART}/steps": {"name": "Sand", "tool": "hand plane", "detail": "To 180 grit."},
    f"{PART}/photos/1": _stored("1", {"caption": "Closed", "alt": "A ring"}),
    f"{PART}/film": {"version": "1", "length": "14:05"},
    f"{PART}/chapters": {"at": "5:00", "title": "Oil"},
    f"{PART}/chapters/1": _stored("1", {"at": "0:00", "title": "Start"}),
    f"{PART}/used": USED,
    f"{PART}/used/1": _stored("1", USED),
    f"{PART}/promises": PROMISE,
    f"{PROMISES}/1": _stored("1", PROMISE),
    f"{PROMISES}/1/keep": _stored("1", {"in_episode": "2", "how": "With a lid."}),
    f"{NEXT}/promises/1/kept-here": _stored("1", {"how": "With a lid."}),
    f"{PART}/out/blocks/opening": _stored("opening", {"text": "Hello again."}),
    f"{NEXT}/plan": {"version": "1", "dealer": DEALER, "first": "rip"},
    f"{NEXT}/plan/buy": {"version": "1", "on": DAY, "supplier": "the yard"},
    f"{NEXT}/plan/cut": {"version": "1", "on": DAY},
    f"{NEXT}/design": VESSEL | {"version": "1"},
    f"{NEXT}/design/try": VESSEL | {"version": "1"},
}


def browser(workspace: Workspace, **config: object) -> FlaskClient:
    """A browser without a screen that gets an error page, never an exception."""
    settings = {"WTF_CSRF_ENABLED": False, "CLOCK": lambda: NOON} | config
    settings = {"PATIENCE": 60.0} | settings
    made = create_app(workspace, **settings).test_client()
    made.environ_base["HTTP_SEC_FETCH_SITE"] = "same-origin"
    return made


def fill(client: FlaskClient) -> None:
    """Make it all; every post has to be taken."""
    for title in ("Porch pieces", "Kitchen"):
        _take(client, "/series/new", {"title": title, "summary": "Six sides."})
    for slug in ("porch-pieces", "porch-pieces", "kitchen"):
        _take(client, f"/series/{slug}/add", {"title": "A planter"})
    _take(client, "/rack/buy", BOARD)
    plan = {"version": "0", "dealer": DEALER, "first": "either"}
    for part in (PART, NEXT):
        _take(client, f"{part}/design", VESSEL)
        _take(client, f"{part}/plan", plan)
        if part == PART:
            _take(client, f"{part}/plan/cut", {"version": "1", "on": DAY})
    for part in (PART, OTHER):
        _tell(client, part)


def _tell(client: FlaskClient, part: str) -> None:
    _take(client, f"{part}/notes", NOTE)
    _take(client, f"{part}/steps", {"name": "Sand", "tool": "hand plane"})
    photo = {"photos": (BytesIO(jpeg(len(part))), "ring.jpg")}
    _take(client, f"{part}/photos", photo)
    _take(client, f"{part}/captions", {"captions": (BytesIO(VTT), "cut.vtt")})
    for at, title in CHAPTERS:
        _take(client, f"{part}/chapters", {"at": at, "title": title})
    _take(client, f"{part}/used", USED)
    _take(client, f"{part}/promises", PROMISE)
    _take(client, f"{part}/out/blocks/opening", {"text": "Hello.", "version": "0"})
    _take(client, f"{part}/out/freeze", {})


def _take(client: FlaskClient, address: str, data: dict[str, object]) -> None:
    answer = client.post(address, data=data)
    assert answer.status_code == 303, (address, said(answer))


def said(answer: TestResponse) -> str:
    """What a reader sees, spaces evened out."""
    text = re.sub(r"<(script|style).*?</\1>|<[^>]+>", " ", answer.text, flags=re.S)
    return " ".join(unescape(text).split())


def state(folder: Path) -> str:
    """A digest of all that the data folder holds: every row and every file."""
    held = sha256()
    with closing(sqlite3.connect(folder / DATABASE)) as database:
        for line in database.iterdump():
            held.update(line.encode("utf-8", "surrogatepass"))
    for path in sorted((folder / "files").rglob("*")):
        if path.is_file():
            held.update(path.name.encode() + path.read_bytes())
    return held.hexdigest()
