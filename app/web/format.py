"""How values read on a page: the filters of every template."""

from __future__ import annotations

from datetime import date, datetime
from functools import cache
from zoneinfo import ZoneInfo

import nh3
from flask import Blueprint
from markdown_it import MarkdownIt
from markupsafe import Markup

from app.core.angle import Angle
from app.core.film_time import film_time as core_film_time
from app.core.length import Length, Shown, Unit, show
from app.core.measure import in_board_feet, in_litres
from app.core.money import Money
from app.core.size import Kind, Size
from app.web import here

bp = Blueprint("format", __name__)

TAGS = {
    *("p", "br", "em", "strong", "s", "code", "pre", "blockquote", "hr"),
    *("ul", "ol", "li", "h1", "h2", "h3", "h4", "a"),
    *("table", "thead", "tbody", "tr", "th", "td"),
}


@bp.app_template_filter()
def drawn(picture: str) -> Markup:
    """A drawing of `publish.svg` as markup: the pen has escaped its every text."""
    return Markup(picture)  # noqa: S704  never text that a person typed


@bp.app_template_filter()
def measure(length: Length | None) -> Markup:
    """A length in the workspace's display, with what rounding hid in quiet."""
    if length is None:
        return Markup("–")
    return _set(show(length, here.shop().display))


def _set(shown: Shown) -> Markup:
    pieces = Markup(
        '<span class="measure"><span class="whole"><b>{}</b> <small>{}</small></span>'
    ).format(figure(shown), shown.unit)
    if shown.other:
        pieces += Markup(' <span class="other">({})</span>').format(shown.other)
    if shown.note:
        pieces += Markup(' <span class="hid">({})</span>').format(shown.note)
    return pieces + Markup("</span>")


def figure(shown: Shown) -> Markup:
    """The number alone, its fraction set as one."""
    number = shown.whole
    if shown.numerator:
        sign = "−" if shown.numerator.startswith("-") else ""
        top = shown.numerator.lstrip("-")
        fraction = Markup('<span class="frac">{}/{}</span>').format(
            top, shown.denominator
        )
        space = " " if number else ""
        number = Markup("{}{}{}{}").format(number, space, sign, fraction)
    return Markup("{}").format(number).replace("-", "−", 1)


@bp.app_template_filter()
def sized(size: Size) -> Markup:
    """Any computed size, set like the lengths beside it."""
    display = here.shop().display
    if isinstance(size.value, Length):
        gauged = size.in_decimals(display)
        return _gauged(size.text(display)) if gauged else measure(size.value)
    if isinstance(size.value, Angle):
        return Markup('<span class="measure"><b>{}</b></span>').format(size.value)
    if size.kind is Kind.MONEY:
        return Markup('<span class="measure"><b>{}</b></span>').format(
            money(int(size.value))
        )
    if size.kind is Kind.VOLUME and not size.unit:
        return Markup('<span class="measure"><b>{}</b></span>').format(
            volume(int(size.value))
        )
    text = size.text(display)
    # Areas and volumes are shown in another unit than the one they are kept in.
    number, _, unit = text.partition(" ") if size.unit else (text, "", "")
    return _figure(number, unit)


def _gauged(text: str) -> Markup:
    """``0.012 in (0.30 mm)``: the other system stays with the unit."""
    number, _, unit = text.partition(" ")
    return _figure(number, unit)


def _figure(number: str, unit: str) -> Markup:
    """A number with its unit small behind it."""
    return Markup('<span class="measure"><b>{}</b> <small>{}</small></span>').format(
        number, unit
    )


@bp.app_template_filter()
def volume(nm3: int) -> str:
    """Wood by volume: board feet in an inch shop, litres in a metric one."""
    if here.shop().unit is Unit.MILLIMETRE:
        return in_litres(nm3)
    return in_board_feet(nm3)


@bp.app_template_filter()
def money(minor: int) -> str:
    """An amount in the workspace's currency."""
    return str(Money(minor, here.shop().currency))


@bp.app_template_filter()
def day(on: date | None) -> str:
    """A date in words: 2 March 2026."""
    return "" if on is None else f"{on.day} {on:%B %Y}"


@bp.app_template_filter()
def moment(at: datetime | None, zone: str = "") -> str:
    """A moment on the workspace's clock: 2 March 2026, 14:05."""
    if at is None:
        return ""
    local = at.astimezone(ZoneInfo(zone or here.settings().zone))
    return f"{day(local.date())}, {local:%H:%M}"


@bp.app_template_filter()
def film_time(ms: int | None) -> str:
    """A time in the film: m:ss or h:mm:ss."""
    return "" if ms is None else core_film_time(ms)


@cache
def _markdown() -> MarkdownIt:
    return MarkdownIt("commonmark", {"html": False}).enable(["table", "strikethrough"])


@bp.app_template_filter()
def markdown(text: str) -> Markup:
    """A note's Markdown as clean HTML; raw HTML in it stays text."""
    # The page's own h1 and h2 stay the only ones.
    html = _markdown().render(text)
    for level in (4, 3, 2, 1):
        html = html.replace(f"<h{level}>", f"<h{min(level + 2, 6)}>")
        html = html.replace(f"</h{level}>", f"</h{min(level + 2, 6)}>")
    clean = nh3.clean(
        html,
        tags=TAGS | {"h5", "h6"},
        attributes={"a": {"href", "title"}},
        url_schemes={"http", "https"},
        link_rel="noopener noreferrer",
    )
    return Markup(clean)  # noqa: S704 - cleaned on the line above
