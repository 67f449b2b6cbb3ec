"""Materials as Markdown: wood by species with what came from where."""

import re

from app.publish import wording
from app.publish.sheet import Sheet, UsedLine, WoodLine

TITLE = "Materials (Markdown)"
FILE = "materials.md"
# CommonMark 0.31, 2.4: a backslash before any of these makes it plain text.
_MARKS = re.compile(r"([\\`*_{}\[\]<>#|!~&])")


def render(sheet: Sheet) -> bytes:
    """The list under the episode's name."""
    head = f"# Materials: {_plain(sheet.title)}\n\n"
    head += f"Part {sheet.number} of {_plain(sheet.series)}\n"
    return f"{head}\n{body(sheet)}\n".encode()


def body(sheet: Sheet) -> str:
    """The list alone."""
    sections = [_wood(sheet)] if sheet.wood else []
    sections += [
        "\n".join([f"## {title}", "", *(f"- {_used(line)}" for line in lines)])
        for title, lines in (("Supplies", sheet.supplies), ("Tools", sheet.tools))
        if lines
    ]
    return "\n\n".join(sections) or "Nothing is listed yet."


def _wood(sheet: Sheet) -> str:
    by_species: dict[str, list[WoodLine]] = {}
    for line in sheet.wood:
        by_species.setdefault(line.species, []).append(line)
    lines = ["## Wood", "", "Thickness x width x length, along the grain."]
    for species, found in by_species.items():
        lines += ["", f"### {_plain(species)}", ""]
        lines += [f"- {_piece(line, sheet)}" for line in found]
    for told in wording.in_build(sheet):
        lines += ["", f"{_plain(told)}."]
    return "\n".join(lines)


def _piece(line: WoodLine, sheet: Sheet) -> str:
    said = wording.source(line, sheet.series)
    text = _plain(wording.pieces(line, sheet.unit)) + (
        f", {_plain(said)}" if said else ""
    )
    origin, left = line.origin, _plain(wording.left(line, sheet.unit))
    if origin is None or not origin.url:
        return text + left
    return f"{text} ([{_plain(origin.title)}]({_address(origin.url)})){left}"


def _used(line: UsedLine) -> str:
    name = _plain(line.name)
    name = f"[{name}]({_address(line.url)})" if line.url else name
    much = f", {_plain(line.quantity)}" if line.quantity else ""
    return name + much + (" (given to me)" if line.given else "")


def _plain(text: str) -> str:
    return _MARKS.sub(r"\\\1", " ".join(text.split()))


def _address(url: str) -> str:
    # Between angle brackets an address may hold brackets: CommonMark 6.3.
    return f"<{url.replace('<', '%3C').replace('>', '%3E').replace(' ', '%20')}>"
