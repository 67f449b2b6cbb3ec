"""The one number that a folded group of sizes tells beside its title."""

from __future__ import annotations

from app.core.design import Design
from app.core.length import Length
from app.core.shop import Shop
from app.core.size import Group, Size


def gist(group: Group, design: Design, shop: Shop) -> str:
    """What the group comes to, in a few words; empty where nothing is telling."""
    sizes = [size for size in design.sizes if size.group is group]
    tells = {Group.SURE: _sure, Group.MOVES: _moves, Group.TAKES: _takes}
    return tells[group](sizes, shop) if group in tells else ""


def _sure(sizes: list[Size], shop: Shop) -> str:
    for size in sizes:
        if size.key == "closing_gap_at_0_1_degree":
            return f"0.1° opens {size.text(shop.display)}"
        if size.key == "shelf_sag_after_years":
            return f"a shelf sags {size.text(shop.display)}"
    return ""


def _moves(sizes: list[Size], shop: Shop) -> str:
    """The size that moves most, and which way it does."""
    found = [
        (size.value, word, size)
        for size in sizes
        for word in ("swells", "shrinks")
        if size.key.endswith(f"_{word}") and isinstance(size.value, Length)
    ]
    if not found:
        return ""
    _, word, size = max(found, key=lambda one: one[0].nm)
    name = size.label.split(":")[0].split(",")[0]
    return f"{name.lower()} {word} {size.text(shop.display)}"


def _takes(sizes: list[Size], shop: Shop) -> str:
    """The wood to fetch, as the shop buys it."""
    inch = shop.unit.value == "in"
    wanted = "rough_board_feet" if inch else "rough_cubic_metres"
    for size in sizes:
        if size.key == wanted:
            number, _, unit = size.text(shop.display).partition(" ")
            return f"{float(number.replace(',', '')):.2g} {unit}, rough"
    return ""
