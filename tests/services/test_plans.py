"""An episode's cuts: from the rack, from the dealer, onto the rack again."""

from __future__ import annotations

from collections.abc import Iterable

import pytest
from sqlalchemy import select

from app.core.errors import StaleEdit, WorkshopError
from app.core.length import inches
from app.core.movement import Made, Movement, MovementKind, PieceKind
from app.services import plans
from app.store import movements, rack
from app.store.schema import (
    DesignRow,
    Episode,
    MovementRow,
    PartRow,
    Series,
)
from app.store.workspace import Workspace
from tests.conftest import NOON
from tests.services.porch_rack import design, put, walnut

SLUG = "porch"
DAY = "2026-03-02"
DEALER = "black walnut, 1, 8, 96, 60.00\nwalnut, 1, 6, 48, 25"


@pytest.fixture
def porch(workspace: Workspace) -> Workspace:
    """A series of two parts; the first has a design of strips and a base."""
    with workspace.write() as work:
        series = Series(slug=SLUG, title="Porch")
        for number in (1, 2):
            series.episodes.append(
                Episode(number=number, slug=f"part-{number}", title=f"Part {number}")
            )
        work.add(series)
        work.flush()
        for episode in series.episodes:
            work.add(design(episode.id, inches("26")))
    return workspace


def make(
    workspace: Workspace,
    number: int = 1,
    version: int = 0,
    sells: str = "",
    first: str = "either",
) -> None:
    plans.make(workspace, SLUG, number, version, sells, first, NOON)


def cut(workspace: Workspace, number: int = 1, version: int = 1) -> None:
    plans.mark_cut(workspace, SLUG, number, version, DAY, NOON)


def seen(workspace: Workspace, number: int = 1) -> plans.WoodView:
    with workspace.read() as work:
        episode = work.scalar(select(Episode).where(Episode.number == number))
        assert episode is not None
        episode_id = episode.id
    return plans.show(workspace, episode_id)


def lying(workspace: Workspace) -> list[tuple[str, str, int, int | None]]:
    """What is on the rack: kind, part key, quantity, episode's number."""
    with workspace.read() as work:
        piles: Iterable[rack.Pile] = rack.on_hand(work)
        return [
            (pile.piece.kind.value, pile.part_key, pile.quantity, pile.episode_number)
            for pile in piles
        ]


def is_trimmed(workspace: Workspace, number: int) -> bool:
    plan = seen(workspace, number).plan
    assert plan is not None
    return any("Trim" in cut.set_up for one in plan.layouts for cut in one.cuts)


def recorded(workspace: Workspace) -> int:
    with workspace.read() as work:
        return len(work.scalars(select(MovementRow.id)).all())


def test_without_a_design_there_is_nothing_to_cut(porch: Workspace) -> None:
    with porch.write() as work:
        for row in work.scalars(select(DesignRow)):
            work.delete(row)
    assert "No design yet" in seen(porch).missing
    with pytest.raises(WorkshopError, match="No design yet"):
        make(porch)


def test_the_saw_gets_strips_and_the_parts_from_no_panel(porch: Workspace) -> None:
    put(porch, walnut("60", "8"))
    make(porch)
    plan = seen(porch).plan
    assert plan is not None
    assert [(line.name, line.quantity) for line in plan.blanks] == [
        ("Wall strip", 3),
        ("Base", 1),
    ]
    assert not plan.unplaced
    assert plan.can_be_cut
    assert plan.layouts[0].drawing.startswith("<svg")


def test_marking_as_cut_puts_blanks_and_offcuts_on_the_rack(porch: Workspace) -> None:
    put(porch, walnut("60", "8"))
    make(porch)
    cut(porch)
    found = lying(porch)
    assert ("strip", "wall.strip-1", 3, 1) in found
    assert ("blank", "base", 1, 1) in found
    offcuts = [one for one in found if one[0] == "offcut"]
    assert offcuts
    assert {number for *_, number in offcuts} == {1}
    assert "board" not in {kind for kind, *_ in found}
    shown = seen(porch)
    assert shown.plan is not None
    assert str(shown.plan.cut_on) == DAY
    assert shown.to_cut == 0


def test_the_money_of_the_board_goes_on_with_its_pieces(porch: Workspace) -> None:
    put(porch, walnut("60", "8"), cost=4321)
    make(porch)
    cut(porch)
    with porch.read() as work:
        assert sum(pile.cost for pile in rack.on_hand(work)) == 4321


def test_a_plan_is_cut_once(porch: Workspace) -> None:
    put(porch, walnut("60", "8"))
    make(porch)
    cut(porch)
    with pytest.raises(WorkshopError, match="can be cut once"):
        cut(porch, version=2)
    with pytest.raises(WorkshopError, match="has been cut"):
        make(porch, version=2)


def test_a_part_longer_than_any_board_is_refused_and_nothing_changes(
    porch: Workspace,
) -> None:
    put(porch, walnut("20", "8"))
    make(porch)
    before, movements_before = lying(porch), recorded(porch)
    with pytest.raises(WorkshopError, match="Longer than any walnut board"):
        cut(porch)
    shown = seen(porch)
    assert (lying(porch), recorded(porch)) == (before, movements_before)
    assert shown.plan is not None
    assert shown.plan.cut_on is None
    assert shown.version == 1


@pytest.mark.parametrize(("first", "told"), [("crosscut", True), ("rip", False)])
def test_ripping_a_short_piece_carries_its_caution(
    porch: Workspace, first: str, told: bool
) -> None:
    # The base, 7 in long, is ripped when it is already cut off, or before.
    put(porch, walnut("48", "9"))
    make(porch, first=first)
    plan = seen(porch).plan
    assert plan is not None
    assert not plan.unplaced
    keys = {caution.key for caution in plan.cautions}
    assert ("powered-machine.short-stock" in keys) is told


def test_boards_to_buy_stand_between_the_plan_and_the_saw(porch: Workspace) -> None:
    make(porch, sells=DEALER)
    plan = seen(porch).plan
    assert plan is not None
    assert plan.to_buy
    with pytest.raises(WorkshopError, match="Record the purchase"):
        cut(porch)


def test_buying_records_exactly_the_boards_and_frees_the_plan(porch: Workspace) -> None:
    make(porch, sells=DEALER)
    before = seen(porch).plan
    assert before is not None
    plans.buy(porch, SLUG, 1, 1, DAY, "the yard", NOON)
    after = seen(porch).plan
    assert after is not None
    assert not after.to_buy
    assert not after.stale
    assert [one.cuts for one in after.layouts] == [one.cuts for one in before.layouts]
    with porch.read() as work:
        row = work.scalars(select(MovementRow)).one()
        assert (row.paid, row.supplier) == (before.buy_cost, "the yard")
        assert sum(pile.quantity for pile in rack.on_hand(work)) == sum(
            line.quantity for line in before.to_buy
        )
    cut(porch, version=2)
    assert ("strip", "wall.strip-1", 3, 1) in lying(porch)
    with pytest.raises(WorkshopError, match="once"):
        plans.buy(porch, SLUG, 1, 3, DAY, "", NOON)


def test_buying_twice_is_refused(porch: Workspace) -> None:
    make(porch, sells=DEALER)
    plans.buy(porch, SLUG, 1, 1, DAY, "", NOON)
    with pytest.raises(StaleEdit):
        plans.buy(porch, SLUG, 1, 1, DAY, "", NOON)
    with pytest.raises(WorkshopError, match="needs no boards"):
        plans.buy(porch, SLUG, 1, 2, DAY, "", NOON)
    assert recorded(porch) == 1


def test_a_changed_rack_makes_the_plan_stale(porch: Workspace) -> None:
    put(porch, walnut("60", "8"))
    make(porch)
    put(porch, walnut("30", "5"))
    plan = seen(porch).plan
    assert plan is not None
    assert "the rack changed" in plan.stale
    with pytest.raises(WorkshopError, match="the rack changed"):
        cut(porch)
    make(porch, version=1)
    cut(porch, version=2)


def test_a_changed_design_makes_the_plan_stale(porch: Workspace) -> None:
    put(porch, walnut("60", "8"))
    make(porch)
    with porch.write() as work:
        part = work.scalars(select(PartRow).where(PartRow.key == "base")).first()
        assert part is not None
        part.quantity = 2
    plan = seen(porch).plan
    assert plan is not None
    assert "the design changed" in plan.stale
    with pytest.raises(WorkshopError, match="the design changed"):
        cut(porch)


def test_an_earlier_episodes_offcut_is_cut_before_a_whole_board(
    porch: Workspace,
) -> None:
    put(porch, walnut("96", "8"))
    make(porch)
    assert is_trimmed(porch, 1)
    cut(porch)
    put(porch, walnut("60", "8"))
    make(porch, number=2)
    assert not is_trimmed(porch, 2)  # an offcut is sawn all round already
    plan = seen(porch, number=2).plan
    assert plan is not None
    assert plan.layouts[0].from_where == "offcut left over from part 1"
    cut(porch, number=2)
    with porch.read() as work:
        second = work.scalars(select(Episode.id).where(Episode.number == 2)).one()
        used = rack.wood_used(work, second)
    assert used[0].origin_number == 1


def test_blanks_that_wait_for_their_build_are_not_offered(porch: Workspace) -> None:
    put(porch, walnut("28", "8"))
    make(porch)
    kept = seen(porch).plan
    assert kept is not None
    blank = walnut("60", "8", PieceKind.BLANK)
    with porch.write() as work:
        movement = Movement(
            MovementKind.FOUND,
            made=(Made(blank, 1, part_key="base"),),
            from_outside=blank.volume,
        )
        movements.record(
            work, movement, on=NOON.date(), now=NOON, zone="UTC", currency="USD"
        )
    again = seen(porch).plan
    assert again is not None
    assert not again.stale


def test_a_blank_that_was_thrown_away_is_wanted_again(porch: Workspace) -> None:
    put(porch, walnut("60", "8"))
    make(porch)
    cut(porch)
    with porch.write() as work:
        (pile,) = (one for one in rack.on_hand(work) if one.part_key == "base")
        taken = pile.taking(1)
        gone = Movement(
            MovementKind.DISCARDED,
            taken=(taken,),
            scrap=taken.volume,
            written_off=taken.cost,
        )
        movements.record(
            work, gone, on=NOON.date(), now=NOON, zone="UTC", currency="USD"
        )
    assert seen(porch).to_cut == 1
    put(porch, walnut("20", "8"))
    make(porch, version=2)
    again = seen(porch).plan
    assert again is not None
    assert [line.name for line in again.blanks] == ["Base"]
    assert again.cut_on is None


def test_two_windows_cannot_plan_over_each_other(porch: Workspace) -> None:
    put(porch, walnut("60", "8"))
    make(porch)
    make(porch, version=1, sells=DEALER)
    with pytest.raises(StaleEdit) as conflict:
        make(porch, version=1)
    assert conflict.value.stored["dealer"] == DEALER
    with pytest.raises(StaleEdit):
        cut(porch, version=1)


@pytest.mark.parametrize(
    ("line", "fault"),
    [
        ("walnut, 1, 8, 96", "five parts"),
        ("walnut, 1, 8, wide, 60", "is not a length"),
        ("walnut, 1, 0, 96, 60", "no size for a board"),
        ("walnut, 1, 8, 96, lots", "is not a price"),
    ],
)
def test_what_the_dealer_sells_is_refused_by_line(
    porch: Workspace, line: str, fault: str
) -> None:
    with pytest.raises(WorkshopError, match=fault) as refused:
        make(porch, sells="walnut, 1, 8, 96, 60\n\n" + line)
    assert str(refused.value).startswith("Line 3")
    assert refused.value.input == "dealer"
    assert seen(porch).plan is None


@pytest.mark.parametrize(
    ("on", "says"),
    [
        ("", "The day is missing"),
        ("tomorrow", "not a date"),
        ("2026-13-01", "not in the calendar"),
        ("2026-03-03", "still to come"),
    ],
)
def test_the_day_of_cutting_is_a_day_that_was(
    porch: Workspace, on: str, says: str
) -> None:
    put(porch, walnut("60", "8"))
    make(porch)
    with pytest.raises(WorkshopError, match=says) as refused:
        plans.mark_cut(porch, SLUG, 1, 1, on, NOON)
    assert refused.value.input == "on"
    assert recorded(porch) == 1


def test_boards_are_not_bought_for_a_plan_with_blanks_unplaced(
    porch: Workspace,
) -> None:
    make(porch, sells="walnut, 1, 4, 96, 30")
    plan = seen(porch).plan
    assert plan is not None
    assert [line.name for line in plan.unplaced] == ["Base"]
    assert not plan.can_be_bought
    with pytest.raises(WorkshopError, match="have no place"):
        plans.buy(porch, SLUG, 1, 1, DAY, "", NOON)
    assert recorded(porch) == 0
