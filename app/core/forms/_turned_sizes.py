"""Sizes that rings and staves share: at the lathe, and of two halves."""

from __future__ import annotations

from fractions import Fraction

from app.core.angle import Angle
from app.core.forms._book import Book
from app.core.forms._turned import Flats, Profile, through_corners
from app.core.size import Group, Kind, Size

# The setting error that is told of, degrees: as the last joint's table does.
ERROR = Fraction(1, 10)


def lathe(book: Book, flats: Flats, sawn: int, profile: Profile) -> list[Size]:
    """What it must swing, what is left and what becomes chips.

    ``flats`` are those whose corners lie furthest out, ``sawn`` the glued blank in
    nm³.
    """
    left = round(profile.volume)
    shown, whole, outside, hollow = (
        book.volume("", "", one, "").text(book.shop.display)
        for one in (left, sawn, profile.outer_volume, profile.hollow)
    )
    return [
        book.length(
            "swing",
            "The lathe must swing at least",
            through_corners(flats),
            "the circle through the outermost corners of the glued blank: across the "
            "widest flats / cos(180° / sides)",
            f"{book.show(flats[0])} / cos(180°/{flats[1]})",
        ),
        book.volume(
            "turned_volume",
            "Wood left when it is turned",
            left,
            "within the outside less the hollow over the bottom; each between two "
            "levels π/12 × height × (low² + low × high + high²) of its diameters",
            f"{outside} - {hollow}",
            source="solid geometry",
        ),
        book.volume(
            "turned_away",
            "Turned away",
            sawn - left,
            "the glued blank less the turned piece",
            f"{whole} - {shown}",
            source="solid geometry",
        ),
    ]


def halves(count: int) -> list[Size]:
    """How far a glued half is from half a turn; none where there are no halves."""
    if count % 2:
        return []
    return [
        Size(
            "half_off_at_0_1_degree",
            "A glued half is off a straight line, were every end off by 0.1°",
            Kind.ANGLE,
            Angle(count * ERROR),
            "half the pieces, two ends each: pieces × error; truing the halves takes "
            "it out",
            f"{count} × 0.1°",
            group=Group.SURE,
        )
    ]
