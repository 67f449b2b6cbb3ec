"""An episode's story: what the checks read, from its sheet and its log."""

from __future__ import annotations

from sqlalchemy.orm import Session

from app.core.story import Other, Passage, Story, Told
from app.publish.sheet import Part, PromiseLine, Sheet
from app.store import log, plans
from app.store import publishing as store


def within(work: Session, episode_id: int, sheet: Sheet) -> Story:
    """The story that a sheet tells, with what stands beside it in the log."""
    plan = plans.latest(work, episode_id)
    unplaced = plan.answer.get("unplaced", []) if plan and plan.cut_on is None else []
    return Story(
        title=sheet.title,
        opening=sheet.opening,
        video_url=sheet.video_url,
        designed=bool(sheet.build),
        wood=sum(line.quantity for line in sheet.wood),
        wood_planned=sum(line.quantity for line in sheet.wood if line.planned),
        unplaced=sum(one["quantity"] for one in unplaced),
        steps=len(sheet.steps),
        steps_done=sum(
            step.done_at is not None for step in store.steps(work, episode_id)
        ),
        photos=len(sheet.photos),
        photos_wordless=sum(not photo.alt for photo in sheet.photos),
        cover=sheet.cover is not None,
        captions=log.captions(work, episode_id) is not None,
        chapter_starts_ms=tuple(chapter.start_ms for chapter in sheet.chapters),
        length_ms=sheet.length_ms,
        passages=tuple(Passage(block.title, block.text) for block in sheet.blocks),
        description=sheet.description,
        disclosure="\n".join(b.text for b in sheet.blocks if b.key == "disclosure"),
        given=tuple(item.name for item in sheet.given),
        neighbours=tuple(_other(part) for part in sheet.neighbours),
        promises_open=tuple(_told(line) for line in sheet.open),
        promises_linked=tuple(_told(line) for line in (*sheet.keeps, *sheet.kept)),
    )


def _other(part: Part) -> Other:
    return Other(part.number, part.url, part.due)


def _told(line: PromiseLine) -> Told:
    return Told(line.text, _other(line.other))
