"""The safety block: a caution a line, by the tool or material it is about."""

from app.publish.sheet import CautionLine, Sheet

TITLE = "Cautions"
FILE = "cautions.txt"


def render(sheet: Sheet) -> bytes:
    """Grouped, in the order of the build."""
    groups: dict[str, list[CautionLine]] = {}
    for line in sheet.cautions:
        groups.setdefault(line.about, []).append(line)
    blocks = [_group(about, lines) for about, lines in groups.items()]
    return ("\n\n".join(blocks) + "\n").encode() if blocks else b""


def _group(about: str, lines: list[CautionLine]) -> str:
    return "\n".join([about, *(f"- {line.text}" for line in lines)])
