"""How the sizes of one piece read together: each number once, each unit once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from flask import Blueprint
from markupsafe import Markup

from app.core.length import Length, Shown, Unit, show
from app.core.part import Dimensions
from app.web import here
from app.web.format import figure

bp = Blueprint("dimensions", __name__)

NAMES = ("thickness", "width", "length")
NOTE = "true size "


@bp.app_template_filter()
def dimensions(size: Dimensions | Iterable[Length | None]) -> Markup:
    """``13/16 × 1 7/8 × 12 25/32 in``, behind it the same in the other system.

    Takes a piece's dimensions, or thickness, width and length; the first may be
    left out, and what is not known (None) is left out of the line. What rounding
    hid is said last, by the name of the size it was hidden from.
    """
    named = {name: length for name, length in _named(size) if length is not None}
    if not named:
        return Markup("–")
    display = here.shop().display
    own = [show(length, replace(display, both=False)) for length in named.values()]
    line = Markup('<span class="dimensions">') + _line(own, bold=True)
    if display.both:
        other = Unit.MILLIMETRE if display.unit is Unit.INCH else Unit.INCH
        lengths = named.values()
        shown = [show(one, replace(display, unit=other, both=False)) for one in lengths]
        line += Markup(' <span class="other">({})</span>').format(_line(shown))
    if hid := _hid(named, own):
        line += Markup(' <span class="hid">({})</span>').format(hid)
    return line + Markup("</span>")


def _named(
    size: Dimensions | Iterable[Length | None],
) -> Iterable[tuple[str, Length | None]]:
    if isinstance(size, Dimensions):
        size = (size.thickness, size.width, size.length)
    lengths = tuple(size)
    return zip(NAMES[-len(lengths) :], lengths, strict=True)


def _line(shown: list[Shown], *, bold: bool = False) -> Markup:
    """Numbers that break only behind a cross, the last one held to its unit."""
    number = Markup("<b>{}</b>") if bold else Markup("{}")
    last = Markup('<span class="whole">{} <small>{}</small></span>').format(
        number.format(figure(shown[-1])), shown[-1].unit
    )
    before = [
        Markup('<span class="whole">{} ×</span>').format(number.format(figure(one)))
        for one in shown[:-1]
    ]
    return Markup(" ").join([*before, last])


def _hid(named: dict[str, Length], shown: list[Shown]) -> str:
    """``true length 0.008 more``, of each size that rounding changed."""
    notes = [
        f"{name} {one.note.removeprefix(NOTE)}"
        for name, one in zip(named, shown, strict=True)
        if one.note
    ]
    return f"true {', '.join(notes)}" if notes else ""
