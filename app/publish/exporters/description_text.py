"""The description as plain text."""

from app.publish.sheet import Sheet

TITLE = "Description"
FILE = "description.txt"


def render(sheet: Sheet) -> bytes:
    """The blocks, one empty line between them."""
    return f"{sheet.description}\n".encode()
