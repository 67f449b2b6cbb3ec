"""Gathering an episode's facts into one sheet."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from sqlalchemy.orm import Session

from app.core.checking import findings
from app.core.cutting.plan import Plan
from app.core.cutting.split import joined
from app.core.cutting.written import read_plan
from app.core.design import Design
from app.core.finding import Finding
from app.core.shop import Shop
from app.core.slug import slug
from app.core.table import Table
from app.publish import description
from app.publish.description import Edit
from app.publish.sheet import (
    ChapterLine,
    CheckLine,
    CostLine,
    Part,
    PartLine,
    PhotoLine,
    PromiseLine,
    Sheet,
    UsedLine,
)
from app.services import (
    designs,
    promises,
    settings,
    sheet_build,
    sheet_safety,
    sheet_ways,
    sheet_wood,
    story,
    used,
)
from app.services.promises import Place, PromiseView
from app.services.used import KINDS, UsedView
from app.store import plans
from app.store import publishing as store
from app.store.edits import get
from app.store.schema import Episode, StepRow

NO_DESIGN = Design("", "", {}, (), ())


@dataclass(frozen=True, slots=True)
class Found:
    """What is read once and said in several places; ``tables`` in both systems."""

    episode: Episode
    shop: Shop
    disclosure: str
    design: Design
    tables: tuple[Table, ...]
    steps: list[StepRow]
    items: tuple[UsedView, ...]


@dataclass(frozen=True, slots=True)
class Gathered:
    """An episode's sheet, and what it lacks with what would mend each lack."""

    sheet: Sheet
    findings: tuple[Finding, ...]


def sheet(work: Session, episode_id: int, on: date | None) -> Sheet:
    """The episode as it stands: facts, blocks (the maker's first), checks."""
    return gather(work, episode_id, on).sheet


def gather(work: Session, episode_id: int, on: date | None) -> Gathered:
    """The sheet of an episode as it stands, checked."""
    facts = _facts(work, episode_id, on)
    edits = {
        key: Edit(row.text, row.facts)
        for key, row in store.edited(work, episode_id).items()
    }
    told = replace(facts, blocks=description.blocks(facts, edits))
    found = findings(story.within(work, episode_id, told))
    lacks = (CheckLine(item.where, item.what) for item in found)
    return Gathered(replace(told, checks=(*lacks, *facts.checks)), found)


def _facts(work: Session, episode_id: int, on: date | None) -> Sheet:
    found = _found(work, episode_id)
    episode, design = found.episode, found.design
    display = found.shop.display
    blank = Sheet(
        series=episode.series.title,
        series_slug=episode.series.slug,
        number=episode.number,
        of=len(episode.series.episodes),
        title=episode.title,
        slug=episode.slug,
        date=on.isoformat() if on else "",
        unit=found.shop.unit.value,
        currency=found.shop.currency,
        opening=episode.opening,
        introduces=episode.introduces,
        video_url=episode.video_url,
        length_ms=episode.length_ms,
        build=design.title,
        disclosure=episode.series.disclosure.strip() or found.disclosure,
        sizes=tuple(sheet_build.size_line(size, display) for size in design.sizes),
        drawings=tuple(sheet_build.picture(drawing) for drawing in design.drawings),
        tables=tuple(map(sheet_build.table_line, found.tables)),
        set_ups=tuple(
            sheet_build.set_up_line(item, display) for item in design.set_ups
        ),
        checks=tuple(CheckLine("design", text) for text in design.warnings),
    )
    return _with_promises(
        work, episode_id, _with_log(work, episode_id, _with_stock(work, blank, found))
    )


def _found(work: Session, episode_id: int) -> Found:
    set_up = settings.within(work)
    return Found(
        get(work, Episode, episode_id, "Episode"),
        set_up.shop,
        set_up.disclosure,
        designs.within(work, episode_id) or NO_DESIGN,
        (designs.within(work, episode_id, both=True) or NO_DESIGN).tables,
        store.steps(work, episode_id),
        used.within(work, episode_id),
    )


def _with_stock(work: Session, sheet: Sheet, found: Found) -> Sheet:
    """Parts, wood, supplies, tools, and the cautions that follow from them."""
    design, display = found.design, found.shop.display
    wood = sheet_wood.wood(work, found.episode.id, display)
    plan = _plan(work, found.episode.id)
    steps = sheet_safety.done(found.steps)
    supplies, tools = _supplies(steps, found.items), _tools(steps, found.items)
    by_hand = {kind: [i.name for i in found.items if i.kind == kind] for kind in KINDS}
    cautions = sheet_safety.cautions(
        steps, by_hand["tool"], by_hand["supply"], sheet_ways.cautions(plan)
    )
    return replace(
        sheet,
        parts=tuple(
            PartLine(p.name, p.quantity, p.species, sheet_wood.box(p.finished, display))
            for p in design.parts
        ),
        cut_list=sheet_build.cut_list(design, display),
        diagrams=() if plan is None else sheet_build.diagrams(plan),
        sawing=() if plan is None else sheet_build.sawing(plan),
        wood=wood.lines,
        went=wood.went,
        supplies=supplies,
        tools=tools,
        cautions=cautions if steps or found.items else (),
        steps=tuple(sheet_build.step_line(step) for step in found.steps),
        costs=(*wood.costs, *(_cost(item) for item in found.items if item.cost)),
    )


def _plan(work: Session, episode_id: int) -> Plan | None:
    """All that was cut, board after board, and what is planned still."""
    latest = plans.latest(work, episode_id)
    if latest is None:
        return None
    rows = [row for row in plans.cut(work, episode_id) if row.id != latest.id]
    return joined([read_plan(row.job, row.answer) for row in (*rows, latest)])


def _supplies(
    steps: list[StepRow], items: tuple[UsedView, ...]
) -> tuple[UsedLine, ...]:
    named: dict[str, list[str]] = {}
    for step in steps:
        for supply in step.supplies:
            much = supply.get("quantity", "")
            found = named.setdefault(supply["name"], [])
            if much and much not in found:
                found.append(much)
    lines = [UsedLine(name, " and ".join(much)) for name, much in named.items()]
    return _joined(lines, [_used(item) for item in items if item.kind == "supply"])


def _tools(steps: list[StepRow], items: tuple[UsedView, ...]) -> tuple[UsedLine, ...]:
    named = dict.fromkeys(step.tool for step in steps if step.tool)
    own = [_used(item) for item in items if item.kind == "tool"]
    return _joined([UsedLine(name) for name in named], own)


def _joined(lines: list[UsedLine], own: list[UsedLine]) -> tuple[UsedLine, ...]:
    """What the maker added says more than a step's line of the same name."""
    said = {line.name.casefold() for line in own}
    return (*(line for line in lines if line.name.casefold() not in said), *own)


def _used(item: UsedView) -> UsedLine:
    return UsedLine(item.name, item.quantity, item.url, item.given)


def _cost(item: UsedView) -> CostLine:
    return CostLine(item.name, item.quantity, item.cost)


def _with_log(work: Session, episode_id: int, sheet: Sheet) -> Sheet:
    chapters = store.chapters(work, episode_id)
    photos = store.photos(work, episode_id)
    return replace(
        sheet,
        chapters=tuple(ChapterLine(row.start_ms, row.title) for row in chapters),
        photos=tuple(
            PhotoLine(
                f"photos/{place:02d}-{slug(row.name.rpartition('.')[0], 'photo')}.jpg",
                row.web_sha256,
                row.alt,
                row.caption,
                row.cover,
            )
            for place, row in enumerate(photos, 1)
        ),
    )


def _with_promises(work: Session, episode_id: int, sheet: Sheet) -> Sheet:
    told = promises.within(work, episode_id, None)
    row = get(work, Episode, episode_id, "Episode")
    others = (episode for episode in row.series.episodes if episode.id != episode_id)
    return replace(
        sheet,
        neighbours=tuple(sheet_wood.part(episode) for episode in others),
        keeps=tuple(_promise(p, p.made_in) for p in told.kept_here),
        kept=tuple(_promise(p, p.kept_in) for p in told.made if p.kept_in),
        open=tuple(_promise(p, p.made_in) for p in told.made if not p.kept_in),
    )


def _promise(view: PromiseView, other: Place) -> PromiseLine:
    due = view.due_on.isoformat() if view.due_on else ""
    part = Part(other.series, other.number, other.title, other.url, due)
    return PromiseLine(view.text, view.video_ms, part, view.kept_how)
