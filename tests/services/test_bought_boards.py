"""Random-width boards: how much to buy, the real ones typed in, the plan anew."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from app.core.cutting.random_widths import Must
from app.core.errors import NotFound, StaleEdit, WorkshopError
from app.core.length import Length, inches, mm
from app.core.movement import PieceKind
from app.services import bought_boards, plans
from app.services.rack_work import Clock
from app.store.workspace import Workspace
from tests.conftest import NOON
from tests.services import yard
from tests.services.yard import in_short

__all__ = ["in_short"]

CLOCK = Clock(NOON.date(), NOON)
SELLS = "walnut, 4/4, 5 to 9 wide, 96 to 120 long, 12.50 per board foot"
# Blanks of 7 1/8 x 62 in and 3 1/8 x 24 1/2 in, 13/16 in thick.
PARTS = "shelf,2,3/4,7,61 1/2,walnut\nrail,8,3/4,3,24,walnut"


@pytest.fixture
def bench(workspace: Workspace) -> Workspace:
    yard.start(workspace, PARTS)
    yard.make(workspace, SELLS)
    return workspace


def to_choose(workspace: Workspace) -> bought_boards.ToChoose:
    (found,) = bought_boards.show_for(workspace, yard.episode_id(workspace))
    return found


def buy(
    workspace: Workspace, boards: str, line: str = "dealer-1", **typed: str
) -> None:
    version = yard.seen(workspace).version
    form = {"boards": boards, "on": yard.DAY} | typed
    bought_boards.buy(workspace, yard.SLUG, 1, line, version, form, CLOCK)


def test_the_plan_says_how_much_to_buy_and_what_must_fit(bench: Workspace) -> None:
    found = to_choose(bench)
    assert (found.name, found.per, found.rate) == ("walnut 4/4", "board foot", 1250)
    # 2 x 7.125 x 62 + 8 x 3.125 x 24.5 square inches, an inch thick, in board feet.
    blanks = (2 * 7.125 * 62 + 8 * 3.125 * 24.5) / 144
    about = int(re.match(r"\d+", found.about)[0])  # type: ignore[index]
    assert blanks < about < 2.5 * blanks
    assert found.cost == about * 1250
    # Two blanks 7 1/8 in wide with an edge trim of 1/8 in each side.
    assert found.musts == (Must(2, inches("7 3/8"), inches("63")),)


def test_a_plan_of_boards_nobody_has_seen_cannot_be_cut_or_bought_by_the_piece(
    bench: Workspace,
) -> None:
    plan = yard.plan(bench)
    assert not plan.unplaced
    assert plan.to_choose
    assert not plan.to_buy
    assert not plan.can_be_cut
    with pytest.raises(WorkshopError, match="needs no boards"):
        plans.buy(bench, yard.SLUG, 1, plan.version, yard.DAY, "", NOON)
    with pytest.raises(WorkshopError, match="not on the rack yet"):
        yard.cut(bench)


def test_the_boards_bought_are_one_purchase_and_the_plan_is_made_of_them(
    bench: Workspace,
) -> None:
    buy(bench, "7 1/2 x 98\n8 × 100\n2 x 6 1/4 x 97", supplier="the yard", place="wall")
    # True board feet: 7.5 x 98 + 8 x 100 + 2 x 6.25 x 97 over 144.
    feet = Fraction(15, 2) * 98 + 8 * 100 + Fraction(25, 2) * 97
    ((kind, paid, _, _),) = yard.records(bench)
    assert (kind, paid) == ("bought", round(1250 * feet / 144))
    boards = yard.lying(bench, PieceKind.BOARD)
    assert sorted((x.piece.size.width, x.quantity) for x in boards) == [
        (inches("6 1/4"), 2),
        (inches("7 1/2"), 1),
        (inches("8"), 1),
    ]
    assert {x.piece.size.thickness for x in boards} == {inches("1")}
    assert {x.place for x in boards} == {"wall"}
    assert sum(x.cost for x in boards) == paid
    bought_boards.plan_again(bench, yard.SLUG, 1, NOON)
    plan = yard.plan(bench)
    assert not plan.stale
    assert plan.can_be_cut
    assert bought_boards.show_for(bench, yard.episode_id(bench)) == ()
    yard.cut(bench)
    assert yard.money_there(bench) == paid


def test_where_too_few_boards_were_bought_the_plan_asks_for_the_rest(
    bench: Workspace,
) -> None:
    before = to_choose(bench)
    buy(bench, "7 1/2 x 98")
    assert "the rack changed" in yard.plan(bench).stale
    bought_boards.plan_again(bench, yard.SLUG, 1, NOON)
    after = to_choose(bench)
    assert after.cost < before.cost
    assert not yard.plan(bench).can_be_cut


def test_what_was_paid_in_all_goes_before_what_is_reckoned(bench: Workspace) -> None:
    buy(bench, "7 1/2 x 98", paid="70")
    buy(bench, "6 x 96", rate="10.00")
    assert [paid for _, paid, _, _ in yard.records(bench)] == [7000, 4000]


def test_planed_boards_are_charged_as_rough_and_lie_there_as_they_are(
    workspace: Workspace,
) -> None:
    yard.start(workspace, PARTS)
    yard.make(workspace, SELLS.replace("4/4", "6/4 S2S"))
    assert yard.plan(workspace).unplaced  # 1 5/16 is too thick to plane to 13/16
    yard.make(workspace, SELLS.replace("4/4", "5/4 S2S"))
    buy(workspace, "6 x 96")
    # 1 1/4 x 6 x 96 in are 5 board feet, whatever the planer took before.
    assert yard.records(workspace)[0][1] == 5 * 1250
    (board,) = yard.lying(workspace, PieceKind.BOARD)
    assert board.piece.size.thickness == inches("1 1/16")


def test_a_metric_yard_sells_by_the_cubic_metre(workspace: Workspace) -> None:
    yard.shop(workspace, unit="mm", currency="EUR")
    yard.start(workspace, "shelf,3,20,180,900,oak")
    yard.make(workspace, "oak, 27, 120 to 240 wide, 2000 to 3000 long, 2900 per m3")
    found = to_choose(workspace)
    assert re.fullmatch(r"0\.\d\d\d cubic metres", found.about)
    # 180 mm and 1/8 in for jointing; trims of 1/8 in: up to the millimetre.
    assert found.musts[0].width == mm(190)
    buy(workspace, "200 x 2500\n2 x 185 x 2450")
    cubic = Fraction(27 * (200 * 2500 + 2 * 185 * 2450), 10**9)
    assert yard.records(workspace)[0][1] == round(290000 * cubic)
    widths = {x.piece.size.width for x in yard.lying(workspace, PieceKind.BOARD)}
    assert widths == {mm(200), mm(185)}


@pytest.mark.parametrize(
    ("boards", "fault"),
    [
        ("", "one a line"),
        ("7 1/2", "is not width × length"),
        ("98 x 7", "wider than long"),
        ("0 x 98", "more than nothing"),
        ("7 x wide", "is not a length"),
        ("many x 7 x 98", "is not how many boards"),
        ("7 x 98\n" * 101, "100 lines at most"),
        ("7 x " + "9" * 200, "is not width × length"),
    ],
)
def test_boards_that_cannot_be_read_are_refused_with_nothing_recorded(
    bench: Workspace, boards: str, fault: str
) -> None:
    with pytest.raises(WorkshopError, match=fault) as refused:
        buy(bench, boards)
    assert refused.value.input == "boards"
    assert yard.records(bench) == []


def test_a_purchase_is_for_the_plan_that_was_looked_at(bench: Workspace) -> None:
    old = yard.seen(bench).version
    yard.make(bench, SELLS + "\nwalnut, 1, 4, 30, 99")
    form = {"boards": "7 x 98"}
    with pytest.raises(StaleEdit):
        bought_boards.buy(bench, yard.SLUG, 1, "dealer-1", old, form, CLOCK)
    with pytest.raises(NotFound):
        buy(bench, "7 x 98", line="dealer-7")
    assert yard.records(bench) == []


def test_sheets_are_bought_as_sheets(workspace: Workspace) -> None:
    yard.start(workspace, "back,1,1/2,20,30,ply")
    yard.make(workspace, "ply, 9/16, 48, 96, 62.00 a sheet")
    plans.buy(workspace, yard.SLUG, 1, 1, yard.DAY, "", NOON)
    (sheet,) = yard.lying(workspace, PieceKind.SHEET)
    assert (sheet.piece.size.width, sheet.cost) == (inches("48"), 6200)
    assert sheet.piece.size.length == Length(96 * 25_400_000)
