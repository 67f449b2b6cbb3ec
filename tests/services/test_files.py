"""A series out of one workspace and into another, whole or not at all."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from PIL import Image
from sqlalchemy import select

from app.core.errors import WorkshopError
from app.core.length import inches
from app.core.movement import PieceKind
from app.publish.zips import zipped
from app.services import files
from app.store import rack
from app.store.schema import (
    PlanRow,
    StockRow,
)
from app.store.workspace import Workspace, open_workspace
from tests.services.two_series import (
    board,
    buy,
    contents,
    jpeg_with_position,
)


@pytest.mark.parametrize("target", ["again", "again.zip"])
def test_what_was_exported_and_brought_in_exports_the_same_bytes(
    exported: Path, tmp_path: Path, target: str
) -> None:
    second = open_workspace(tmp_path / "second")
    files.import_series(second, exported)
    again = files.export_series(second, "sill", tmp_path / target)
    if target.endswith(".zip"):
        third = open_workspace(tmp_path / "third")
        files.import_series(third, again.read_bytes())
        again = files.export_series(third, "sill", tmp_path / "unzipped")
        third.close()
    second.close()
    assert contents(again) == contents(exported)


def test_a_plan_still_names_its_board_in_another_workspace(
    exported: Path, tmp_path: Path
) -> None:
    second = open_workspace(tmp_path / "second")
    with second.write() as work:
        buy(work, board("12"), 1)  # so that no row has the number it had
    files.import_series(second, exported)
    with second.read() as work:
        plan = work.scalars(select(PlanRow)).one()
        (layout,) = plan.answer["layouts"]
        stock = work.get(StockRow, int(layout["stock"]))
        assert stock
        assert stock.length_nm == inches("96").nm
        ids = [one["id"] for one in plan.job["job"]["stock"]]
        assert ids == [layout["stock"], "dealer-1"]
    second.close()


def test_a_zip_of_the_same_series_is_the_same_file(
    exported: Path, workspace: Workspace
) -> None:
    first = files.zipped_series(workspace, "sill")
    assert first == files.zipped_series(workspace, "sill")


def test_wood_and_money_that_came_and_went_balance_without_the_other_series(
    exported: Path, tmp_path: Path
) -> None:
    moves = json.loads((exported / "movements.json").read_text())["movements"]
    kinds = [move["kind"] for move in moves]
    assert kinds == [
        "bought", "cut", "opening count", "cut", "opening count", "cut", "given away",
    ]  # fmt: skip
    assert [move["paid"] for move in moves] == [4000, 0, 2000, 0, 0, 0, 0]
    second = open_workspace(tmp_path / "second")
    files.import_series(second, exported)
    with second.read() as work:
        lying = {(p.piece.size.length, p.quantity) for p in rack.on_hand(work)}
    second.close()
    # The half of the own board went to the other series; the half of the shared
    # board and the quarter from the other series' offcut are this one's.
    assert lying == {(inches("24"), 1), (inches("12"), 1)}


def test_both_series_brought_into_one_workspace_lay_no_board_there_twice(
    exported: Path, workspace: Workspace, tmp_path: Path
) -> None:
    other = files.export_series(workspace, "other", tmp_path / "other")
    second = open_workspace(tmp_path / "second")
    files.import_series(second, exported)
    files.import_series(second, other)
    with workspace.read() as before, second.read() as after:
        pieces = [
            sorted((p.piece.size.length, p.piece.kind, p.quantity) for p in on_hand)
            for on_hand in (rack.on_hand(before), rack.on_hand(after))
        ]
    second.close()
    # The one board nobody has used stays in the first workspace.
    pieces[0].remove((inches("48"), PieceKind.BOARD, 1))
    assert pieces[0] == pieces[1]


def test_exported_photos_carry_no_place_and_no_serial_number(
    exported: Path, workspace: Workspace, tmp_path: Path
) -> None:
    (photo,) = (exported / "01-part-1" / "photos").iterdir()
    content = photo.read_bytes()
    assert b"SN-12345" not in content
    with Image.open(photo) as picture:
        exif = picture.getexif()
    assert not exif.get_ifd(0x8825)
    assert exif.get_ifd(0x8769)[0x9003] == "2026:03:01 10:00:00"
    kept_whole = files.export_series(
        workspace, "sill", tmp_path / "originals", originals=True
    )
    (photo,) = (kept_whole / "01-part-1" / "photos").iterdir()
    assert photo.read_bytes() == jpeg_with_position()


def test_a_json_document_has_one_record_a_line_with_sorted_keys(exported: Path) -> None:
    lines = (exported / "movements.json").read_text().splitlines()
    moves = json.loads("\n".join(lines))["movements"]
    for move in moves:
        line = json.dumps(move, sort_keys=True, ensure_ascii=False)
        assert line in {text.rstrip(",") for text in lines}


def test_a_series_that_is_there_already_comes_in_under_another_name(
    exported: Path, workspace: Workspace
) -> None:
    with pytest.raises(WorkshopError, match="“sill” here already") as refused:
        files.import_series(workspace, exported)
    assert refused.value.input == "slug"
    made = files.import_series(workspace, exported, slug=refused.value.nearest)
    assert made.slug == "sill-2"
    with workspace.read() as work:
        labels = list(work.scalars(select(StockRow.label)))
    assert len(labels) == len(set(labels))


def test_importing_says_how_far_it_is(exported: Path, tmp_path: Path) -> None:
    heard: list[tuple[int, int]] = []
    second = open_workspace(tmp_path / "second")
    files.import_series(second, exported, lambda done, of, _: heard.append((done, of)))
    second.close()
    assert heard == [(1, 1)]


def test_a_zip_of_the_folder_itself_comes_in_too(
    exported: Path, tmp_path: Path
) -> None:
    second = open_workspace(tmp_path / "second")
    packed = zipped((f"sill/{name}", data) for name, data in contents(exported).items())
    assert files.import_series(second, packed).episodes == 2
    second.close()
