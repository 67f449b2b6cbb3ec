"""The ring's sizes, each with its working, and the table of the stack."""

from __future__ import annotations

from fractions import Fraction

from app.core import closing
from app.core.forms import _turned_sizes as shared
from app.core.forms._book import TRADE, Book
from app.core.forms._common import Closing
from app.core.forms._ring import Ring, Stack
from app.core.length import Length
from app.core.shop import Shop
from app.core.size import Group, Size
from app.core.table import Table


def sizes(stack: Stack, asked: Closing, shop: Shop) -> tuple[Size, ...]:
    """Every size, in the order they are used; of a stack, those of its lowest ring."""
    book = Book(shop)
    return (
        book.angle(
            "gauge_angle",
            "Mitre gauge for every segment, from a square crosscut",
            stack.gauge,
            "180° divided by the segments",
            f"180° / {stack.segments}",
        ),
        *_circles(book, stack),
        *_segment(book, stack),
        *_strip(book, stack),
        *_stacked(book, stack),
        *shared.lathe(book, stack.outermost, stack.sawn_volume, stack.profile),
        *closing.sizes(
            stack.widest.outer_edge,
            stack.segments,
            asked.widest_gap,
            asked.width_spread,
            shop,
        ),
        *shared.halves(stack.segments),
    )


def _of(stack: Stack) -> str:
    return ", lowest ring" if len(stack.rings) > 1 else ""


def _circles(book: Book, stack: Stack) -> list[Size]:
    ring, show = stack.rings[0], book.show
    both = f"2 × {show(stack.turning)}"
    outside, inside = ring.outside - stack.turning * 2, ring.inside + stack.turning * 2
    span = (
        "largest turned outside over the ring's height"
        if stack.shaped
        else ("turned outside")
    )
    least = "smallest turned inside over it" if stack.shaped else "turned inside"
    return [
        book.length(
            "glued_outside",
            f"Glued ring, across the outer flats{_of(stack)}",
            ring.outside,
            f"{span} and the turning allowance on both sides",
            f"{show(outside)} + {both}",
        ),
        book.length(
            "glued_inside",
            f"Glued ring, through the inner corners{_of(stack)}",
            ring.inside,
            f"{least} less the turning allowance on both sides",
            f"{show(inside)} - {both}",
        ),
    ]


def _segment(book: Book, stack: Stack) -> list[Size]:
    ring, show = stack.rings[0], book.show
    part, name = f"180°/{stack.segments}", _of(stack)
    outside, inside = show(ring.outside), show(ring.inside)
    return [
        book.length(
            "segment_outer_edge",
            f"Segment, outer edge{name}",
            ring.outer_edge,
            f"across the outer flats times tan({part})",
            f"{outside} × tan({part})",
        ),
        book.length(
            "segment_inner_edge",
            f"Segment, inner edge{name}",
            ring.inner_edge,
            f"through the inner corners times sin({part})",
            f"{inside} × sin({part})",
        ),
        book.length(
            "segment_width",
            f"Segment, edge to edge: the strip's width{name}",
            ring.width,
            f"half of: across the outer flats less the inner corners times cos({part})",
            f"({outside} - {inside} × cos({part})) / 2",
        ),
    ]


def _strip(book: Book, stack: Stack) -> list[Size]:
    ring, show, count = stack.rings[0], book.show, stack.segments
    outer, inner = show(ring.outer_edge), show(ring.inner_edge)
    over = stack.allowances.of("segment").thickness
    return [
        book.length(
            "strip_length",
            f"Strip for all segments of a ring, before trim{_of(stack)}",
            ring.strip(count, stack.kerf),
            "segments turned end for end: segments times the mean of both edges, a "
            f"slanting kerf, kerf / cos(180°/{count}), between two, and half the "
            "difference of the edges for the slant of the ends",
            f"{count} × ({outer} + {inner}) / 2 + {count - 1} × {show(stack.kerf)} / "
            f"cos(180°/{count}) + ({outer} - {inner}) / 2",
        ),
        book.length(
            "strip_thickness",
            "Strip, planed over thickness",
            ring.thickness + over,
            "thickness of a ring and over size by: the faces are flattened when glued",
            f"{show(ring.thickness)} + {show(over)}",
            TRADE,
        ),
    ]


def _stacked(book: Book, stack: Stack) -> list[Size]:
    if not stack.shaped and stack.bottom is None:
        return []
    show, profile = book.show, stack.profile
    room = f"{show(profile.height)} - {show(profile.floor)}"
    found = [
        book.count(
            "rings",
            "Rings",
            len(stack.rings),
            "height less the bottom, divided by the thickness of a ring, rounded up",
            f"({room}) / {show(stack.thickness)}",
        ),
        book.length(
            "turned_height",
            "Height, turned",
            profile.height,
            "the highest level" if stack.shaped else "bottom and ring",
            show(profile.height),
        ),
    ]
    if stack.bottom is not None:
        found.append(
            book.length(
                "bottom_across",
                "Bottom, across its flats, as sawn",
                stack.bottom.across,
                "largest turned outside over its thickness and the turning allowance "
                "on both sides",
                f"{show(stack.bottom.across - stack.turning * 2)} + 2 × "
                f"{show(stack.turning)}",
            )
        )
    return found


def tables(stack: Stack, asked: Closing, shop: Shop) -> tuple[Table, ...]:
    """How sure the last joint is, and every ring of a stack."""
    sure = closing.table(
        stack.widest.outer_edge, stack.segments, shop, widest_gap=asked.widest_gap
    )
    return (_rings(stack, shop), sure) if len(stack.rings) > 1 else (sure,)


def _rings(stack: Stack, shop: Shop) -> Table:
    return Table(
        key="rings",
        title="The rings from the bottom up",
        headings=(
            *("Ring", "From", "Outer flats", "Inner corners", "Outer edge"),
            *("Inner edge", "Width", "Strip in all", "Species"),
        ),
        rows=tuple(_row(stack, ring, shop) for ring in stack.rings),
        working="each ring holds the largest outside and the smallest inside of the "
        "profile over its height, with the turning allowance; outer edge = flats × "
        f"tan(180°/{stack.segments}), inner edge = corners × "
        f"sin(180°/{stack.segments})",
        group=Group.BUILD,
    )


def _row(stack: Stack, ring: Ring, shop: Shop) -> tuple[str, ...]:
    show = Book(shop).show
    lengths: tuple[Length, ...] = (
        *(ring.low, ring.outside, ring.inside, ring.outer_edge, ring.inner_edge),
        *(ring.width, ring.strip(stack.segments, stack.kerf)),
    )
    return str(ring.number), *map(show, lengths), told(ring.woods)


def told(woods: tuple[str, ...]) -> str:
    """The species round a ring: ``walnut``, or as often as they repeat."""
    for length in range(1, len(woods) + 1):
        if len(woods) % length == 0 and woods == woods[:length] * (
            len(woods) // length
        ):
            times = len(woods) // length
            names = ", ".join(woods[:length])
            return names if length == 1 or times == 1 else f"{times} × ({names})"
    return ", ".join(woods)


def share_left(stack: Stack) -> Fraction:
    """How much of the glued blank stays, of 1."""
    return stack.profile.volume / stack.sawn_volume
