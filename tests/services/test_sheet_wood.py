"""The wood of a sheet: what was taken, what went back, and where the rest went."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest
from sqlalchemy import select

from app.core.length import inches
from app.publish import pack, wording
from app.publish.sheet import Sheet
from app.services import building, designs, gathering, plans, rack_work
from app.services.rack_work import Clock
from app.store import balance, schema
from app.store import rack as on_rack
from app.store.workspace import Workspace

NOW = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
CLOCK = Clock(date(2026, 3, 2), NOW)
BOARD = {"thickness": "7/8", "width": "7 1/2", "length": "96", "quantity": "1"}
HEAD = "part,quantity,thickness,width,length,species\n"
SIDES = HEAD + "side,2,3/4,3,11 1/2,cherry\n"
IN3 = inches("1").nm ** 3


@pytest.fixture
def shop(workspace: Workspace) -> Workspace:
    """Two parts of a series, two sides to make in each, one cherry board."""
    with workspace.write() as work:
        series = schema.Series(slug="porch", title="Porch pieces")
        for number, title in enumerate(("Box", "Tray"), 1):
            row = schema.Episode(number=number, slug=title.lower(), title=title)
            series.episodes.append(row)
        series.episodes[0].video_url = "https://films.example/porch-1"
        work.add(series)
    buy(workspace, "cherry", "48")
    for episode in (1, 2):
        designs.save(workspace, episode, "parts_list", {"file": SIDES}, 0)
    return workspace


def buy(workspace: Workspace, species: str, price: str, **more: str) -> None:
    rack_work.buy(workspace, BOARD | {"species": species, "price": price} | more, CLOCK)


def plan(workspace: Workspace, number: int) -> None:
    version = plans.show(workspace, number).version
    plans.make(workspace, "porch", number, version, "", "crosscut", NOW)


def saw(workspace: Workspace, number: int) -> None:
    plan(workspace, number)
    version = plans.show(workspace, number).version
    plans.mark_cut(workspace, "porch", number, version, "2026-03-02", NOW)


def sheet(workspace: Workspace, number: int) -> Sheet:
    """The sheet; whatever the state, all wood in the build is somewhere."""
    with workspace.read() as work:
        found = gathering.sheet(work, number, None)
    in_build = sum(line.in_build for line in found.wood)
    assert in_build == sum(line.volume for line in found.went)
    return found


def test_a_build_from_one_board_by_hand(shop: Workspace) -> None:
    """Two sides of 3/4 x 3 x 11 1/2 in out of one board of 7/8 x 7 1/2 x 96 in.

    Kerf 1/8; trims, kerf included, 1/2 off each end and 1/8 off each edge; blanks
    are 1/2 longer, 1/8 wider and 1/16 thicker: 13/16 x 3 1/8 x 12 in.

    board      7/8 x 7 1/2 x 96                                = 630          in3
    between the trims: 95 x 7 1/4 in; a length of 12 in is crosscut off and two
    blanks are ripped from it:
    offcut     95 - 12 - 1/8 = 82 7/8; 7/8 x 7 1/4 x 82 7/8    = 525.73828125 in3
    in build   630 - 525.73828125                              = 104.26171875 in3
               / 144 = 0.7240 board feet; x 0.016387064 = 1.7085 litres
    parts      2 x 3/4 x 3 x 11 1/2                            =  51.75       in3
    kerf       edges 2 x 1/8 x 96, ends 2 x 1/8 x 7 1/4, crosscut 1/8 x 7 1/4,
               rips 2 x 1/8 x 12 = 29.71875 in2; x 7/8         =  26.00390625 in3
    scrap      ends 2 x 3/8 x 7 1/4, beside the blanks
               (7 1/4 - 2 x 3 1/8 - 2 x 1/8) x 12 = 14.4375 in2
               x 7/8                                           =  12.6328125  in3
    chips      planed to 13/16: 2 x 3 1/8 x 12 x 1/16 = 4.6875
               and to parts: 2 x 13/16 x 3 1/8 x 12 - 51.75
               = 9.1875                                        =  13.875      in3
               51.75 + 26.00390625 + 12.6328125 + 13.875       = 104.26171875 in3
    shares     49.6, 24.9, 12.1 and 13.3 %: 50, 25, 12 and 13 add up to 100
    money      the blanks are 60.9375 in3: of 48.00 the offcut carries
               48 x 525.738 / (525.738 + 60.9375)              =  43.01
    """
    saw(shop, 1)
    building.finish(shop, "porch", 1, {}, CLOCK)
    made = sheet(shop, 1)
    (line,) = made.wood
    assert wording.wood(line, made) == (
        "cherry board, 7/8 x 7 1/2 x 96 in (22.2 x 190.5 x 2438.4 mm), of which an "
        "offcut 7/8 x 7 1/4 x 82 7/8 in is left for later parts"
    )
    assert line.in_build * 10**8 == 10_426_171_875 * IN3
    assert {one.name: one.volume * 10**8 // IN3 for one in made.went} == {
        "parts": 5_175_000_000,
        "kerf": 2_600_390_625,
        "chips": 1_387_500_000,
        "scrap": 1_263_281_250,
        "waiting to be built": 0,
        "lost or thrown out": 0,
    }
    assert wording.in_build(made) == [
        "In the build: 0.72 board feet (1.71 litres) of cherry",
        "Where it went: parts 50 %, kerf 25 %, chips 13 %, scrap 12 %",
    ]
    costs = pack.render(made, "private/costs.csv").decode()
    assert '"cherry board C1","1",4.99,"USD",48.00,43.01' in costs
    with shop.read() as work:
        books = balance.of_episode(work, 1)
        assert books.exact
        # What the build cost is what the parts carry: nothing is lost on the way.
        assert (books.parts_cost, books.written_off) == (499, 0)


def test_a_plan_that_is_not_cut_says_planned(shop: Workspace) -> None:
    plan(shop, 1)
    made = sheet(shop, 1)
    (line,) = made.wood
    assert wording.wood(line, made).endswith(
        ", planned, of which an offcut 7/8 x 7 1/4 x 82 7/8 in will be left for "
        "later parts"
    )
    # The blanks are 60.9375 of 104.26171875 in3, the rest as sawn and planed.
    assert wording.in_build(made) == [
        "Planned for the build: 0.72 board feet (1.71 litres) of cherry",
        "Where it will go: blanks 58 %, kerf 25 %, chips 5 %, scrap 12 %",
    ]


def test_what_waits_for_its_build_is_told_apart(shop: Workspace) -> None:
    saw(shop, 1)
    assert wording.in_build(sheet(shop, 1))[1] == (
        "Where it went: kerf 25 %, chips 5 %, scrap 12 %, waiting to be built 58 %"
    )
    blank = waiting_blank(shop)
    typed = {"quantity": "1", "reason": "split"}
    rack_work.discard(shop, blank, typed, CLOCK)
    assert wording.in_build(sheet(shop, 1))[1] == (
        "Where it went: kerf 25 %, chips 5 %, scrap 12 %, waiting to be built 29 %, "
        "lost or thrown out 29 %"
    )


def waiting_blank(workspace: Workspace) -> str:
    with workspace.read() as work:
        return next(pile.label for pile in on_rack.on_hand(work) if pile.part_key)


def test_the_next_part_takes_the_offcut_and_leaves_a_shorter_one(
    shop: Workspace,
) -> None:
    saw(shop, 1)
    before = sheet(shop, 1)
    saw(shop, 2)
    made = sheet(shop, 2)
    (line,) = made.wood
    # No trims on an offcut: 82 7/8 - 12 - 1/8 = 70 3/4 in.
    assert wording.wood(line, made) == (
        "cherry offcut, 7/8 x 7 1/4 x 82 7/8 in (22.2 x 184.2 x 2105 mm), left over "
        "from part 1 (https://films.example/porch-1), of which an offcut "
        "7/8 x 7 1/4 x 70 3/4 in is left for later parts"
    )
    # What a later part does with it changes nothing in the earlier one.
    after = sheet(shop, 1)
    assert (after.wood, after.went, after.costs) == (
        before.wood,
        before.went,
        before.costs,
    )


def test_an_offcut_that_the_same_part_sawed_up_is_not_left_over(
    shop: Workspace,
) -> None:
    saw(shop, 1)
    more = SIDES + "lid,1,3/4,7,82,cherry\n"
    designs.save(shop, 1, "parts_list", {"file": more}, 1)
    saw(shop, 1)
    (line,) = sheet(shop, 1).wood
    assert (line.what, line.label) == ("board", "C1")
    # 82 7/8 - 82 1/2 - 1/8 leaves no offcut worth keeping.
    assert line.left == ()
    assert line.in_build == 630 * IN3


def test_each_board_is_told_with_its_own_leftovers(shop: Workspace) -> None:
    buy(shop, "cherry", "20", length="60")
    more = HEAD + "side,3,3/4,7,40,cherry\n"
    designs.save(shop, 1, "parts_list", {"file": more}, 1)
    saw(shop, 1)
    made = sheet(shop, 1)
    left = {
        line.label: [one.box.length.inch for one in line.left] for line in made.wood
    }
    # 95 - 2 x (40 1/2 + 1/8) in; 59 - (40 1/2 + 1/8) in
    assert left == {"C1": ["13 3/4"], "C2": ["18 3/8"]}
    assert wording.in_build(made)[0].count("cherry") == 1
    with shop.write() as work:
        for row in work.scalars(select(schema.StockRow)):
            row.label = f"N-{row.id}"  # as in a workspace where the labels were taken
    again = sheet(shop, 1)
    assert wording.in_build(again) == wording.in_build(made)
    assert sum(len(line.left) for line in again.wood) == 2


def test_woods_are_summed_by_species(shop: Workspace) -> None:
    buy(shop, "maple", "40")
    more = SIDES + "end,2,3/4,3,11 1/2,maple\n"
    designs.save(shop, 1, "parts_list", {"file": more}, 1)
    saw(shop, 1)
    assert wording.in_build(sheet(shop, 1))[0] == (
        "In the build: 0.72 board feet (1.71 litres) of cherry and 0.72 board feet "
        "(1.71 litres) of maple"
    )


def test_a_cut_taken_back_is_a_plan_again(shop: Workspace) -> None:
    saw(shop, 1)
    view = building.show(shop, 1)
    assert view is not None
    building.undo(shop, "porch", 1, view.records[-1].id, "wrong board", CLOCK)
    made = sheet(shop, 1)
    assert [line.planned for line in made.wood] == [True]
    assert pack.render(made, "private/costs.csv").decode().count("\r\n") == 2
