"""Equal sticks emptied and filled again: nothing lost, nothing overfilled, fewer."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.cutting.effort import Work
from app.core.cutting.job import Blank, Job, Keep, Saw, Stock
from app.core.cutting.kinds import kinds
from app.core.cutting.repack import repacked
from app.core.length import Length
from tests.core.cutting.published import instances, known, read

pieces = st.lists(
    st.tuples(st.integers(1, 40), st.integers(1, 5)), min_size=1, max_size=12
)


def job(found: list[tuple[int, int]], room: int) -> Job:
    return Job(
        Saw(Length(1)),
        Keep(Length(0), Length(0)),
        (Stock("stick", Length(room), quantity=None, cost=5),),
        tuple(
            Blank(f"b{n}", Length(long), quantity=times)
            for n, (long, times) in enumerate(found)
        ),
    )


@given(pieces, st.integers(40, 90), st.integers(0, 9))
def test_every_piece_is_in_one_stick_and_no_stick_is_overfull(
    found: list[tuple[int, int]], room: int, seed: int
) -> None:
    asked = kinds(job(found, room))
    rest = repacked(asked, 0, Random(seed), Work(3_000))
    assert not any(rest.wanted)
    for column in rest.taken:
        held = sum(asked.sizes[kind] * n for kind, n in column.filling.items())
        assert held <= asked.sticks[0].room
    held_of = [0] * len(asked.wanted)
    for column in rest.taken:
        for kind, n in column.filling.items():
            held_of[kind] += n
    assert tuple(held_of) == asked.wanted


@pytest.mark.parametrize(
    ("family", "number"),
    [("falkenauer_u", 36), ("scholl2", 71), ("waescher_gau", 3), ("hard28", 4)],
)
def test_published_jobs_come_to_their_optimum_without_a_relaxation(
    family: str, number: int
) -> None:
    instance = instances(family)[number]
    asked = kinds(read(instance))
    _, best = known(instance)
    rest = repacked(asked, int(best), Random(1), Work(6_000_000))
    assert len(rest.taken) == best, instance["name"]
