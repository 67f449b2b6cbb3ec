"""What the strips of a pattern come to: sizes and tables."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from app.core.forms._bench import shop_text
from app.core.forms._book import Book
from app.core.pattern import Column, Cut, Panel, Way
from app.core.shop import Shop
from app.core.size import Group, Kind, Size
from app.core.table import Table

ARITHMETIC = "plane arithmetic"


def panel_sizes(ways: Sequence[Way], cut: Cut, shop: Shop) -> tuple[Size, ...]:
    """Distinct panels, strips and their wood, for the way that takes least."""
    best, show = ways[0], Book(shop).show
    strips = best.strips
    return (
        Size(
            "panel_count",
            "Panels to glue up",
            Kind.COUNT,
            best.count,
            f"{best.name.lower()}, none longer than {show(cut.longest)}",
            " + ".join(str(panel.quantity) for panel in best.panels),
            ARITHMETIC,
            group=Group.TAKES,
        ),
        Size(
            "strips_to_rip",
            "Strips to rip",
            Kind.COUNT,
            strips.total(),
            "rows times panels",
            " + ".join(f"{count} {name}" for name, count in strips.items()),
            ARITHMETIC,
            group=Group.TAKES,
        ),
        _wood(best, shop),
    )


def _wood(way: Way, shop: Shop) -> Size:
    return Size(
        "panel_wood",
        "Wood in the strips, before they are jointed",
        Kind.VOLUME,
        way.wood,
        "for every panel its strips, each length × width × thickness of the blank",
        " + ".join(
            f"{panel.quantity * len(panel.column)} × {shop_text(panel.length, shop)} "
            "long"
            for panel in way.panels
        ),
        ARITHMETIC,
        "nm3",
        Group.TAKES,
    )


def panel_tables(
    ways: Sequence[Way], shop: Shop, side: str = "Side"
) -> tuple[Table, ...]:
    """The panels with their strips and sides; the ways compared, if there are two."""
    found = [_panels(ways[0].panels, shop, side)]
    if len(ways) > 1:
        found.append(_ways(ways, shop))
    return tuple(found)


def _panels(panels: Sequence[Panel], shop: Shop, side: str) -> Table:
    return Table(
        key="panels",
        title="Panels to glue up",
        headings=("Panel", "Make", "Strips, from the bottom up", "Long", f"{side}s"),
        rows=tuple(
            (
                panel.letter,
                str(panel.quantity),
                strips_told(panel.column),
                shop_text(panel.length, shop),
                _sides(panel),
            )
            for panel in panels
        ),
        working=f"{side}s with the same strips in the same order come from one panel; "
        "length = pieces, a kerf between two, and over size by",
        source=ARITHMETIC,
        group=Group.TAKES,
    )


def strips_told(column: Column) -> str:
    """``2 walnut, 1 maple``: the strips as they lie, bottom up."""
    runs = ((len(list(same)), name) for name, same in groupby(column))
    return ", ".join(f"{count} {name}" for count, name in runs)


def _sides(panel: Panel) -> str:
    upright = [str(i + 1) for i in panel.sides if i not in panel.turned]
    told = [", ".join(upright)] if upright else []
    if panel.turned:
        turned = ", ".join(str(i + 1) for i in panel.turned)
        told.append(f"turned upside down: {turned}")
    if panel.spares:
        told.append(f"{panel.spares} spare")
    return "; ".join(told)


def _ways(ways: Sequence[Way], shop: Shop) -> Table:
    return Table(
        key="panel_ways",
        title="Ways to glue them up",
        headings=("Way", "Panels", "Strips", "Wood", "More than the least"),
        rows=tuple(
            (
                way.name,
                str(way.count),
                str(way.strips.total()),
                _wood(way, shop).text(shop.display),
                _more(way, ways[0]) if way is not ways[0] else "the way taken",
            )
            for way in ways
        ),
        working="strips before they are jointed; of ways that take the same wood the "
        "one with fewer panels",
        source=ARITHMETIC,
        group=Group.TAKES,
    )


def _more(way: Way, best: Way) -> str:
    more = (way.wood - best.wood) * 1000 // best.wood
    return f"{more / 10:g} %"
