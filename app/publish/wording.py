"""How a sheet's lines read: the same words in every file that says them."""

from __future__ import annotations

from app.publish.sheet import Box, Part, PartLine, Sheet, SizeLine, UsedLine, WoodLine


def other(unit: str) -> str:
    """The other system's unit."""
    return "mm" if unit == "in" else "in"


def both(box: Box, unit: str) -> str:
    """A piece in the maker's own unit, then in the other."""
    return f"{box.text(unit)} ({box.text(other(unit))})"


def size(line: SizeLine, unit: str) -> str:
    """A size in the maker's own unit, then in the other where it has one."""
    own, aid = (line.inch, line.mm) if unit == "in" else (line.mm, line.inch)
    # The other system is an aid to read by; what it hid is not said again.
    return own if own == aid else f"{own}, or {aid.partition(' (')[0]}"


def part(line: PartLine, unit: str) -> str:
    """``8 x wall, cherry: 1/2 x 6 x 3 in (…)``."""
    name = f"{line.quantity} x {line.name}"
    return f"{name}, {line.species}: {both(line.box, unit)}"


def named(link: Part, series: str) -> str:
    """A part of this series by number and title, of another with its series."""
    where = "" if link.series == series else f" of {link.series}"
    return f"part {link.number}{where}, {link.title}"


def pieces(line: WoodLine, unit: str) -> str:
    """``cherry strip, 1/4 x 1 x 9 in (…)``, with how many where more than one."""
    count = "" if line.quantity == 1 else f"{line.quantity} x "
    return f"{count}{line.species} {line.what}, {both(line.box, unit)}"


def source(line: WoodLine, series: str) -> str:
    """Where wood came from, without the link."""
    origin = line.origin
    if origin is None:
        said = "from the rack" if line.what != "board" else ""
    elif origin.series == series:
        said = f"left over from part {origin.number}"
    else:
        said = f"left over from part {origin.number} of {origin.series}"
    return ", ".join(filter(None, [said, "planned" if line.planned else ""]))


def wood(line: WoodLine, sheet: Sheet) -> str:
    """One line of wood with its credit and link."""
    link = f"({line.origin.url})" if line.origin and line.origin.url else ""
    said = source(line, sheet.series)
    whence = f", {said}" if said else ""
    return " ".join(filter(None, [pieces(line, sheet.unit) + whence, link]))


def used(line: UsedLine) -> str:
    """A supply or tool with how much, whether it was given, and its link.

    The notice stands beside the link it is about, not only elsewhere:
    16 CFR 255.5 and the staff's answers on it.
    """
    much = f", {line.quantity}" if line.quantity else ""
    notice = " (given to me)" if line.given else ""
    return f"{line.name}{much}{notice}" + (f" {line.url}" if line.url else "")


def in_order(texts: list[str]) -> str:
    """``a``, ``a and b``, ``a, b and c``."""
    if len(texts) < 2:
        return "".join(texts)
    return f"{', '.join(texts[:-1])} and {texts[-1]}"
