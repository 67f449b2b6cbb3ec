"""A series out of one workspace and into another, whole or not at all."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from sqlalchemy import func, select

from app.core.errors import WorkshopError
from app.core.length import Length, inches
from app.core.movement import Made, Movement, MovementKind, PartMade, Piece, PieceKind
from app.core.part import Dimensions
from app.publish.pictures import read_picture
from app.publish.zips import zipped
from app.services import files
from app.store import files as kept
from app.store import movements, rack
from app.store.schema import (
    CaptionsRow,
    Chapter,
    DesignRow,
    Episode,
    MovementRow,
    Note,
    PartRow,
    Photo,
    PlanRow,
    Promise,
    Publication,
    Series,
    Settings,
    StepRow,
    StockRow,
)
from app.store.workspace import Workspace, open_workspace

NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
VTT = b"WEBVTT\n\n00:00.000 --> 00:02.000\nSix sides, one base.\n"


def jpeg_with_position(colour: str = "peru") -> bytes:
    held = BytesIO()
    exif = Image.Exif()
    exif[0x0110] = "Box camera"
    exif.get_ifd(0x8769).update(
        {0x9003: "2026:03:01 10:00:00", 0x9011: "-06:00", 0xA431: "SN-12345"}
    )
    exif.get_ifd(0x8825).update({1: "N", 2: (41.0, 5.0, 0.0)})
    Image.new("RGB", (60, 40), colour).save(held, "JPEG", exif=exif)
    return held.getvalue()


def board(length: str, quantity: int = 1, **facts: Any) -> Made:
    size = Dimensions(inches(length), inches("6"), inches("1"))
    return Made(Piece(PieceKind.BOARD, "cherry", size), quantity, **facts)


def record(work: Any, movement: Movement, episode: int | None = None) -> MovementRow:
    return movements.record(
        work,
        movement,
        on=date(2026, 3, 2),
        now=NOON,
        zone="UTC",
        currency="USD",
        episode_id=episode,
    )


def buy(work: Any, made: Made, paid: int) -> int:
    made = replace(made, cost=paid)
    bought = Movement(
        MovementKind.BOUGHT, made=(made,), from_outside=made.volume, paid=paid
    )
    return stock_of(record(work, bought))


def stock_of(row: MovementRow) -> int:
    return next(ln.stock_id for ln in row.lines if ln.side == "made" and ln.stock_id)


def cut_in_two(work: Any, stock_id: int, episode: int) -> int:
    """One board to a part and an offcut of half its length; gives the offcut."""
    (pile,) = rack.piles(work, [stock_id])
    taken = pile.taking(1)
    half = Length(pile.piece.size.length.nm // 2)
    size = Dimensions(half, pile.piece.size.width, pile.piece.size.thickness)
    offcut = Made(Piece(PieceKind.OFFCUT, pile.piece.species, size), 1, cost=0)
    part = PartMade("side", "side", 1, taken.volume - size.volume - 5, taken.cost)
    cut = Movement(
        MovementKind.CUT, taken=(taken,), made=(offcut,), parts=(part,), kerf=5
    )
    return stock_of(record(work, cut, episode))


def add_series(work: Any, slug: str) -> list[Episode]:
    series = Series(slug=slug, title=f"Series {slug}")
    work.add(series)
    work.flush()
    parts = [
        Episode(series_id=series.id, number=n, slug=f"part-{n}", title=f"Part {n}")
        for n in (1, 2)
    ]
    work.add_all(parts)
    work.flush()
    return parts


def fill(workspace: Workspace) -> None:
    """One of everything, and wood that two series share."""
    photo = jpeg_with_position()
    picture = read_picture(photo)
    shas = [kept.put(workspace.folder, d) for d in (photo, picture.web, picture.thumb)]
    captions = kept.put(workspace.folder, VTT)
    with workspace.write() as work:
        work.add(Settings(id=1, unit="mm", zone="America/Chicago", shop={"kerf": 7}))
        one, two = add_series(work, "sill")
        other, _ = add_series(work, "other")
        step = StepRow(
            episode_id=one.id, position=0, key="rip", name="Rip", tool="table saw",
            done_at=NOON, waits=[{"until": "unclamp", "minutes": 60}],
        )  # fmt: skip
        design = DesignRow(episode_id=one.id, form="parts_list", inputs={"file": "x"})
        work.add_all([step, design])
        work.flush()
        work.add(
            PartRow(
                design_id=design.id, position=0, key="side", name="Side", quantity=2,
                species="cherry", grain="length", length_nm=1, width_nm=2,
                thickness_nm=3, blank_length_nm=4, blank_width_nm=5,
                blank_thickness_nm=6, volume=10**30, outline=[[0, 1]],
            )
        )  # fmt: skip
        for text in ("One\r\ntwo", "---\nnot front matter\n---\n", ""):
            work.add(Note(episode_id=one.id, noted_at=NOON, text=text, video_ms=61_500))
        work.add(Note(episode_id=one.id, step_id=step.id, noted_at=NOON, text="Späne"))
        work.add(
            Photo(
                episode_id=one.id, step_id=step.id, sha256=shas[0], web_sha256=shas[1],
                thumb_sha256=shas[2], name="IMG 1.JPG", format="JPEG", width=60,
                height=40, added_at=NOON, alt="Two strips", cover=True,
                taken_at="2026-03-01T10:00:00", taken_offset=-360,
            )
        )  # fmt: skip
        work.add(
            CaptionsRow(
                episode_id=one.id,
                sha256=captions,
                name="cut.vtt",
                cues=1,
                added_at=NOON,
            )
        )
        work.add(Chapter(episode_id=one.id, start_ms=0, title="Start"))
        work.add_all(
            [
                Promise(episode_id=one.id, text="A lid", kept_in=two.id),
                Promise(episode_id=one.id, text="A box", kept_in=other.id),
                Promise(episode_id=one.id, text="A stand"),
            ]
        )
        sheet = {"photos": [{"sha256": shas[1], "file": "a.jpg"}], "n": 2**60}
        work.add(
            Publication(episode_id=one.id, revision=1, frozen_at=NOON, sheet=sheet)
        )
        own = buy(work, board("96", place="wall"), 4000)
        shared = buy(work, board("48", 3), 6000)
        offcut = cut_in_two(work, own, one.id)
        cut_in_two(work, shared, one.id)
        from_other = cut_in_two(work, shared, other.id)
        cut_in_two(work, from_other, two.id)
        cut_in_two(work, offcut, other.id)
        job = {"job": {"stock": [{"id": str(own)}, {"id": "dealer-1"}]}}
        answer = {"layouts": [{"stock": str(own)}]}
        work.add(PlanRow(episode_id=one.id, made_at=NOON, job=job, answer=answer))


def contents(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


@pytest.fixture
def exported(workspace: Workspace, tmp_path: Path) -> Path:
    fill(workspace)
    return files.export_series(workspace, "sill", tmp_path / "out")


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


def edit(folder: Path, name: str, change: Callable[[dict[str, Any]], object]) -> None:
    path = folder / name
    document = json.loads(path.read_text())
    change(document)
    path.write_text(json.dumps(document))


def _wrong_photo(folder: Path) -> None:
    (photo,) = (folder / "01-part-1" / "photos").iterdir()
    photo.write_bytes(b"no photo")


FAULTS: dict[str, tuple[Callable[[Path], object], str]] = {
    "a cubic nanometre too much": (
        lambda f: edit(f, "movements.json", lambda d: d["movements"][1].update(kerf=6)),
        "record 2: .* must balance",
    ),
    "a cent too little": (
        lambda f: edit(
            f, "movements.json", lambda d: d["movements"][0].update(paid=3999)
        ),
        "record 1: .* in money",
    ),
    "wood that is not there": (
        lambda f: edit(f, "movements.json", lambda d: d["movements"].pop(0)),
        "number is not 1",
    ),
    "a later version": (
        lambda f: edit(f, "series.json", lambda d: d.update(version=2)),
        "version 2 of the format",
    ),
    "an unknown list": (
        lambda f: edit(f, "series.json", lambda d: d.update(clamps=[])),
        "“clamps” is not known here",
    ),
    "a number that is text": (
        lambda f: edit(
            f, "series.json", lambda d: d["chapters"][0].update(start_ms="0")
        ),
        "“chapters”, record 1: “start_ms” cannot be",
    ),
    "a chapter of no part": (
        lambda f: edit(f, "series.json", lambda d: d["chapters"][0].update(episode=9)),
        "no part 9",
    ),
    "a photo of no step": (
        lambda f: edit(f, "series.json", lambda d: d["photos"][0].update(step="glue")),
        "no step “glue”",
    ),
    "a missing photo": (
        lambda f: shutil.rmtree(f / "01-part-1" / "photos"),
        "which is missing",
    ),
    "a photo that is none": (_wrong_photo, "photos/001-img-1.jpg: .*not a photo"),
    "a log without front matter": (
        lambda f: (f / "01-part-1" / "log.md").write_text("Hello"),
        "log.md: every note starts",
    ),
    "captions that are none": (
        lambda f: (f / "01-part-1" / "captions.vtt").write_bytes(b"\x00\x01" * 50),
        "caption",
    ),
    "no ledger": (lambda f: (f / "stock.json").unlink(), "stock.json: .*missing"),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_faulty_folder_is_refused_in_a_sentence_and_changes_nothing(
    exported: Path, tmp_path: Path, fault: str
) -> None:
    break_it, sentence = FAULTS[fault]
    break_it(exported)
    second = open_workspace(tmp_path / "second")
    with pytest.raises(WorkshopError, match=sentence):
        files.import_series(second, exported)
    with second.read() as work:
        for table in (Series, Episode, MovementRow, StockRow, Settings, Note):
            assert work.scalar(select(func.count()).select_from(table)) == 0
    second.close()
    left = [path for path in (second.folder / "files").rglob("*") if path.is_file()]
    assert left == []


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
