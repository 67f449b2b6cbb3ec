"""For the maker alone: what was missing or wrong when the pack was made."""

import json

from app.core.document import to_plain
from app.publish.sheet import Sheet

TITLE = "Checks (private)"
FILE = "private/checks.json"


def render(sheet: Sheet) -> bytes:
    """One record a line, so that two versions can be compared by eye."""
    lines = [
        json.dumps(to_plain(line), ensure_ascii=False, sort_keys=True)
        for line in sheet.checks
    ]
    body = ",\n".join(lines)
    head = '{"format": "stockthread checks", "version": 1, "checks": ['
    return f"{head}\n{body}\n]}}\n".encode()
