"""Going out: what the pack says, what is frozen, what changed since."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest

from app.core import safety
from app.core.errors import NotFound, StaleEdit, WorkshopError
from app.core.length import inches
from app.core.movement import Made, Movement, MovementKind, Piece, PieceKind
from app.core.part import Dimensions
from app.publish import pack
from app.publish.sheet import Sheet
from app.services import designs, plans, promises, publishing, used
from app.services.promises import PromiseTyped
from app.services.used import UsedTyped
from app.store import files, movements
from app.store.schema import Episode, Photo, Publication, Series, StepRow
from app.store.workspace import Workspace
from tests.conftest import NOON
from tests.services.shop import (
    FIRST_FILM,
    MONDAY,
    SLUG,
    chapters,
    leftover,
    porch,
    steps,
)


def block(sheet: Sheet, key: str) -> str:
    return next(item.text for item in sheet.blocks if item.key == key)


def test_a_leftover_is_credited_to_its_part_in_number_and_unit_with_the_link(
    workspace: Workspace,
) -> None:
    first, second, _ = porch(workspace)
    leftover(workspace, first, second)
    made = publishing.sheet(workspace, second, MONDAY)
    credit = (
        "cherry strip, 1/4 x 1 x 9 in (6.4 x 25.4 x 228.6 mm), left over from part 1 "
        f"({FIRST_FILM})"
    )
    assert credit in block(made, "used")
    assert made.wood[0].origin is not None
    assert made.wood[0].origin.title == "Lantern stand"
    assert b"left over from part 1" in pack.render(made, "materials.csv")


def test_the_safety_block_follows_the_steps_that_were_ticked(
    workspace: Workspace,
) -> None:
    first, second, _ = porch(workspace)
    steps(workspace, first)
    steps(workspace, second, ticked=("oil",))
    kickback = safety.cautions(["table-saw.kickback"])[0].text
    assert kickback in block(publishing.sheet(workspace, first, MONDAY), "cautions")
    ticked = publishing.sheet(workspace, second, MONDAY)
    assert kickback not in block(ticked, "cautions")
    assert ticked.cautions[-1].text == safety.standing().text
    assert [line.name for line in ticked.tools] == ["brush or cloth"]


def test_a_tool_added_by_hand_brings_its_cautions(workspace: Workspace) -> None:
    first, *_ = porch(workspace)
    steps(workspace, first, ticked=("oil",))
    used.add(workspace, first, UsedTyped("tool", "band saw"))
    made = publishing.sheet(workspace, first, MONDAY)
    assert any(line.about == "Band saw" for line in made.cautions)


def test_a_caution_that_the_table_lacks_is_told_and_not_left_out(
    workspace: Workspace,
) -> None:
    first, *_ = porch(workspace)
    steps(workspace, first)
    with workspace.write() as work:
        work.query(StepRow).filter_by(key="rip").one().cautions = ["no-such.thing"]
    made = publishing.sheet(workspace, first, MONDAY)
    assert "no-such.thing" in block(made, "cautions")


def test_what_was_given_is_disclosed_first_and_beside_its_link(
    workspace: Workspace,
) -> None:
    first, *_ = porch(workspace)
    used.add(
        workspace,
        first,
        UsedTyped("supply", "hardwax oil", url="https://shop.example/oil", given=True),
    )
    made = publishing.sheet(workspace, first, MONDAY)
    # 16 CFR 255.5(a): goods count; 255.0(f): hard to miss, so before any fold.
    assert made.description.startswith("I was given hardwax oil")
    assert "hardwax oil (given to me) https://shop.example/oil" in block(made, "used")


def test_an_edited_disclosure_that_hides_a_gift_is_told_to_the_maker(
    workspace: Workspace,
) -> None:
    first, *_ = porch(workspace)
    used.add(workspace, first, UsedTyped("tool", "band clamp", given=True))
    publishing.edit_block(workspace, first, "disclosure", "Enjoy!", 0)
    made = publishing.sheet(workspace, first, MONDAY)
    assert block(made, "disclosure") == "Enjoy!"
    told = [line.text for line in made.checks]
    assert "You were given band clamp; the disclosure does not say so." in told


def test_the_series_disclosure_stands_before_the_workspace_one(
    workspace: Workspace,
) -> None:
    first, *_ = porch(workspace)
    assert not block(publishing.sheet(workspace, first, MONDAY), "disclosure")
    with workspace.write() as work:
        work.query(Series).one().disclosure = "Nobody paid for this."
    made = publishing.sheet(workspace, first, MONDAY)
    assert block(made, "disclosure") == "Nobody paid for this."


def test_an_edit_wins_is_marked_when_its_facts_change_and_can_be_undone(
    workspace: Workspace,
) -> None:
    first, *_ = porch(workspace)
    publishing.edit_block(workspace, first, "chapters", "See the film.\r\n", 0)

    def shown() -> publishing.BlockView:
        view = publishing.show(workspace, first, MONDAY)
        return next(b for b in view.blocks if b.written.key == "chapters")

    assert (shown().written.text, shown().written.changed) == ("See the film.", False)
    chapters(workspace, first)
    now = shown()
    assert (now.written.text, now.written.changed) == ("See the film.", True)
    assert "0:45 Rip" in now.written.computed
    publishing.edit_block(
        workspace, first, "chapters", "See it.", now.version, now.facts
    )
    assert not shown().written.changed
    publishing.restore_block(workspace, first, "chapters", shown().version)
    assert shown().written.text == now.written.computed


def test_the_second_of_two_windows_sees_the_other_words(workspace: Workspace) -> None:
    first, *_ = porch(workspace)
    publishing.edit_block(workspace, first, "opening", "One window.", 0)
    with pytest.raises(StaleEdit) as caught:
        publishing.edit_block(workspace, first, "opening", "Another.", 0)
    assert caught.value.stored["text"] == "One window."
    publishing.restore_block(workspace, first, "opening", 1)
    with pytest.raises(StaleEdit):
        publishing.edit_block(workspace, first, "opening", "Another.", 1)


def test_a_block_that_no_description_has_is_refused(workspace: Workspace) -> None:
    first, *_ = porch(workspace)
    with pytest.raises(NotFound, match="no block “praise”"):
        publishing.edit_block(workspace, first, "praise", "x", 0)


def test_a_frozen_revision_stays_and_later_changes_are_a_difference(
    workspace: Workspace,
) -> None:
    first, *_ = porch(workspace)
    assert publishing.freeze(workspace, first, MONDAY, NOON) == 1
    frozen = publishing.chosen(workspace, first, 1, None)
    before = pack.files(frozen, {})
    with pytest.raises(WorkshopError, match="Nothing has changed since revision 1"):
        publishing.freeze(workspace, first, date(2026, 3, 9), NOON)
    chapters(workspace, first)
    view = publishing.show(workspace, first, MONDAY)
    changed = {c.title: c.lines for c in view.changes}
    assert list(changed) == ["Chapters"]
    assert ("new", "0:45 Rip") in {
        (line.kind, line.text) for line in changed["Chapters"]
    }
    assert pack.files(publishing.chosen(workspace, first, 1, None), {}) == before
    assert publishing.freeze(workspace, first, MONDAY, NOON) == 2
    assert [r.number for r in publishing.show(workspace, first, MONDAY).revisions] == [
        2,
        1,
    ]
    assert publishing.show(workspace, first, MONDAY).changes == ()


def test_a_revision_that_was_never_frozen_is_not_found(workspace: Workspace) -> None:
    first, *_ = porch(workspace)
    with pytest.raises(NotFound, match="Revision 3"):
        publishing.chosen(workspace, first, 3, None)


def test_what_is_missing_stands_in_words(workspace: Workspace) -> None:
    first, *_ = porch(workspace)
    promises.record(workspace, first, PromiseTyped("a lid", due="2026-05-01"))
    told = {line.what for line in publishing.show(workspace, first, MONDAY).missing}
    assert {
        "No design yet, so no sizes and no parts.",
        "No chapters yet.",
        "No cover photo chosen yet.",
        "No disclosure yet: say what you were given.",
        "Promised, not kept yet, due 2026-05-01: “a lid”.",
        "Part 2 has no address and no date.",
    } <= told


def test_a_kept_promise_links_both_ways(workspace: Workspace) -> None:
    first, second, _ = porch(workspace)
    with workspace.write() as work:
        work.get_one(Episode, second).video_url = "https://films.example/porch-2"
    told = PromiseTyped("a planter of the offcuts", at="8:32")
    made = promises.record(workspace, first, told)
    promises.keep(workspace, made, second, "", 1)
    keeper = block(publishing.sheet(workspace, second, MONDAY), "links")
    assert "Kept here: “a planter of the offcuts”, promised at 8:32 in part 1" in keeper
    assert FIRST_FILM in keeper
    promiser = block(publishing.sheet(workspace, first, MONDAY), "links")
    assert "kept in part 2, Herb planter. https://films.example/porch-2" in promiser


def test_a_pack_needs_a_frozen_revision_unless_it_is_a_draft(
    workspace: Workspace, tmp_path: Path
) -> None:
    first, *_ = porch(workspace)
    to = tmp_path / "out"
    with pytest.raises(WorkshopError, match="no frozen revision yet"):
        publishing.write_pack(workspace, SLUG, 1, to)
    assert not to.exists()
    publishing.write_pack(workspace, SLUG, 1, to, draft=True)
    assert set(pack.exporters()) <= {
        path.relative_to(to).as_posix() for path in to.rglob("*")
    }
    publishing.freeze(workspace, first, MONDAY, NOON)
    made = publishing.write_pack(workspace, SLUG, 1, to)
    assert (made.revision, made.date) == (1, "2026-03-02")


def test_the_photos_of_a_pack_are_the_cleaned_copies(
    workspace: Workspace, tmp_path: Path
) -> None:
    first, *_ = porch(workspace)
    original = files.put(workspace.folder, b"original with a place in it")
    web = files.put(workspace.folder, b"cleaned")
    with workspace.write() as work:
        work.add(
            Photo(
                episode_id=first,
                sha256=original,
                web_sha256=web,
                thumb_sha256=web,
                name="../IMG 7.HEIC",
                format="HEIF",
                width=4,
                height=3,
                added_at=NOON,
                cover=True,
            )
        )
    to = tmp_path / "out"
    publishing.write_pack(workspace, SLUG, 1, to, draft=True)
    (photo,) = (to / "photos").iterdir()
    assert photo.name == "01-img-7.jpg"
    assert photo.read_bytes() == b"cleaned"


def test_the_same_data_gives_the_same_bytes(
    workspace: Workspace, tmp_path: Path
) -> None:
    first, second, _ = porch(workspace)
    leftover(workspace, first, second)
    steps(workspace, second)
    for name in ("one", "two"):
        publishing.write_pack(workspace, SLUG, 2, tmp_path / name, draft=True)
    one, two = (
        {p.relative_to(root): p.read_bytes() for p in root.rglob("*") if p.is_file()}
        for root in (tmp_path / "one", tmp_path / "two")
    )
    assert one == two


def test_what_a_build_cost_stays_with_the_maker(workspace: Workspace) -> None:
    first, *_ = porch(workspace)
    used.add(workspace, first, UsedTyped("supply", "oil", cost="12.34"))
    made = publishing.sheet(workspace, first, MONDAY)
    holding = [n for n in pack.exporters() if b"12.34" in pack.render(made, n)]
    assert holding == ["private/costs.csv"]


def test_a_kept_sheet_is_plain_json_in_the_database(workspace: Workspace) -> None:
    first, *_ = porch(workspace)
    publishing.freeze(workspace, first, MONDAY, NOON)
    with workspace.read() as work:
        document = work.query(Publication).one().sheet
    assert document["format"] == "stockthread sheet"
    assert json.loads(json.dumps(document)) == document


def test_equal_strips_of_a_panel_are_one_line_of_the_cut_list(
    workspace: Workspace,
) -> None:
    first, *_ = porch(workspace)
    typed = {"sides": "6", "outside_side": "4 1/2", "height": "6", "strip_rows": "3"}
    typed["species"] = "walnut, maple"
    designs.save(workspace, first, "straight_vessel", typed, 0)
    lines = publishing.sheet(workspace, first, MONDAY).cut_list
    wall = [(c.quantity, c.species) for c in lines if c.into == "Wall panel"]
    # Three rows from the bottom up: walnut, maple, walnut.
    assert wall == [(2, "walnut"), (1, "maple")]


def test_before_the_saw_the_wood_is_named_as_planned(workspace: Workspace) -> None:
    first, second, _ = porch(workspace)
    with workspace.write() as work:
        offcut = Piece(
            PieceKind.OFFCUT,
            "cherry",
            Dimensions(inches("30"), inches("6"), inches("3/4")),
        )
        cut = Movement(
            MovementKind.CUT, made=(Made(offcut, 1),), from_outside=offcut.volume
        )
        said = {"zone": "UTC", "currency": "USD", "episode_id": first}
        movements.record(work, cut, on=MONDAY, now=NOON, **said)
    listed = "part,quantity,thickness,width,length,species\nslat,2,1/2,2,12,cherry\n"
    designs.save(workspace, second, "parts_list", {"file": listed}, 0)
    plans.make(workspace, SLUG, 2, 0, "", "either", NOON)
    made = publishing.sheet(workspace, second, MONDAY)
    used_block = block(made, "used")
    assert "cherry offcut, 3/4 x 6 x 30 in" in used_block
    assert f"left over from part 1, planned ({FIRST_FILM})" in used_block
    assert made.diagrams
    assert "The wood is planned, not cut yet." in {line.text for line in made.checks}
