"""A page as it is read."""

from __future__ import annotations

import re
from html import unescape


def words(page: str) -> str:
    """What a reader sees, spaces evened out."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", page)).split())
