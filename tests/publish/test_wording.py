"""How lines of wood read: right in number and in unit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.core.measure import BOARD_FOOT_NM3, LITRE_NM3, in_board_feet, in_litres
from app.publish import wording
from app.publish.sheet import LeftLine, WentLine, WoodLine
from tests.publish.sheets import bare, box

SMALL, LARGE = box("3/4", "2", "10"), box("3/4", "7", "30")
BOARD = WoodLine("cherry", "board", 1, box("3/4", "8", "96"))


@pytest.mark.parametrize(
    ("left", "said"),
    [
        ((), ""),
        (
            (LeftLine("offcut", 1, LARGE),),
            ", of which an offcut 3/4 x 7 x 30 in is left for later parts",
        ),
        (
            (LeftLine("offcut", 2, SMALL),),
            ", of which 2 offcuts 3/4 x 2 x 10 in are left for later parts",
        ),
        (
            (LeftLine("board", 1, LARGE), LeftLine("offcut", 1, SMALL)),
            (
                ", of which a board 3/4 x 7 x 30 in and an offcut 3/4 x 2 x 10 in are "
                "left for later parts"
            ),
        ),
        (
            (LeftLine("offcut", 1, LARGE), *[LeftLine("offcut", 2, SMALL)] * 3),
            (
                ", of which 7 offcuts are left for later parts, the largest "
                "3/4 x 7 x 30 in"
            ),
        ),
        (
            (LeftLine("board", 1, LARGE), *[LeftLine("offcut", 1, SMALL)] * 3),
            ", of which 4 pieces are left for later parts, the largest 3/4 x 7 x 30 in",
        ),
    ],
)
def test_what_is_left_is_told_one_or_many(
    left: tuple[LeftLine, ...], said: str
) -> None:
    assert wording.left(replace(BOARD, left=left), "in") == said


def test_what_is_left_is_told_in_the_makers_unit() -> None:
    line = replace(BOARD, left=(LeftLine("offcut", 1, box("1", "2", "10")),))
    assert "an offcut 25.4 x 50.8 x 254 mm is left" in wording.left(line, "mm")


@pytest.mark.parametrize(
    ("board_feet", "litres", "said", "in_metric"),
    [
        # 1 board foot is 144 in3, 2.359737 litres.
        (1, 0, "1.00 board foot (2.36 litres)", "2.36 litres (1.00 board foot)"),
        (0, 1, "0.42 board feet (1.00 litre)", "1.00 litre (0.42 board feet)"),
        (2, 0, "2.00 board feet (4.72 litres)", "4.72 litres (2.00 board feet)"),
    ],
)
def test_a_volume_reads_in_both_units_the_makers_first(
    board_feet: int, litres: int, said: str, in_metric: str
) -> None:
    nm3 = board_feet * BOARD_FOOT_NM3 + litres * LITRE_NM3
    assert wording.volume(nm3, "in") == said
    assert wording.volume(nm3, "mm") == in_metric


def test_next_to_nothing_is_not_called_nothing() -> None:
    assert in_board_feet(1) == "under 0.01 board feet"
    assert in_litres(0) == "0.00 litres"


def test_shares_add_up_to_a_hundred_and_none_is_left_out() -> None:
    went = tuple(
        WentLine(name, nm3) for name, nm3 in (("a", 1), ("b", 500), ("c", 499))
    )
    sheet = replace(bare(), wood=(BOARD,), went=(*went, WentLine("d", 0)))
    assert wording.in_build(sheet)[1] == "Where it went: a under 1 %, b 50 %, c 50 %"


def test_without_wood_nothing_is_said_of_it() -> None:
    assert wording.in_build(bare()) == []
