"""What a series folder must be before it is kept: its parts fit, pages can show it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import select
from sqlalchemy.exc import DBAPIError, IntegrityError, StatementError
from sqlalchemy.orm import Session

from app.core.errors import WorkshopError
from app.publish.archive import BadSeries
from app.publish.sheet import from_json
from app.services import designs, gathering, plans, series_wood, settings
from app.store.records import BadRecord
from app.store.schema import Episode, PlanRow, Publication, Series

LONGEST_ADDRESS = 80
MOST_PARTS = 9999
# "new" is the page that starts a series.
OURS = ("new",)
MISFIT = (
    "records do not fit together; a key is missing, there twice or holds another "
    "kind of thing."
)


@contextmanager
def fitting() -> Iterator[None]:
    """Say in words where records do not fit; troubles of the disk pass."""
    try:
        yield
    except BadRecord as error:
        raise BadSeries("The folder", str(error)) from error
    except StatementError as error:
        if isinstance(error, DBAPIError) and not isinstance(error, IntegrityError):
            raise
        raise BadSeries("The folder", MISFIT) from error
    except (ArithmeticError, AttributeError, LookupError, TypeError, ValueError) as e:
        raise BadSeries("The folder", MISFIT) from e


def check_address(work: Session, slug: str) -> None:
    """Refuse a series' address that cannot be one, or is taken."""
    if not is_address(slug) or slug in OURS:
        raise WorkshopError(
            f"“{slug[:80]}” cannot be a series' address. Use small letters, figures "
            "and hyphens.",
            input="slug",
        )
    if work.scalar(select(Series.id).where(Series.slug == slug)) is not None:
        raise WorkshopError(
            f"There is a series “{slug}” here already. Bring this one in under "
            "another name.",
            input="slug",
            nearest=f"{slug[:77]}-2",
        )


def is_address(slug: str) -> bool:
    """Whether it is written as addresses here are: letters of any script, hyphens."""
    words = slug.split("-")
    plain = all(word.isalnum() and word == word.casefold() for word in words)
    return plain and len(slug) <= LONGEST_ADDRESS


def read_part(record: Mapping[str, Any]) -> tuple[int, str]:
    """A part's number and short name. Raises BadRecord where none can be such."""
    number, slug = record.get("number"), record.get("slug")
    if type(number) is not int or not 1 <= number <= MOST_PARTS:
        raise BadRecord(f"{str(number)[:40]!r} is no number of a part.")
    if not isinstance(slug, str) or not is_address(slug):
        raise BadRecord(f"{str(slug)[:40]!r} is no short name of a part.")
    return number, slug


def check_shown(work: Session, series: Series, episodes: Iterable[Episode]) -> None:
    """Work out all that pages show of new parts; what cannot be is refused."""
    ZoneInfo(settings.within(work).zone)
    series_wood.shown(work, series)
    for episode in episodes:
        designs.within(work, episode.id)
        gathering.sheet(work, episode.id, None)
        for plan in work.scalars(select(PlanRow).filter_by(episode_id=episode.id)):
            plans.shown(work, plan)
        mine = select(Publication).filter_by(episode_id=episode.id)
        for publication in work.scalars(mine):
            from_json(publication.sheet)
