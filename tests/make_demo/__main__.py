"""Play the demo series through the services and write it as open files.

``python -m tests.make_demo`` writes ``demo_series/`` anew; ``--fast`` renders
small, rough photos, to see whether the story holds.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from datetime import date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.errors import WorkshopError
from app.core.movement import Piece, PieceKind
from app.services import (
    building,
    chapters,
    designs,
    episodes,
    film,
    log,
    notes,
    photos,
    plans,
    promises,
    publishing,
    series,
    settings,
    used,
)
from app.services.files import export_series
from app.services.rack_work import Clock
from app.store import rack
from app.store.schema import MovementRow, StockRow
from app.store.workspace import Workspace, open_workspace
from tests.make_demo import scene, story, telling
from tests.make_demo.pictures import picture
from tests.make_demo.shots import Wood

ROOT = Path(__file__).parents[2]
ZONE = ZoneInfo("America/Chicago")
STARTED = datetime(2026, 3, 1, 18, 0, tzinfo=ZONE)


class Play:
    """One part being played: its clock goes on as it is worked on."""

    def __init__(self, workspace: Workspace, slug: str, number: int) -> None:
        self.workspace, self.slug, self.number = workspace, slug, number
        self.part = story.PARTS[number - 1]
        self.id = episodes.find(workspace, slug, number).id
        day = date.fromisoformat(self.part.day or self.part.due)
        self.told: dict[telling.Told, int] = {}
        self.now = datetime(day.year, day.month, day.day, 9, 0, tzinfo=ZONE)

    @property
    def clock(self) -> Clock:
        return Clock(self.now.date(), self.now)

    def later(self, **time: float) -> datetime:
        self.now += timedelta(**time)
        return self.now

    def design(self) -> None:
        inputs = self.part.inputs
        designs.save(self.workspace, self.id, self.part.form, inputs, 0)

    def saw(self) -> None:
        """Plan, buy what is missing, cut."""
        where = (self.workspace, self.slug, self.number)
        plans.make(*where, 0, self.part.dealer, "either", self.later(minutes=20))
        day = self.now.date().isoformat()
        version = plans.show(self.workspace, self.id).version
        try:
            plans.buy(*where, version, day, "the yard in town", self.later(hours=2))
        except WorkshopError as enough:
            print(f"  part {self.number}: {enough}")
        self.prove_bought()
        version = plans.show(self.workspace, self.id).version
        plans.mark_cut(*where, version, day, self.later(hours=1))

    def build(self) -> None:
        """Glue up every panel and build the parts, as far as the story has come."""
        where = (self.workspace, self.slug, self.number)
        shown = building.show(self.workspace, self.id)
        assert shown
        for panel in shown.panels:
            self.later(hours=1)
            typed = {"quantity": str(panel.wanted), "on": self.now.date().isoformat()}
            building.glue_up(*where, panel.key, typed, self.clock)
        if not self.part.until:
            self.later(days=1)
            building.finish(*where, {"on": self.now.date().isoformat()}, self.clock)
        last = self.step(self.part.until)
        for step in log.show(self.workspace, self.id).steps:
            log.tick(*where, step.id, True, self.later(minutes=25))
            if str(step.id) == last:
                break

    def prove_bought(self) -> None:
        """The notes say what had to be bought; a plan that buys other wood is told."""
        with self.workspace.read() as work:
            bought = bought_for(work, self.id)
        if bought != sorted(self.part.bought):
            print(f"  part {self.number} bought {bought}: the story is not true")

    def wood(self) -> tuple[Wood, Wood]:
        """What this part took from the rack, and what it has left there."""
        with self.workspace.read() as work:
            took = [one.piece for one in rack.wood_used(work, self.id)]
            piles = [one for one in rack.on_hand(work) if one.episode_id == self.id]
            # Panels and blanks wait for this very build: they are not left over.
            left = [one.piece for one in piles if one.piece.kind == PieceKind.OFFCUT]
        return _looks(took), _looks(left)

    def step(self, words: str) -> str:
        """The id of the first step whose name holds the words."""
        found = log.show(self.workspace, self.id).steps
        named = [step for step in found if words.lower() in step.name.lower()]
        return str(named[0].id) if words and named else ""

    def tell(self) -> None:
        """Notes, photos and what was used."""
        where = (self.workspace, self.slug, self.number)
        for words, at, text in self.part.notes:
            typed = notes.NoteTyped(text, self.step(words), at)
            notes.add(*where, typed, self.later(minutes=4))
        took, left = self.wood()
        for shot, words, alt in self.part.photos:
            taken = self.later(minutes=6)
            made = picture(shot, taken, left if shot.startswith("off") else took)
            name = f"{shot}.jpg"
            step = self.step(words)
            row = photos.add(self.workspace, self.id, name, made, step, taken)
            photos.save(*where, row, 1, "", alt, step)
            if shot.startswith("done"):
                photos.choose_cover(*where, row)
        for kind, name, quantity, cost in self.part.used:
            used.add(
                self.workspace, self.id, used.UsedTyped(kind, name, quantity, cost=cost)
            )

    def film(self) -> None:
        """Length, captions, chapters, and the link."""
        where = (self.workspace, self.slug, self.number)
        part = self.part
        if not part.length:
            return
        version = episodes.find(*where).version
        film.save_length(*where, version, part.length)
        film.put_captions(
            *where, "final-cut.vtt", _vtt(part.spoken), self.later(days=1)
        )
        for at, title in part.chapters:
            chapters.add(*where, at, title)

    def head(self) -> None:
        where = (self.workspace, self.slug, self.number)
        version = episodes.find(*where).version
        part = self.part
        episodes.save_head(
            *where, version, part.title, part.opening, part.due, part.url
        )


def bought_for(work: Session, episode_id: int) -> list[str]:
    """The species that were bought for an episode."""
    query = (
        select(StockRow.species)
        .join(MovementRow, MovementRow.id == StockRow.made_by)
        .where(MovementRow.kind == "bought", MovementRow.episode_id == episode_id)
        .distinct()
        .order_by(StockRow.species)
    )
    return list(work.scalars(query))


def _looks(pieces: list[Piece]) -> Wood:
    """Species and millimetres, as the camera wants them."""
    sizes = [(one.species, one.size) for one in pieces]
    return [
        (species, (size.length.nm / 1e6, size.width.nm / 1e6, size.thickness.nm / 1e6))
        for species, size in sizes
    ]


def _vtt(spoken: tuple[tuple[str, str, str], ...]) -> bytes:
    def stamp(time: str) -> str:
        minutes, seconds = time.split(":")
        return f"{int(minutes):02d}:{int(seconds):02d}.000"

    cues = (f"{stamp(a)} --> {stamp(b)}\n{words}\n" for a, b, words in spoken)
    return ("WEBVTT\n\n" + "\n".join(cues)).encode()


def play(workspace: Workspace) -> str:
    """The whole series, part by part; gives its slug."""
    facts = settings.load(workspace)
    form = settings.typed(facts) | {"zone": ZONE.key, "both": "yes"}
    settings.save(workspace, form, facts.version)
    slug = series.create(workspace, story.TITLE, story.SUMMARY)
    version = series.show(workspace, slug).version
    series.save(workspace, slug, version, story.TITLE, story.SUMMARY, story.DISCLOSURE)
    for part in story.PARTS:
        episodes.add(workspace, slug, part.title, part.introduces, part.due)
    parts = [Play(workspace, slug, n) for n in range(1, len(story.PARTS) + 1)]
    for one in parts:
        one.head()
        if one.part.form:
            one.design()
        if one.part.day:
            one.saw()
            one.build()
            one.tell()
            one.film()
            keep(one, parts)
        make_promises(one)
        freeze(one, one)
        print(f"  part {one.number} done")
    # Links to later parts and kept promises came after the first revision.
    for one in parts:
        freeze(one, parts[-1])
    return slug


def make_promises(one: Play) -> None:
    """What this part tells its viewers would come."""
    for told in one.part.promises:
        typed = promises.PromiseTyped(told.text, told.at, told.due)
        one.told[told] = promises.record(one.workspace, one.id, typed)


def keep(one: Play, parts: list[Play]) -> None:
    """The promises of earlier parts that this one keeps."""
    for earlier in parts[: one.number - 1]:
        for told, row in earlier.told.items():
            if told.kept_in == one.number:
                promises.keep(one.workspace, row, one.id, told.how, 1)


def freeze(one: Play, clock: Play) -> None:
    """Freeze a part that is out, if anything changed."""
    if not one.part.published:
        return
    now = clock.later(hours=1)
    try:
        publishing.freeze(one.workspace, one.id, now.date(), now, ZONE.key)
    except WorkshopError as same:
        print(f"  part {one.number}: {same}")


def main(words: list[str]) -> None:
    """Write the demo series anew."""
    if "--fast" in words:
        scene.OVER = 0.25
    named = [word for word in words if not word.startswith("--")]
    target = Path(named[0]) if named else ROOT / "demo_series"
    readme = (Path(__file__).parent / "README-of-the-demo.md").read_bytes()
    with tempfile.TemporaryDirectory() as scratch:
        workspace = open_workspace(Path(scratch) / "data")
        made = Path(scratch) / "made"
        export_series(workspace, play(workspace), made)
        workspace.close()
        (made / "README.md").write_bytes(readme)
        shutil.rmtree(target, ignore_errors=True)
        shutil.copytree(made, target)
    print(f"wrote {target}")


if __name__ == "__main__":
    main(sys.argv[1:])
