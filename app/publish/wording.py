"""How a sheet's lines read: the same words in every file that says them."""

from __future__ import annotations

from app.core.measure import in_board_feet, in_litres
from app.core.volume import share
from app.publish.sheet import (
    Box,
    LeftLine,
    Part,
    PartLine,
    Sheet,
    SizeLine,
    UsedLine,
    WentLine,
    WoodLine,
)

# So many sizes of leftovers are told one by one.
LEFT_MOST = 3


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
    """One line of wood with its credit and link, and what is left of it."""
    link = f" ({line.origin.url})" if line.origin and line.origin.url else ""
    said = source(line, sheet.series)
    whence = f", {said}" if said else ""
    return f"{pieces(line, sheet.unit)}{whence}{link}{left(line, sheet.unit)}"


def left(line: WoodLine, unit: str) -> str:
    """``, of which an offcut 3/4 x 7 1/4 x 69 3/4 in is left for later parts``.

    Many sizes are told by their number and the largest.
    """
    if not line.left:
        return ""
    count = sum(item.quantity for item in line.left)
    verb = "will be" if line.planned else "is" if count == 1 else "are"
    told = f"{verb} left for later parts"
    if len(line.left) > LEFT_MOST:
        kinds = {item.what for item in line.left}
        what = kinds.pop() if len(kinds) == 1 else "piece"
        largest = line.left[0].box.text(unit)
        return f", of which {count} {what}s {told}, the largest {largest}"
    return f", of which {in_order([leftover(one, unit) for one in line.left])} {told}"


def leftover(line: LeftLine, unit: str) -> str:
    """``an offcut 3/4 x 7 x 30 in``, ``2 offcuts 3/4 x 3 x 12 in``."""
    if line.quantity > 1:
        return f"{line.quantity} {line.what}s {line.box.text(unit)}"
    article = "an" if line.what[:1] in "aeiou" else "a"
    return f"{article} {line.what} {line.box.text(unit)}"


def in_build(sheet: Sheet) -> list[str]:
    """What is really in the build: a sum by species, and where it went."""
    sums: dict[str, int] = {}
    for line in sheet.wood:
        sums[line.species] = sums.get(line.species, 0) + line.in_build
    if sum(sums.values()) <= 0:
        return []
    planned = all(line.planned for line in sheet.wood)
    told = [f"{volume(nm3, sheet.unit)} of {name}" for name, nm3 in sums.items()]
    found = [f"{'Planned for' if planned else 'In'} the build: {in_order(told)}"]
    return [*found, *_shares(sheet.went, "will go" if planned else "went")]


def volume(nm3: int, unit: str) -> str:
    """``1.42 board feet (3.35 litres)``, the maker's own unit first."""
    both = [in_board_feet(nm3), in_litres(nm3)]
    own, aid = both if unit == "in" else both[::-1]
    return f"{own} ({aid})"


def _shares(went: tuple[WentLine, ...], verb: str) -> list[str]:
    """Whole percents that add up to a hundred."""
    there = [line for line in went if line.volume > 0]
    if not there:
        return []
    percents = share(100, [line.volume for line in there])
    told = [
        f"{line.name} {f'{percent} %' if percent else 'under 1 %'}"
        for line, percent in zip(there, percents, strict=True)
    ]
    return [f"Where it {verb}: {', '.join(told)}"]


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
