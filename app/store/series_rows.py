"""A series' rows as records, list by list, and back into rows.

Records point at episodes by number and at steps by key. Photos, captions,
notes and publications have files of their own beside the lists.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.store.base import Base
from app.store.records import BadRecord, from_record, to_record
from app.store.schema import (
    Chapter,
    DesignRow,
    EditedBlock,
    Episode,
    GlueUpRow,
    PartRow,
    PlanRow,
    Promise,
    Series,
    SetUpRow,
    StepRow,
    UsedItem,
)

Record = dict[str, Any]

# Lists whose rows hang on an episode alone, and those that hang on its design.
OF_EPISODE: dict[str, tuple[type[Any], tuple[str, ...]]] = {
    "designs": (DesignRow, ("id",)),
    "steps": (StepRow, ("position", "id")),
    "plans": (PlanRow, ("id",)),
    "chapters": (Chapter, ("start_ms",)),
    "promises": (Promise, ("id",)),
    "used_items": (UsedItem, ("id",)),
    "edited_blocks": (EditedBlock, ("key",)),
}
OF_DESIGN: dict[str, type[Any]] = {
    "parts": PartRow,
    "glue_ups": GlueUpRow,
    "set_ups": SetUpRow,
}
POINTERS = frozenset({"episode_id", "design_id", "series_id", "kept_in"})


def to_lists(work: Session, series: Series) -> dict[str, list[Record]]:
    """Every list of a series, in an order that importing keeps."""
    lists: dict[str, list[Record]] = {
        "episodes": [to_record(row, POINTERS) for row in series.episodes]
    }
    for name in (*OF_EPISODE, *OF_DESIGN):
        lists[name] = []
    for episode in series.episodes:
        for name, (table, order) in OF_EPISODE.items():
            rows = of_episode(work, table, episode, order)
            lists[name] += [_record(work, row, episode) for row in rows]
        for design in of_episode(work, DesignRow, episode, ("id",)):
            for name in OF_DESIGN:
                rows = getattr(design, name)
                lists[name] += [_record(work, row, episode) for row in rows]
    return lists


def of_episode(
    work: Session, table: type[Any], episode: Episode, order: Iterable[str]
) -> list[Any]:
    """An episode's rows of one table."""
    columns = [getattr(table, name) for name in order]
    query = select(table).where(table.episode_id == episode.id).order_by(*columns)
    return list(work.scalars(query))


def _record(work: Session, row: Base, episode: Episode) -> Record:
    record = to_record(row, POINTERS) | {"episode": episode.number}
    if isinstance(row, Promise):
        record["kept_in"] = None
        record |= _kept(work, row, episode)
    return record


def _kept(work: Session, row: Promise, episode: Episode) -> Record:
    """Where a promise is kept: a part of this series, or named in words."""
    if row.kept_in is None:
        return {}
    kept = work.get_one(Episode, row.kept_in)
    if kept.series_id == episode.series_id:
        return {"kept_in": kept.number}
    where = f"In “{kept.series.title}”, part {kept.number}."
    return {"kept_how": f"{where} {row.kept_how}".strip()}


def add_lists(
    work: Session, series: Series, lists: dict[str, list[Record]]
) -> dict[int, Episode]:
    """Add the rows of every list; gives the episodes by number.

    Raises BadRecord naming the list and the record's place in it.
    """
    episodes: dict[int, Episode] = {}
    for at, record in enumerate(lists["episodes"], 1):
        row = _row("episodes", at, Episode, record, series_id=series.id)
        if row.number in episodes:
            raise BadRecord(
                f"“episodes”, record {at}: part {row.number} is there twice."
            )
        episodes[row.number] = row
    work.add_all(episodes.values())
    work.flush()
    for name, (table, _) in OF_EPISODE.items():
        _add_list(work, name, table, lists[name], episodes)
    work.flush()
    designs = {
        episode.number: design
        for episode in episodes.values()
        for design in of_episode(work, DesignRow, episode, ("id",))
    }
    for name, table in OF_DESIGN.items():
        for at, record in enumerate(lists[name], 1):
            rest, design = _pointed(name, at, record, designs)
            work.add(_row(name, at, table, rest, design_id=design.id))
    work.flush()
    return episodes


def _add_list(
    work: Session,
    name: str,
    table: type[Any],
    records: list[Record],
    episodes: dict[int, Episode],
) -> None:
    for at, record in enumerate(records, 1):
        rest, episode = _pointed(name, at, record, episodes)
        pointers: Record = {"episode_id": episode.id}
        if table is Promise:
            kept = rest.pop("kept_in", None)
            if kept is not None and kept not in episodes:
                raise BadRecord(f"“{name}”, record {at}: there is no part {kept}.")
            pointers["kept_in"] = episodes[kept].id if kept is not None else None
        work.add(_row(name, at, table, rest, **pointers))


def _pointed(name: str, at: int, record: Record, known: dict[int, Any]) -> Any:
    rest = dict(record)
    number = rest.pop("episode", None)
    if type(number) is not int or number not in known:
        what = "design of part" if name in OF_DESIGN else "part"
        raise BadRecord(f"“{name}”, record {at}: there is no {what} {number!r}.")
    return rest, known[number]


def _row(name: str, at: int, table: type[Any], record: Record, **pointers: Any) -> Any:
    try:
        return from_record(table, record, **pointers)
    except BadRecord as error:
        raise BadRecord(f"“{name}”, record {at}: {error}") from error
