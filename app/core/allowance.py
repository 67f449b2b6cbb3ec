"""Over size by: what a blank is larger than its part, and who says so."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches

from app.core.errors import WorkshopError
from app.core.length import Length, mm
from app.core.part import Dimensions
from app.core.shop import Shop

MOST = mm(300)
SIDES = ("length", "width", "thickness")
LIKE = "wall: length 1 in, thickness 1/8 in"


@dataclass(frozen=True, slots=True)
class Over:
    """What squaring, jointing and planing take off a blank: over size by."""

    length: Length
    width: Length
    thickness: Length

    def on(self, finished: Dimensions) -> Dimensions:
        """The blank of a piece of this finished size."""
        return Dimensions(
            finished.length + self.length,
            finished.width + self.width,
            finished.thickness + self.thickness,
        )


@dataclass(frozen=True, slots=True)
class Allowances:
    """The workspace's allowances, with what a design says otherwise by part.

    Sanding is taken from both faces and counts with the thickness.
    """

    shop: Shop
    own: Mapping[str, Mapping[str, Length]]

    def of(self, part: str) -> Over:
        """Over size by, for the part or panel of this key."""
        thick = self.shop.over_thickness + self.shop.sanding * 2
        plain = Over(self.shop.over_length, self.shop.over_width, thick)
        return replace(plain, **self.own.get(part, {}))


def read(text: str | None, parts: Iterable[str], shop: Shop) -> Allowances:
    """A design's own allowances, a line a part: ``wall: length 1 in, width 1/4 in``.

    ``parts`` are the keys that may be named. Raises WorkshopError, naming the
    input ``over_size``, for what it cannot read.
    """
    known = tuple(parts)
    own: dict[str, dict[str, Length]] = {}
    for line in re.split(r"[\n;]", text or ""):
        if line.strip():
            part, given = _line(line, known, shop)
            own.setdefault(part, {}).update(given)
    return Allowances(shop, own)


def _line(
    line: str, known: tuple[str, ...], shop: Shop
) -> tuple[str, dict[str, Length]]:
    name, colon, rest = line.partition(":")
    part = "_".join(name.lower().split())
    if not colon or part not in known:
        near = (get_close_matches(part, known, 1, 0.4) or [known[0]])[0]
        raise _refused(
            f"“{line.strip()[:60]}” names no part of this form. Type it like {LIKE}; "
            f"the parts are {', '.join(known)}.",
            f"{near}: length 1 in",
        )
    return part, dict(_given(item, part, shop) for item in rest.split(","))


def _given(item: str, part: str, shop: Shop) -> tuple[str, Length]:
    side, _, size = item.strip().partition(" ")
    if side.lower() not in SIDES or not size.strip():
        raise _refused(
            f"“{item.strip()[:60]}” is no allowance. Type {', '.join(SIDES)} and how "
            f"much, like {LIKE}.",
            f"{part}: length 1 in",
        )
    over = Length.read(size, shop.unit, input="over_size")
    if over > MOST:
        raise _refused(f"Over size by {size.strip()} is more than 300 mm (12 in).", "")
    return side.lower(), over


def _refused(message: str, nearest: str) -> WorkshopError:
    return WorkshopError(message, input="over_size", nearest=nearest)
