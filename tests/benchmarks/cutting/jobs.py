"""Everyday jobs, made by chance from a seed; sizes in 1/64 inch, money in cents."""

from __future__ import annotations

from random import Random

from tests.core.cutting.published import Instance

INCH, FOOT, KERF = 64, 768, 8
KEEP = {"length": 12 * INCH, "width": 2 * INCH}
# Widths of boards between their edges, in eighths of an inch.
WIDTHS = (28, 36, 44, 58, 74, 90)


def rack(seed: int) -> Instance:
    """30 blanks of 8 kinds, 6 boards with prices and 10 offcuts."""
    dice = Random(f"rack {seed}")
    items = _blanks(dice, 8, 30)
    stock = [_board(dice, dice.randint(6, 10), dice.choice(WIDTHS[2:]), 1)]
    needed = _area(items) * 3 // 2
    while _area(stock) < needed or len(stock) < 6:
        if len(stock) == 6:
            stock.remove(min(stock, key=lambda one: one["length"] * one["width"]))
        stock.append(_board(dice, dice.randint(7, 12), dice.choice(WIDTHS[3:]), 1))
    offcuts = [_offcut(dice) for _ in range(10)]
    return _job(f"rack-{seed}", stock + offcuts, items)


def catalogue(seed: int, pieces: int) -> Instance:
    """Blanks of many kinds out of a dealer's boards, as many as wanted."""
    dice = Random(f"catalogue {seed} {pieces}")
    feet = dice.sample([6, 7, 8, 10, 12], 2)
    stock = [_board(dice, long, wide, None) for long in feet for wide in WIDTHS]
    items = _blanks(dice, min(40, pieces // 8), pieces)
    return _job(f"catalogue-{pieces}-{seed}", stock, items)


def lengths(seed: int, pieces: int) -> Instance:
    """Blanks of many lengths out of sticks of several lengths, as many as wanted."""
    dice = Random(f"lengths {seed} {pieces}")
    stock = []
    for feet in sorted(dice.sample(range(6, 17), 5)):
        cost = round(feet * 110 * dice.uniform(0.9, 1.1))
        one = {"length": feet * FOOT, "quantity": None, "cost": cost}
        stock.append(one)
    items = [
        {"length": one["length"], "quantity": one["quantity"]}
        for one in _blanks(dice, min(40, pieces // 8), pieces)
    ]
    return _job(f"lengths-{pieces}-{seed}", stock, items) | {"kind": "1d"}


def _job(name: str, stock: list[Instance], items: list[Instance]) -> Instance:
    return {
        "name": name,
        "kind": "2d",
        "kerf": KERF,
        "keep_min": KEEP,
        "stock": stock,
        "items": items,
    }


def _board(dice: Random, feet: int, eighths: int, quantity: int | None) -> Instance:
    length, width = feet * FOOT, eighths * 8
    # A wide board costs more for its size: common practice, no source.
    rate = (0.9 + eighths / 300) * dice.uniform(0.95, 1.05) * 8 / 144 / 64**2 * 100
    cost = round(length * width * rate)
    return {"length": length, "width": width, "quantity": quantity, "cost": cost}


def _offcut(dice: Random) -> Instance:
    length = dice.randint(12, 40) * INCH
    width = dice.randint(16, 60) * 8
    return {"length": length, "width": width, "quantity": 1, "cost": 0}


def _blanks(dice: Random, kinds: int, pieces: int) -> list[Instance]:
    numbers = [1] * kinds
    for _ in range(pieces - kinds):
        numbers[dice.randrange(kinds)] += 1
    return [
        {
            "length": dice.randint(16, 160) * 16,
            "width": dice.randint(6, 22) * 16,
            "quantity": number,
        }
        for number in numbers
    ]


def _area(found: list[Instance]) -> int:
    return sum(one["length"] * one["width"] * (one["quantity"] or 1) for one in found)
