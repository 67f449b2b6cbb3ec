"""The order of the cuts: what must come first does, equal settings together."""

from __future__ import annotations

from collections import Counter

from app.core.cutting.job import Area
from app.core.cutting.pattern import Box, RawCut
from app.core.cutting.plan import Cut, Direction
from app.core.length import Display, Length, show

Setting = tuple[bool, Direction, int]


def sawing_order(cuts: list[RawCut], display: Display) -> tuple[Cut, ...]:
    """Cuts so that each finds its piece, with few changes of fence and stop.

    A cut waits for the one that made its piece. Among those that may be made,
    the setting that stands is used up first; then the shallowest round, and in
    it the setting with the most cuts ahead.
    """
    depth = _depths(cuts)
    ahead = Counter(_setting(cut) for cut in cuts)
    waiting: dict[int, list[int]] = {}
    for number, cut in enumerate(cuts):
        waiting.setdefault(cut.after, []).append(number)
    ready, done = list(waiting.get(-1, [])), []
    stands: Setting | None = None
    while ready:
        number = min(
            ready,
            key=lambda n: (
                _setting(cuts[n]) != stands,
                depth[n],
                -ahead[_setting(cuts[n])],
                n,
            ),
        )
        ready.remove(number)
        ready.extend(waiting.get(number, []))
        stands = _setting(cuts[number])
        ahead[stands] -= 1
        done.append(_cut(cuts[number], display))
    return tuple(done)


def changes(cuts: tuple[Cut, ...]) -> int:
    """How often a fence or stop is set, cut after cut."""
    return sum(
        not at or cut.set_up != cuts[at - 1].set_up for at, cut in enumerate(cuts)
    )


def area(box: Box, one_dimensional: bool = False) -> Area:
    """A box as an area; without widths its width is nothing."""
    x, y, length, width = box
    across = Length(0) if one_dimensional else Length(width)
    return Area(Length(x), Length(y), Length(length), across)


def _setting(cut: RawCut) -> Setting:
    return (cut.trim, cut.direction, cut.setting)


def _depths(cuts: list[RawCut]) -> list[int]:
    """In which round each cut falls: a turn of direction starts a new one."""
    found: list[int] = []
    for cut in cuts:
        if cut.after < 0:
            found.append(0)
            continue
        turned = cuts[cut.after].direction is not cut.direction
        found.append(found[cut.after] + turned)
    return found


def _cut(raw: RawCut, display: Display) -> Cut:
    return Cut(
        raw.direction,
        Length(raw.at),
        Length(raw.kerf),
        area(raw.box),
        _words(raw, display),
    )


def _words(raw: RawCut, display: Display) -> str:
    size = str(show(Length(raw.setting), display))
    if raw.trim:
        what = "end" if raw.direction is Direction.CROSSCUT else "edge"
        return f"Trim the {what}: {size} off, kerf included"
    if raw.direction is Direction.RIP:
        return f"Rip fence at {size}"
    return f"Crosscut stop at {size}"
