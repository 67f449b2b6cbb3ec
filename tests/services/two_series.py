"""One of everything, and wood that two series share, for series folders."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from io import BytesIO
from pathlib import Path
from typing import Any

from PIL import Image

from app.core.cutting.job import Job, Keep, Saw, Stock
from app.core.cutting.plan import Layout, Plan
from app.core.cutting.written import answer_document, job_document
from app.core.length import Length, inches
from app.core.movement import Made, Movement, MovementKind, PartMade, Piece, PieceKind
from app.core.part import Dimensions
from app.publish.pictures import read_picture
from app.publish.sheet import PhotoLine, Sheet, to_json
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
)
from app.store.workspace import Workspace
from tests.conftest import NOON

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
        photos = (PhotoLine("a.jpg", shas[1]),)
        frozen = Sheet("Series sill", "sill", 1, 2, one.title, one.slug, photos=photos)
        # A number beyond 2^53, which other readers of JSON would round.
        sheet = to_json(replace(frozen, revision=1, length_ms=2**60))
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
        plan = plan_on(str(own))
        job = job_document(plan.job) | {"dealer": ""}
        answer = answer_document(plan)
        work.add(PlanRow(episode_id=one.id, made_at=NOON, job=job, answer=answer))


def plan_on(board: str) -> Plan:
    """A plan that takes one board as it is, with another on offer."""
    stock = (Stock(board, inches("96")), Stock("dealer-1", inches("96"), cost=900))
    kept = Keep(inches("8"), inches("1"))
    job = Job(Saw(inches("1/8")), kept, stock, blanks=())
    return Plan(job, (Layout(board, 1, (), (), ()),))


def contents(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
