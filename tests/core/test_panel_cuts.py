"""Kerf and scrap of panels cut into parts never exceed the panels."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from app.core.length import Length, inches
from app.core.movement import Piece, PieceKind, Taken
from app.core.panel_cuts import kerf_and_scrap
from app.core.part import Dimensions, Part

lengths = st.integers(1, 3 * 10**9).map(Length)
sizes = st.builds(Dimensions, lengths, lengths, lengths)


def panel(size: Dimensions, quantity: int = 1) -> Taken:
    return Taken(1, Piece(PieceKind.PANEL, "maple", size), quantity)


def side(blank: Dimensions, quantity: int) -> Part:
    return Part("side", "Side", quantity, "maple", blank, blank, glue_up="wall")


def test_two_panels_into_eight_sides_as_worked_out_by_hand() -> None:
    """Common practice, no source: three cuts to four sides, twice.

    kerf    6 x 1/8 x 5 x 3/4             = 2 13/16 in3
    faces   2 x 26 x 5 = 260, blanks 8 x 6 x 5 = 240, kerfs 6 x 1/8 x 5 = 3 3/4
    scrap   (260 - 240 - 3 3/4) x 3/4     = 12 3/16 in3
    """
    size = Dimensions(inches("26"), inches("5"), inches("3/4"))
    blank = Dimensions(inches("6"), inches("5"), inches("13/16"))
    kerf, scrap = kerf_and_scrap([panel(size, 2)], [side(blank, 8)], inches("1/8"))
    in3 = inches("1").nm ** 3
    assert (kerf * 16, scrap * 16) == (45 * in3, 195 * in3)


@given(sizes, st.integers(1, 5), sizes, st.integers(1, 40), lengths)
def test_kerf_and_scrap_are_never_more_than_the_panels(
    size: Dimensions, panels: int, blank: Dimensions, parts: int, kerf: Length
) -> None:
    taken = panel(size, panels)
    sawn, fallen = kerf_and_scrap([taken], [side(blank, parts)], kerf)
    assert min(sawn, fallen) >= 0
    assert sawn + fallen <= taken.volume


def test_without_panels_nothing_is_sawn() -> None:
    assert kerf_and_scrap([], [], inches("1/8")) == (0, 0)
