"""Reading what is turned: a profile, a bottom, and values that would work."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING, TypeVar

from app.core.errors import WorkshopError
from app.core.forms._turned import Bottom, Level, Profile
from app.core.inputs import Ask, ask, refuse, typed
from app.core.length import NM_PER_INCH, NM_PER_MM, Length, Unit, inches, mm
from app.core.shop import Shop

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

MOST_LEVELS = 24
# Above this a board for one bottom is hard to find: common practice, no source.
WIDEST_BOARD = inches("5")
Asked = TypeVar("Asked", bound="DataclassInstance")
Made = TypeVar("Made")


@dataclass(frozen=True, kw_only=True)
class Bottoming:
    """For what may have a bottom under it."""

    bottom: str = ask(
        "Bottom",
        Ask.CHOICE,
        default="none",
        choices=("none", "solid"),
        help="Solid: a board of eight sides glued underneath.",
    )
    bottom_thickness: Length = ask(
        "Thickness of the bottom",
        Ask.LENGTH,
        default=inches("1/2"),
        least=mm(3),
        most=mm(60),
        help="Of a solid bottom, as it is glued on.",
    )
    bottom_species: tuple[str, ...] | None = ask(
        "Wood of the bottom",
        Ask.SPECIES,
        default=None,
        help="One species; the first of the list where left empty.",
    )


def read_profile(text: str, shop: Shop, most: Length) -> tuple[Level, ...]:
    """A line a level, or levels set apart by semicolons: ``height: diameter``.

    Raises WorkshopError, naming the input ``profile``, for what it cannot read and
    for heights that do not rise from nothing.
    """
    lines = [line.strip() for line in re.split(r"[\n;]", text) if line.strip()]
    if not 2 <= len(lines) <= MOST_LEVELS:
        raise _unread(
            f"A profile has 2 to {MOST_LEVELS} levels; this one has {len(lines)}.", shop
        )
    levels = tuple(_level(line, shop, most) for line in lines)
    heights = [height for height, _ in levels]
    if heights[0]:
        raise _unread("The lowest level of a profile is at height 0.", shop)
    if any(low >= high for low, high in pairwise(heights)):
        raise _unread("The levels of a profile go up: each higher than the last.", shop)
    return levels


def _level(line: str, shop: Shop, most: Length) -> Level:
    height, colon, across = (part.strip() for part in line.partition(":"))
    if not colon or not height or not across:
        raise _unread(f"“{line[:60]}” is no level: type a height, :, a diameter.", shop)
    up = Length.read(height, shop.unit, input="profile")
    diameter = Length.read(across, shop.unit, input="profile")
    if not 0 < diameter.nm <= most.nm or not 0 <= up.nm <= most.nm:
        raise _unread(
            f"“{line[:60]}” is out of reach: more than nothing across, and heights "
            f"and diameters up to {typed(most, shop.unit)}.",
            shop,
        )
    return up, diameter


def _unread(message: str, shop: Shop) -> WorkshopError:
    return refuse("profile", message, profile_like(shop))


def profile_like(shop: Shop) -> str:
    """A profile that can be read, in round numbers of the maker's unit."""
    if shop.unit is Unit.MILLIMETRE:
        return "0: 120; 50: 200; 100: 180"
    return "0: 5; 2: 8; 4: 7"


def read_bottom(
    kind: str,
    thickness: Length,
    named: tuple[str, ...] | None,
    otherwise: str,
    profile: Profile,
    turning: Length,
) -> Bottom | None:
    """The bottom's board, wide enough for all of the profile that lies in it."""
    if named and len(named) > 1:
        message = f"Name one species here, not {len(named)}."
        raise refuse("bottom_species", message, named[0])
    if kind == "none":
        return None
    widest, _ = profile.over(Length(0), thickness)
    across = Length.nearest(widest) + turning * 2
    strips = -(-across.nm // WIDEST_BOARD.nm)
    return Bottom(across, thickness, named[0] if named else otherwise, strips)


class Unfit(WorkshopError):
    """What cannot be built, with values of one input that may do instead."""

    def __init__(self, key: str, message: str, near: Iterable[Length | int] = ()):
        super().__init__(message, input=key)
        self.near = tuple(near)


def resolved(attempt: Callable[[Asked], Made], inputs: Asked, shop: Shop) -> Made:
    """What the attempt makes of the inputs.

    Where they are unfit, the refusal names the first of the values near by with
    which the attempt succeeds.
    """
    try:
        return attempt(inputs)
    except Unfit as fault:
        near = _that_works(attempt, inputs, fault, shop)
        raise refuse(fault.input, str(fault), near) from None


def _that_works(
    attempt: Callable[[Asked], Made], inputs: Asked, fault: Unfit, shop: Shop
) -> str:
    for value in fault.near:
        try:
            attempt(replace(inputs, **{fault.input: value}))
        except WorkshopError:
            continue
        return typed(value, shop.unit)
    return ""


def marks(low: Length, high: Length, shop: Shop, *, down: bool) -> list[Length]:
    """Lengths that a tape shows between two: nearest to one end first, few."""
    mark = NM_PER_INCH // 16 if shop.unit is Unit.INCH else NM_PER_MM
    first, last = -(-low.nm // mark), high.nm // mark
    count = last - first + 1
    if count < 1:
        return [high if down else low]
    # All of a short span, else ever wider steps from the near end.
    steps = list(range(min(count, 8)))
    steps += [count * part // 16 for part in range(1, 16) if count > 8]
    ends = [last - step if down else first + step for step in dict.fromkeys(steps)]
    return [Length(end * mark) for end in ends if end > 0]
