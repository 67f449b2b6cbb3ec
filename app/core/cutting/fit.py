"""Which blank may come out of which stock, and in words why one may not."""

from __future__ import annotations

from dataclasses import replace

from app.core.cutting.job import Blank, Job, Machine, Saw, Stock
from app.core.cutting.plan import Direction
from app.core.length import Length, show


def suits(stock: Stock, blank: Blank, plane: Length) -> bool:
    """Whether species and thickness allow it. What is not given fits anything.

    A blank that is bound to certain stock suits no other.
    """
    if blank.only and stock.id not in blank.only:
        return False
    if stock.species and blank.species and stock.species != blank.species:
        return False
    if stock.thickness is None or blank.thickness is None:
        return True
    return Length(0) <= stock.thickness - blank.thickness <= plane


def trims(stock: Stock, saw: Saw) -> tuple[int, int]:
    """What comes off each end and each edge of this stock, nm.

    Nothing comes off what was trimmed before, nor off an edge without widths.
    """
    if stock.trimmed:
        return 0, 0
    return saw.end_trim.nm, saw.edge_trim.nm if stock.width else 0


def clear(stock: Stock, job: Job) -> tuple[int, int]:
    """Length and width between the trims, nm; the width is 1 without widths.

    Neither is below zero: such stock is all trim.
    """
    end, edge = trims(stock, job.saw)
    length = max(stock.length.nm - 2 * end, 0)
    if stock.width is None:
        return length, 1
    return length, max(stock.width.nm - 2 * edge, 0)


def ways(blank: Blank) -> tuple[tuple[int, int, bool], ...]:
    """How a blank may lie: along the grain, across it, and whether turned; nm."""
    if blank.width is None:
        return ((blank.length.nm, 1, False),)
    straight = (blank.length.nm, blank.width.nm, False)
    if not blank.may_turn or blank.length == blank.width:
        return (straight,)
    return (straight, (blank.width.nm, blank.length.nm, True))


def fits(stock: Stock, blank: Blank, job: Job) -> bool:
    """Whether one blank finds room on one untouched piece of this stock."""
    length, width = clear(stock, job)
    return any(along <= length and across <= width for along, across, _ in ways(blank))


def within_limits(
    direction: Direction, box: tuple[int, int, int, int], machine: Machine
) -> bool:
    """Whether the saw takes this cut through this box: x, y, length, width; nm."""
    _, _, length, width = box
    across = direction is Direction.CROSSCUT
    longest = machine.longest_crosscut if across else machine.longest_rip
    if longest is not None and (width if across else length) > longest.nm:
        return False
    return length >= (machine.shortest_piece or Length(0)).nm


def why_not(blank: Blank, job: Job) -> str:
    """The sentence that says why a blank found no place."""
    if blank.only:
        return _not_there(blank, job)
    kind = _kind(blank)
    if not job.stock:
        return "There is no stock to cut it from."
    if len(job.periods) > 1 and (late := _too_late(blank, job)):
        return late
    of_species = [one for one in job.stock if _same_species(one, blank)]
    if not of_species:
        return f"There is no {blank.species} on the rack or on offer."
    suited = [one for one in of_species if suits(one, blank, job.plane)]
    if not suited:
        return _no_thickness(blank, job)
    if not any(fits(one, blank, job) for one in suited):
        return _too_big(blank, suited, job)
    return f"There is not enough {kind} left for it after the other blanks."


def _too_late(blank: Blank, job: Job) -> str:
    """That stock which would do comes after the blank's period, if so."""
    suited = [one for one in job.stock if suits(one, blank, job.plane)]
    suited = [one for one in suited if fits(one, blank, job)]
    due = job.when(blank.period)
    if not suited or any(job.when(one.period) <= due for one in suited):
        return ""
    return "The stock that would do comes in a later period only."


def _not_there(blank: Blank, job: Job) -> str:
    """Why a blank found no place on the stock that it is pinned to."""
    there = tuple(one for one in job.stock if one.id in blank.only)
    names = " or ".join(f"“{one.name or one.id}”" for one in there)
    if not there:
        return "The stock it is pinned to is not there."
    why = why_not(replace(blank, only=()), replace(job, stock=there))
    return f"It is pinned to {names}. {why}"


def _same_species(stock: Stock, blank: Blank) -> bool:
    return not stock.species or not blank.species or stock.species == blank.species


def _kind(blank: Blank) -> str:
    return blank.species or "wood"


def _no_thickness(blank: Blank, job: Job) -> str:
    assert blank.thickness is not None
    thick = show(blank.thickness, job.display)
    more = f", or up to {show(job.plane, job.display)} thicker," if job.plane else ""
    return f"No {_kind(blank)} that is {thick} thick{more} is on the rack or on offer."


def _too_big(blank: Blank, suited: list[Stock], job: Job) -> str:
    room = [clear(one, job) for one in suited]
    longest, widest = max(r[0] for r in room), max(r[1] for r in room)
    needs = min(ways(blank), key=lambda way: way[0] > longest)
    trimmed = any(off for one in suited for off in trims(one, job.saw))
    between = " between its trims" if trimmed else ""
    for need, most, word, best in (
        (needs[0], longest, "Longer", "longest"),
        (needs[1], widest, "Wider", "widest"),
    ):
        if need > most:
            return (
                f"{word} than any {_kind(blank)} board: it needs "
                f"{show(Length(need), job.display)}, and the {best} has "
                f"{show(Length(most), job.display)}{between}."
            )
    return (
        f"No {_kind(blank)} board is long and wide enough at once: it needs "
        f"{show(Length(needs[0]), job.display)} by "
        f"{show(Length(needs[1]), job.display)}."
    )
