"""Thick stock resawn on edge into thinner boards: offered as those boards.

A piece of stock becomes so many boards of its own face, each a stock of its own
with its share of the money. Either all of them are sawn or none: a plan in which
one is left over has it as an offcut, so that money and wood add up.
"""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, replace

from app.core.cutting.fit import suits
from app.core.cutting.job import Area, Blank, Job, Resaw, Stock
from app.core.cutting.order import in_order
from app.core.cutting.plan import Layout, Leftover, Plan
from app.core.length import Length
from app.core.volume import share

MOST_BOARDS = 4  # of one piece; thinner ones are veneer
_ID = re.compile(r"(.+) resawn ([1-9])/([1-9])")
_ORDINALS = ("first", "second", "third", "fourth")


@dataclass(frozen=True, slots=True)
class Resawn:
    """One kind of stock to resaw: ``quantity`` pieces into ``boards`` each.

    ``thickness`` is each board's once both its faces are flat.
    """

    stock: str
    quantity: int
    boards: int
    thickness: Length


def piece_of(stock_id: str) -> tuple[str, int, int] | None:
    """Stock, which board of it, of how many; None where it is not resawn."""
    found = _ID.fullmatch(stock_id)
    return (found[1], int(found[2]), int(found[3])) if found else None


def whole(stock_id: str) -> str:
    """The stock that a board came out of; itself where it is not resawn."""
    made = piece_of(stock_id)
    return made[0] if made else stock_id


def pieces(plan: Plan) -> Counter[str]:
    """How many whole pieces of each stock a plan takes, in the plan's order."""
    found: Counter[str] = Counter()
    for layout in plan.layouts:
        made = piece_of(layout.stock)
        if made is None or made[1] == 1:
            found[whole(layout.stock)] += layout.copies
    return found


def thickness(stock: Stock, boards: int, resaw: Resaw) -> Length | None:
    """What each board measures flat; None where the saw or the wood says no."""
    if stock.thickness is None or stock.width is None or stock.width > resaw.height:
        return None
    each = (stock.thickness.nm - (boards - 1) * resaw.kerf.nm) // boards
    flat = each - resaw.allowance.nm
    return Length(flat) if flat > 0 else None


def counts(stock: Stock, job: Job) -> tuple[int, ...]:
    """Into how many boards it may be resawn so that a blank of the job comes of it."""
    if job.resaw is None or piece_of(stock.id) or _is_pinned(stock.id, job):
        return ()
    return tuple(
        boards
        for boards in range(2, MOST_BOARDS + 1)
        if (flat := thickness(stock, boards, job.resaw))
        and any(suits(replace(stock, thickness=flat), x, job.plane) for x in job.blanks)
    )


def _is_pinned(stock_id: str, job: Job) -> bool:
    return any(pin.stock == stock_id for pin in job.pins)


def resawn(job: Job, choice: Mapping[str, int]) -> Job:
    """The job with these stocks, by id, as so many boards each.

    Each stays in the list with a quantity of nothing: it is what is bought or taken.
    """
    if not choice or job.resaw is None:
        return job
    stock: list[Stock] = []
    for one in job.stock:
        boards = choice.get(one.id, 1)
        if boards > 1:
            stock += [replace(one, quantity=0), *_boards(one, boards, job.resaw)]
        else:
            stock.append(one)
    return replace(job, stock=tuple(stock), blanks=_bound(job, choice))


def _boards(stock: Stock, boards: int, resaw: Resaw) -> list[Stock]:
    flat = thickness(stock, boards, resaw)
    costs: list[int | None] = [None] * boards
    if stock.cost is not None:
        costs = [*share(stock.cost, [1] * boards)]
    return [
        replace(
            stock,
            id=f"{stock.id} resawn {number}/{boards}",
            name=f"{stock.name or stock.id}, {_ORDINALS[number - 1]} of {boards}",
            thickness=flat,
            cost=cost,
        )
        for number, cost in enumerate(costs, 1)
    ]


def _bound(job: Job, choice: Mapping[str, int]) -> tuple[Blank, ...]:
    """Blanks bound to stock that is resawn are bound to the boards that come of it."""
    return tuple(
        replace(
            blank,
            only=tuple(
                f"{key} resawn {number}/{choice[key]}" if key in choice else key
                for key in blank.only
                for number in range(1, choice.get(key, 1) + 1)
            ),
        )
        for blank in job.blanks
    )


def choice_of(job: Job) -> dict[str, int]:
    """Which stocks this job has resawn, into how many boards each."""
    found = (piece_of(one.id) for one in job.stock)
    return {one[0]: one[2] for one in found if one}


def evened(plan: Plan) -> Plan:
    """The same plan in which every piece that is resawn is used as a whole.

    Its boards are alike, so it does not matter which is which; one that nothing
    is cut from is left over as it is.
    """
    families = choice_of(plan.job)
    if not families:
        return plan
    rest: list[Layout] = []
    ours: dict[str, list[Layout]] = defaultdict(list)
    for layout in plan.layouts:
        made = piece_of(layout.stock)
        if made:
            ours[made[0]].append(layout)
        else:
            rest.append(layout)
    for key, layouts in ours.items():
        rest += _dealt(plan.job, key, families[key], layouts)
    return in_order(replace(plan, layouts=tuple(rest)))


def _dealt(job: Job, key: str, boards: int, layouts: list[Layout]) -> list[Layout]:
    """Layouts dealt out to the first, second … boards, as many of each."""
    used = sum(layout.copies for layout in layouts)
    pieces = -(-used // boards)
    spare = pieces * boards - used
    all_of_them = [*layouts, *([_uncut(job, layouts[-1], spare)] if spare else [])]
    dealt: list[Layout] = []
    number, room = 1, pieces
    for layout in all_of_them:
        left = layout.copies
        while left:
            copies = min(left, room)
            stock = f"{key} resawn {number}/{boards}"
            dealt.append(replace(layout, stock=stock, copies=copies))
            left, room = left - copies, room - copies
            if not room:
                number, room = number + 1, pieces
    return dealt


def _uncut(job: Job, like: Layout, copies: int) -> Layout:
    stock = next(one for one in job.stock if one.id == like.stock)
    width = stock.width or Length(0)
    whole = Area(Length(0), Length(0), stock.length, width)
    keep = stock.length >= job.keep.length and width >= job.keep.width
    return Layout(like.stock, copies, (), (Leftover(whole, keep),), (), like.period)


def told(plan: Plan) -> tuple[Resawn, ...]:
    """What is to be resawn before the plan is cut."""
    used: Counter[str] = Counter()
    for layout in plan.layouts:
        made = piece_of(layout.stock)
        if made and made[1] == 1:
            used[made[0]] += layout.copies
    stock = {one.id: one for one in plan.job.stock}
    found = []
    for key, boards in choice_of(plan.job).items():
        flat = stock[f"{key} resawn 1/{boards}"].thickness
        if used[key] and flat is not None:
            found.append(Resawn(key, used[key], boards, flat))
    return tuple(found)
