"""A form that is sent twice is carried out once.

Two quick clicks, or a phone that sends again over a weak signal, post the same
form twice. Each page gives its forms one mark; a posting with a mark, an address
and fields that were carried out before gets the first one's answer.
"""

from __future__ import annotations

import secrets
from collections import OrderedDict
from dataclasses import dataclass, field
from hashlib import sha256
from threading import Lock

from flask import Blueprint, current_app, g, request

bp = Blueprint("once", __name__)

FIELD = "once"
# More than one person posts while two equal requests are under way.
MOST_KEPT = 500
UNMARKED = ("csrf_token",)


@dataclass
class _Posting:
    """One form sent: its turn, and where its answer led."""

    turn: Lock = field(default_factory=Lock)
    led_to: str = ""


_lock = Lock()


@bp.app_template_global("once")
def mark() -> str:
    """The mark of this page's forms."""
    if "once" not in g:
        g.once = secrets.token_urlsafe(9)
    return str(g.once)


def posting() -> _Posting:
    """What is known of this request's form; a new one where it has no mark."""
    if not request.form.get(FIELD) or request.files:
        return _Posting()
    key = _key()
    with _lock:
        known = _known()
        found = known.setdefault(key, _Posting())
        known.move_to_end(key)
        while len(known) > MOST_KEPT:
            known.popitem(last=False)
    return found


def _known() -> OrderedDict[str, _Posting]:
    """What this server was sent lately; nothing of it outlives the program."""
    kept: OrderedDict[str, _Posting] = current_app.extensions.setdefault(
        "once", OrderedDict()
    )
    return kept


def _key() -> str:
    fields = sorted(
        (name, value)
        for name, value in request.form.items(multi=True)
        if name not in UNMARKED
    )
    return sha256(repr((request.path, fields)).encode()).hexdigest()
