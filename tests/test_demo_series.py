"""The demo series: files that the users' importer reads, and what they show."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image
from sqlalchemy import select

from app import cli
from app.core.errors import WorkshopError, WorkspaceBusy
from app.core.movement import PieceKind
from app.main import resource
from app.services import care, demo, files, promises
from app.store import balance, rack
from app.store.schema import DesignRow, Episode, Publication, StockRow
from app.store.workspace import Workspace, hold_for_serving, open_workspace
from tests.make_demo.__main__ import bought_for
from tests.make_demo.story import PARTS
from tests.services.two_series import contents

SLUG = "one-windowsill-five-builds"


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Workspace]:
    folder = tmp_path_factory.mktemp("demo") / "data"
    assert demo.build(folder, resource("demo_series"), lambda *_: None) == SLUG
    workspace = open_workspace(folder)
    yield workspace
    workspace.close()


def test_the_demo_exports_to_the_very_files_it_came_from(
    built: Workspace, tmp_path: Path
) -> None:
    made = contents(files.export_series(built, SLUG, tmp_path / "out"))
    shipped = contents(resource("demo_series"))
    shipped.pop("README.md")
    assert made == shipped


def test_three_of_five_parts_are_out_and_the_wood_balances(built: Workspace) -> None:
    with built.read() as work:
        parts = list(work.scalars(select(Episode).order_by(Episode.number)))
        out = set(work.scalars(select(Publication.episode_id)))
        assert [part.id in out for part in parts] == [True, True, True, False, False]
        assert balance.verify(work) is None
        assert balance.of_workspace(work).exact
        species = set(work.scalars(select(StockRow.species)))
    assert {"cherry", "maple", "walnut"} <= species
    assert care.check(built, deep=True).findings == ()


def test_every_later_build_takes_an_offcut_of_an_earlier_one(built: Workspace) -> None:
    with built.read() as work:
        for part in work.scalars(select(Episode).where(Episode.number > 1)):
            used = rack.wood_used(work, part.id)
            origins = [wood.origin_number for wood in used if wood.origin_number]
            assert origins, part.number
            assert max(origins) < part.number


def test_each_part_bought_the_wood_that_its_notes_say(built: Workspace) -> None:
    with built.read() as work:
        for part in work.scalars(select(Episode)):
            told = sorted(PARTS[part.number - 1].bought)
            assert bought_for(work, part.id) == told, part.number


def test_the_last_part_is_a_tray_with_its_panel_glued_and_not_built_yet(
    built: Workspace,
) -> None:
    with built.read() as work:
        tray = work.scalars(select(Episode).where(Episode.number == 5)).one()
        design = work.scalars(
            select(DesignRow).where(DesignRow.episode_id == tray.id)
        ).one()
        assert design.form == "mitred_tray"
        waiting = [one for one in rack.on_hand(work) if one.episode_id == tray.id]
    kinds = {one.piece.kind for one in waiting}
    assert {PieceKind.PANEL, PieceKind.BLANK, PieceKind.OFFCUT} == kinds


def test_what_is_out_keeps_to_the_characters_that_a_host_takes(
    built: Workspace, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for part in ("1", "2", "3"):
        to = tmp_path / part
        where = ["--to", str(to), "--data", str(built.folder)]
        assert cli.main(["publish", SLUG, part, *where]) == 0
        # The limit of a common film host, from memory.
        assert len((to / "description.txt").read_text("utf-8")) <= 5000, part
    capsys.readouterr()


def test_promises_are_kept_and_one_is_open(built: Workspace) -> None:
    shown = promises.of_series(built, SLUG, date(2026, 4, 20))
    assert len(shown.open) == 1
    assert len(shown.kept) == 3


def test_photos_say_when_and_not_where_and_are_small() -> None:
    shipped = contents(resource("demo_series"))
    photos = [
        name for name in shipped if "/photos/" in name and "/publications/" not in name
    ]
    assert len(photos) > 10
    for name in photos:
        assert len(shipped[name]) <= 150_000, name
        with Image.open(BytesIO(shipped[name])) as picture:
            assert picture.size == (1200, 800)
            exif = picture.getexif()
            assert 0x9003 in exif.get_ifd(0x8769)
            assert not exif.get_ifd(0x8825)


def test_a_part_that_is_out_is_published_by_command_with_the_same_bytes(
    built: Workspace, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    where = ["--data", str(built.folder), "--json"]
    with hold_for_serving(built.folder):
        for name in ("one", "two"):
            to = str(tmp_path / name)
            assert cli.main(["publish", SLUG, "1", "--to", to, *where]) == 0
            assert json.loads(capsys.readouterr().out)["revision"] >= 1
    packs = [contents(tmp_path / name) for name in ("one", "two")]
    assert packs[0] == packs[1]
    assert {"description.txt", "cut_list.csv", "private/checks.json"} <= set(packs[0])
    to = str(tmp_path / "four")
    assert cli.main(["publish", SLUG, "4", "--to", to, *where]) == 2
    assert json.loads(capsys.readouterr().out)["error"]["input"] == "episode"
    assert cli.main(["publish", SLUG, "4", "--to", to, "--draft", *where]) == 0


def test_the_demo_is_built_afresh_over_an_earlier_demo_and_nothing_else(
    tmp_path: Path,
) -> None:
    folder = tmp_path / "demo"
    source = resource("demo_series")
    demo.build(folder, source, lambda *_: None)
    with hold_for_serving(folder), pytest.raises(WorkspaceBusy):
        demo.build(folder, source, lambda *_: None)
    (folder / "mine.txt").write_text("mine")
    with pytest.raises(WorkshopError, match=r"mine\.txt"):
        demo.build(folder, source, lambda *_: None)
    (folder / "mine.txt").unlink()
    assert demo.build(folder, source, lambda *_: None) == SLUG
