"""Wood and money are conserved, to the last nanometre and the last cent."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core import leaving, receiving, shopwork
from app.core.cutting.plan import Direction
from app.core.errors import WorkshopError
from app.core.length import Length, inches, mm
from app.core.movement import (
    Made,
    Movement,
    MovementKind,
    PanelStrip,
    Piece,
    PieceKind,
    Taken,
    Unbalanced,
    reversal,
)
from app.core.part import Dimensions
from app.core.shopwork import PartWanted

lengths = st.integers(1, 3 * 10**9).map(Length)
sizes = st.builds(Dimensions, lengths, lengths, lengths)
money = st.integers(0, 10**6)


def board(length: str, width: str, thickness: str, species: str = "walnut") -> Piece:
    size = Dimensions(inches(length), inches(width), inches(thickness))
    return Piece(PieceKind.BOARD, species, size)


def kept_volume(movement: Movement) -> int:
    """Everything that came out, added up here on its own."""
    lines = (*movement.made, *movement.parts)
    waste = movement.kerf + movement.chips + movement.scrap
    return sum(line.volume for line in lines) + waste + movement.to_outside


def test_a_board_cut_by_hand_as_worked_out_on_paper() -> None:
    """A hand calculation in full; common practice, no source, made for this test.

    One walnut board 96 x 6 x 1 in cost 57.60. Its volume is 576 in3.
    Crosscut with a 1/8 in kerf: 24, 24 and 36 in come off one end.

        pieces   24 + 24 + 36              = 84 in
        kerfs    3 x 1/8                   = 3/8 in      3/8 x 6 x 1 = 2 1/4 in3
        rest     96 - 84 - 3/8             = 11 5/8 in   offcut
        yield    84 / 96                   = 87.5 %

    The money goes with the wood that is kept, 84 + 11 5/8 = 95 5/8 in of it:

        two of 24 in   57.60 x 48 / 95 5/8      = 28.9129...
        one of 36 in   57.60 x 36 / 95 5/8      = 21.6847...
        offcut         57.60 x 11 5/8 / 95 5/8  =  7.0023...

    Whole cents: 28.91, 21.68, 7.00 make 57.59; the cent left over goes to the
    largest rest, .47 of a cent at the 36 in piece: 21.69.
    """
    cut = shopwork.cut_by_hand(
        Taken(1, board("96", "6", "1"), 1, 5760),
        Direction.CROSSCUT,
        [inches("24"), inches("24"), inches("36")],
        inches("1/8"),
    )
    in3 = inches("1").nm ** 3
    assert [(line.piece.size.length, line.quantity) for line in cut.made] == [
        (inches("24"), 2),
        (inches("36"), 1),
        (inches("11 5/8"), 1),
    ]
    assert [line.cost for line in cut.made] == [2891, 2169, 700]
    assert cut.kerf == 9 * in3 // 4
    assert (cut.scrap, cut.chips, cut.written_off) == (0, 0, 0)
    assert cut.volume_in == 576 * in3 == kept_volume(cut)
    assert [line.piece.kind for line in cut.made] == ["board", "board", "offcut"]


def test_a_last_kerf_takes_no_more_than_is_left() -> None:
    cut = shopwork.cut_by_hand(
        Taken(1, board("24 1/16", "4", "1"), 1),
        Direction.CROSSCUT,
        [inches("24")],
        inches("1/8"),
    )
    assert cut.kerf == inches("1/16").nm * inches("4").nm * inches("1").nm
    assert len(cut.made) == 1


def test_a_board_ripped_gives_strips_and_scrap_where_the_rest_is_not_kept() -> None:
    cut = shopwork.cut_by_hand(
        Taken(1, board("48", "6", "3/4"), 3, 999),
        Direction.RIP,
        [inches("2"), inches("2")],
        inches("1/8"),
        keep_rest=False,
    )
    strips = cut.made[0]
    assert (strips.piece.kind, strips.quantity, strips.cost) == ("strip", 6, 999)
    assert cut.scrap == 3 * inches("1 3/4").nm * inches("48").nm * inches("3/4").nm


def test_a_panel_ripped_keeps_its_strips_in_order() -> None:
    order = tuple(
        PanelStrip(name, inches("2")) for name in ("walnut", "maple", "walnut")
    )
    size = Dimensions(inches("30"), inches("6"), inches("3/4"))
    panel = Piece(PieceKind.PANEL, "walnut + maple", size, order)
    cut = shopwork.cut_by_hand(
        Taken(1, panel, 1), Direction.RIP, [inches("3")], inches("1/8")
    )
    first, rest = cut.made
    assert first.piece.strips == (
        PanelStrip("walnut", inches("2")),
        PanelStrip("maple", inches("1")),
    )
    assert rest.piece.strips == (
        PanelStrip("maple", inches("7/8")),
        PanelStrip("walnut", inches("2")),
    )


def test_pieces_that_need_more_than_the_board_are_refused_with_both_sizes() -> None:
    with pytest.raises(WorkshopError, match=r"need 24 1/8 in .* there are 24 in"):
        shopwork.cut_by_hand(
            Taken(1, board("24", "4", "1"), 1),
            Direction.CROSSCUT,
            [inches("12"), inches("12")],
            inches("1/8"),
        )


@given(
    sizes,
    st.lists(lengths, min_size=1, max_size=8),
    lengths,
    st.integers(1, 5),
    money,
    st.sampled_from(Direction),
    st.booleans(),
)
def test_all_wood_and_money_of_a_hand_cut_is_accounted_for(
    size: Dimensions,
    pieces: list[Length],
    kerf: Length,
    quantity: int,
    cost: int,
    direction: Direction,
    keep: bool,
) -> None:
    # Just long enough to hold the pieces, and then some.
    needed = sum(pieces, kerf * (len(pieces) - 1))
    along = "length" if direction is Direction.CROSSCUT else "width"
    wood = replace(size, **{along: needed + getattr(size, along)})
    taken = Taken(1, Piece(PieceKind.BOARD, "maple", wood), quantity, cost)
    cut = shopwork.cut_by_hand(taken, direction, pieces, kerf, keep_rest=keep)
    assert kept_volume(cut) == taken.volume
    assert min(cut.kerf, cut.scrap, *(line.volume for line in cut.made)) >= 0
    assert sum(line.cost for line in cut.made) == cost


@given(sizes, st.integers(1, 99), money)
def test_what_is_bought_carries_what_was_paid(
    size: Dimensions, quantity: int, paid: int
) -> None:
    wood = Piece(PieceKind.BOARD, "cherry", size)
    other = Piece(PieceKind.SHEET, "birch ply", size)
    bought = receiving.bought([Made(wood, quantity), Made(other, 1)], paid)
    assert bought.from_outside == kept_volume(bought)
    assert sum(line.cost for line in bought.made) == paid


@given(sizes, lengths, st.integers(1, 9), money)
def test_planing_turns_what_is_gone_into_chips(
    size: Dimensions, thinner: Length, quantity: int, cost: int
) -> None:
    thick = replace(size, thickness=size.thickness + thinner)
    taken = Taken(1, Piece(PieceKind.BOARD, "oak", thick), quantity, cost)
    planed = shopwork.surfaced(taken, size)
    gone = size.length.nm * size.width.nm * thinner.nm * quantity
    assert (planed.chips, planed.made[0].cost) == (gone, cost)


@pytest.mark.parametrize(
    ("thickness", "says"),
    [("1 1/8", "less than 1 in"), ("1", "the same as before"), ("0", "less than 1 in")],
)
def test_planing_to_what_it_is_not_is_refused(thickness: str, says: str) -> None:
    wood = board("24", "6", "1")
    size = replace(wood.size, thickness=inches(thickness))
    with pytest.raises(WorkshopError, match=says):
        shopwork.surfaced(Taken(1, wood, 1), size)


def strip(species: str, width: str, stock_id: int, quantity: int, cost: int) -> Taken:
    size = Dimensions(inches("30"), inches(width), inches("7/8"))
    return Taken(stock_id, Piece(PieceKind.STRIP, species, size), quantity, cost)


ORDER = (
    PanelStrip("walnut", inches("1")),
    PanelStrip("maple", inches("2")),
    PanelStrip("walnut", inches("1")),
)
PANEL = Dimensions(inches("29 1/2"), inches("4"), inches("3/4"))


def test_a_panel_keeps_species_order_cost_and_counts_its_chips() -> None:
    """Worked out by hand; the sizes are made for this test.

    Two panels: 4 walnut strips 30 x 1 1/8 x 7/8 and 2 maple 30 x 2 1/8 x 7/8.

        walnut  4 x 30 x 1.125 x 0.875 = 118.125 in3
        maple   2 x 30 x 2.125 x 0.875 = 111.5625 in3
        panels  2 x 29.5 x 4 x 0.75    = 177 in3
        chips   229.6875 - 177         =  52.6875 in3
    """
    glued = shopwork.glued_up(
        [strip("walnut", "1 1/8", 1, 4, 1200), strip("maple", "2 1/8", 2, 2, 801)],
        ORDER,
        PANEL,
        2,
        part_key="wall",
    )
    (panels,) = glued.made
    assert panels.piece.strips == ORDER
    assert panels.piece.species == "walnut + maple"
    assert (panels.quantity, panels.cost, panels.part_key) == (2, 2001, "wall")
    assert glued.chips * 10_000 == 526_875 * inches("1").nm ** 3
    assert kept_volume(glued) == glued.volume_in


def test_a_panel_that_measures_otherwise_shares_the_difference() -> None:
    glued = shopwork.glued_up(
        [strip("walnut", "1 1/8", 1, 2, 0), strip("maple", "2 1/8", 2, 1, 0)],
        ORDER,
        replace(PANEL, width=mm("101.4")),
    )
    (panel,) = glued.made
    assert [each.width for each in panel.piece.strips] == [
        mm("25.35"),
        mm("50.7"),
        mm("25.35"),
    ]


def test_strips_turned_on_edge_make_a_panel_thicker_than_their_stock() -> None:
    """Four of 7/8 in stock ripped 1 1/2 wide: a panel 3 1/2 wide, 1 1/2 thick."""
    panel = Dimensions(inches("29"), inches("3 1/2"), inches("1 1/2"))
    order = [PanelStrip("walnut", inches("7/8"))] * 4
    glued = shopwork.glued_up([strip("walnut", "1 1/2", 1, 4, 0)], order, panel)
    assert glued.made[0].piece.size == panel
    # Wider than the four stand side by side it is refused as it lies.
    wide = replace(panel, width=inches("3 5/8"))
    with pytest.raises(WorkshopError, match="thickness"):
        shopwork.glued_up([strip("walnut", "1 1/2", 1, 4, 0)], order, wide)


@pytest.mark.parametrize(
    ("walnut", "panel", "says"),
    [
        (1, PANEL, "2 strips of walnut are needed for 1 × the panel and 1 are"),
        (2, replace(PANEL, length=inches("31")), "panel's length, 31 in"),
        (2, replace(PANEL, thickness=inches("1")), "panel's thickness, 1 in"),
        (2, replace(PANEL, width=inches("5")), "too narrow for a panel 5 in"),
    ],
)
def test_strips_that_do_not_make_the_panel_are_refused(
    walnut: int, panel: Dimensions, says: str
) -> None:
    taken = [strip("walnut", "1 1/8", 1, walnut, 0), strip("maple", "2 1/8", 2, 1, 0)]
    with pytest.raises(WorkshopError, match=says):
        shopwork.glued_up(taken, ORDER, panel)


@given(sizes, st.integers(1, 9), money, st.integers(0, 10**30), st.integers(0, 10**30))
def test_a_build_accounts_for_all_its_wood_and_money(
    size: Dimensions, quantity: int, cost: int, kerf: int, scrap: int
) -> None:
    blank = Piece(PieceKind.BLANK, "ash", size)
    taken = Taken(1, blank, quantity, cost)
    side = PartWanted("side", "Side", quantity, blank.volume * 2 // 3)
    made = shopwork.built([taken], [side], kerf=kerf, scrap=scrap)
    assert kept_volume(made) == taken.volume
    assert min(made.kerf, made.chips, made.scrap) >= 0
    assert sum(part.cost for part in made.parts) == cost


def test_parts_that_hold_more_wood_than_there_is_are_refused() -> None:
    """24 x 4 x 1 in is 1573.18... cm3; 27 x 4 x 1 in is 1769.80 cm3."""
    wood = Taken(1, board("24", "4", "1"), 1)
    lid = PartWanted("lid", "Lid", 1, board("27", "4", "1").volume)
    with pytest.raises(WorkshopError, match="hold 197 cm³ more wood"):
        shopwork.built([wood], [lid])


def test_thrown_out_wood_is_scrap_and_its_cost_is_written_off() -> None:
    wood = board("24", "4", "1")
    gone = leaving.discarded(Taken(1, wood, 2, 300), "checked at both ends")
    assert (gone.scrap, gone.written_off) == (2 * wood.volume, 300)
    with pytest.raises(WorkshopError, match="Say why"):
        leaving.discarded(Taken(1, wood, 2, 300), " ")


@pytest.mark.parametrize("go", [leaving.given_away, leaving.lost])
def test_wood_that_is_gone_went_outside(go) -> None:  # type: ignore[no-untyped-def]
    wood = board("24", "4", "1")
    gone = go(Taken(1, wood, 1, 300))
    assert (gone.to_outside, gone.written_off) == (wood.volume, 300)


def test_counting_again_moves_the_difference_in_or_out() -> None:
    wood = board("24", "4", "1")
    fewer = leaving.recounted(Taken(1, wood, 2, 300), counted=1)
    more = leaving.recounted(Made(wood, 2, stock_id=1), counted=5)
    assert (fewer.to_outside, more.from_outside) == (2 * wood.volume, 2 * wood.volume)


@pytest.mark.parametrize(
    ("movement", "says"),
    [
        ({"from_outside": 1}, "1 nm³ go in and 0 nm³ come out"),
        ({"from_outside": 1, "kerf": 2, "chips": -1}, "More wood would come out"),
        ({"paid": 5}, "5 goes in and 0 comes out in money"),
        ({"taken": (Taken(1, board("1", "1", "1"), 0),)}, "moves nothing"),
    ],
)
def test_a_movement_in_which_anything_vanishes_cannot_be_made(
    movement: dict[str, int], says: str
) -> None:
    with pytest.raises(Unbalanced, match=says):
        Movement(MovementKind.CUT, **movement)  # type: ignore[arg-type]


@given(sizes, money)
def test_a_reversal_mirrors_what_it_takes_back(size: Dimensions, cost: int) -> None:
    blank = Piece(PieceKind.BLANK, "ash", size)
    made = shopwork.built(
        [Taken(7, blank, 2, cost)],
        [PartWanted("side", "Side", 1, blank.volume)],
        kerf=blank.volume // 3,
    )
    back = reversal(made)
    assert [(line.stock_id, line.quantity, line.cost) for line in back.made] == [
        (7, 2, cost)
    ]
    assert back.from_outside == 2 * blank.volume
    assert back.paid == cost
