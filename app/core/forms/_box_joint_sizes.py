"""What the corner joint of a box comes to."""

from __future__ import annotations

from fractions import Fraction

from app.core.angle import Angle
from app.core.forms._book import TRADE, Book
from app.core.forms._box import Box
from app.core.forms._box_fingers import Fingers
from app.core.size import Size


def joint_sizes(box: Box, book: Book) -> list[Size]:
    """Fingers, corner rebates or bevels, each with its working."""
    if box.fingers:
        return _fingers(box, box.fingers, book)
    if box.joint == "rebate":
        return _rebate(box, book)
    return [
        book.angle(
            "edge_bevel",
            "Bevel on both ends of every wall",
            Angle.of(45),
            "half of a square corner, from a square cut",
            "90° / 2",
        )
    ]


def _fingers(box: Box, fingers: Fingers, book: Book) -> list[Size]:
    show = book.show
    high, cutter = show(fingers.height), show(fingers.cutter)
    more = "" if fingers.exact else _overlapping(fingers, book)
    return [
        book.count(
            "finger_count",
            "Fingers up each corner",
            fingers.count,
            "the largest odd number of equal fingers in the height of the walls that "
            "are none of them narrower than asked: the sides have one more than the "
            "ends, and both edges look alike",
            f"{high} / {show(fingers.asked)} = "
            f"{float(Fraction(fingers.height.nm, fingers.asked.nm)):.4g}, down to "
            f"{fingers.count}",
            TRADE,
        ),
        book.length(
            "finger_width",
            "Width of each finger, and of each notch",
            fingers.width,
            "height of the walls divided by the fingers; at least the cutter" + more,
            f"{high} / {fingers.count}, cutter {cutter}",
        ),
        *_notches(box, fingers, book),
    ]


def _notches(box: Box, fingers: Fingers, book: Book) -> list[Size]:
    """How each notch is cut."""
    show, passes, cutter = book.show, fingers.passes, book.show(fingers.cutter)
    return [
        book.count(
            "finger_passes",
            "Passes of the cutter for each notch",
            passes,
            "finger width divided by the cutter, rounded up"
            + ("" if fingers.exact else "; the last two overlap"),
            f"{show(fingers.width)} / {cutter}",
        ),
        book.length(
            "finger_shim",
            "Shim for the last pass of a notch",
            fingers.shim,
            "finger width less the cutter; none where one pass makes the notch",
            f"{show(fingers.width)} - {cutter}",
        ),
        book.length(
            "finger_cut",
            "Height of the cutter for the fingers",
            box.wall + box.whisker,
            "wall and a whisker more, to be sanded off",
            f"{show(box.wall)} + {show(box.whisker)}",
            TRADE,
        ),
    ]


def _overlapping(fingers: Fingers, book: Book) -> str:
    """What height would need no overlapping passes."""
    even = book.show(fingers.smooth_height)
    return (
        ". The height is no whole number of passes, so they overlap; walls "
        f"{even} high would need none"
    )


def _rebate(box: Box, book: Book) -> list[Size]:
    show = book.show
    return [
        book.length(
            "rebate_width",
            f"Corner rebates in the {box.rebate_on}: width, along the wall",
            box.wall,
            "the thickness of the wall that sits in it",
            show(box.wall),
        ),
        book.length(
            "rebate_depth",
            "Corner rebates: depth, into the wall",
            box.rebate_depth,
            "as asked, or half the wall",
            show(box.rebate_depth),
            TRADE,
        ),
        book.length(
            "rebate_lip",
            "Lip that is left and hides the end grain",
            box.wall - box.rebate_depth,
            "wall less the rebate's depth",
            f"{show(box.wall)} - {show(box.rebate_depth)}",
        ),
    ]
