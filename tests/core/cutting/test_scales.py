"""Scales of sizes: what fits side by side still does, and large pieces count."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from app.core.cutting.boards.kinds import kinds
from app.core.cutting.boards.scales import rows, scales
from tests.core.cutting.published import instances, known, read

sides = st.lists(st.integers(1, 60), min_size=1, max_size=12)


@given(sides, st.integers(1, 60))
def test_what_fits_side_by_side_still_does_at_every_scale(
    sizes: list[int], whole: int
) -> None:
    held: list[int] = []
    for size in sizes:
        if sum(held) + size <= whole:
            held.append(size)
    for scale in scales(sizes, whole):
        found = [scale(size, whole) for size in held]
        assert sum(found) <= 1 + 1e-9
        assert all(0 <= one <= 1 for one in found)


def test_no_set_of_values_asks_for_more_plates_than_are_known_to_do() -> None:
    reached = 0
    for instance in instances("class_2bp")[::7]:
        asked = kinds(read(instance))
        low, best = known(instance)
        least = max(
            float(values @ [float(n) for n in asked.wanted]) for values in rows(asked)
        )
        assert least <= best + 1e-6, instance["name"]
        reached += -(-(least - 1e-6) // 1) >= low
    assert reached >= 25, "the scales prove less than they did"
