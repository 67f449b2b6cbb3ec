"""How many rounds of parallel cuts a layout takes, counted from its geometry."""

from __future__ import annotations

from itertools import groupby

from app.core.cutting.plan import Cut, Direction
from tests.core.cutting.bench import Bench, Rectangle, rectangle, trims_of, within


def within_stages(bench: Bench) -> None:
    """No piece takes more rounds than allowed, a last trimming round not counted.

    A round may be empty: where ripping comes second, a board that is only
    ripped had a first round without cuts. What a later period cuts up begins
    anew: it is stock of that period.
    """
    job = bench.job
    if job.stages is None or bench.flat:
        return
    for piece in bench.pieces:
        turns = ways_to(piece, bench)
        assert any(
            fits(turns, first, job.stages, bench) for first in firsts(job.first)
        ), f"{piece} takes more rounds of cuts than {job.stages}, {job.first} first"


def firsts(first: str) -> list[Direction]:
    both = [Direction.CROSSCUT, Direction.RIP]
    return {"crosscut": both[:1], "rip": both[1:]}.get(first, both)


def fits(turns: list[list[Cut]], first: Direction, stages: int, bench: Bench) -> bool:
    empty = bool(turns) and turns[0][0].direction is not first
    rounds = len(turns) + empty
    if rounds <= stages:
        return True
    return rounds == stages + 1 and only_trims(turns[-1], bench)


def only_trims(last: list[Cut], bench: Bench) -> bool:
    """A trimming round cuts one piece free of its waste.

    What a later period cuts from that waste is none of this one's pieces.
    """
    slab = rectangle(last[0].of)
    now = bench.sitting(slab)
    there = [piece for piece in bench.pieces if within(piece, slab)]
    return sum(bench.sitting(piece) == now for piece in there) == 1


def ways_to(piece: Rectangle, bench: Bench) -> list[list[Cut]]:
    """The cuts on the way to a piece in the period it is cut, run by run."""
    period = bench.sitting(piece)
    way = [
        cut
        for cut in bench.layout.cuts
        if within(piece, rectangle(cut.of))
        and bench.sitting(rectangle(cut.of)) == period
        and not squares(cut, bench)
    ]
    return [list(run) for _, run in groupby(way, key=lambda cut: cut.direction)]


def squares(cut: Cut, bench: Bench) -> bool:
    """Whether a cut only takes a trim off the stock, or parts nothing at all."""
    x, y, length, width = rectangle(cut.of)
    across = cut.direction is Direction.CROSSCUT
    start, size = (x, length) if across else (y, width)
    trim = trims_of(bench)[0 if across else 1]
    most = bench.whole[2 if across else 3]
    if cut.at.nm == start:
        return True
    if not trim:
        return False
    near = start == 0 and cut.at.nm + cut.kerf.nm == trim
    far = start + size == most and cut.at.nm == most - trim
    return near or far
