"""The story of one episode: what is known of it when it is checked."""

from __future__ import annotations

from dataclasses import dataclass

# The places of an episode's page from top to bottom, then the series' own page.
PLACES = ("head", "design", "wood", "bench", "film", "out", "series")


@dataclass(frozen=True, slots=True)
class Other:
    """Another part. ``url`` is its video's, ``due`` an ISO date; empty: not known."""

    number: int
    url: str = ""
    due: str = ""


@dataclass(frozen=True, slots=True)
class Told:
    """A promise told to viewers, and the part where it was told or is kept."""

    text: str
    other: Other


@dataclass(frozen=True, slots=True)
class Passage:
    """One block of the description as it goes out."""

    title: str
    text: str


@dataclass(frozen=True, slots=True)
class Story:
    """What the checks read of an episode; by default nothing is known of it.

    ``wood`` counts its pieces of wood and ``wood_planned`` those not cut yet;
    ``unplaced`` the blanks for which its plan found no wood. Times are
    milliseconds of the final cut. ``disclosure`` and ``passages`` are texts as
    they go out, ``given`` names what was not paid for in full.
    """

    title: str = ""
    opening: str = ""
    video_url: str = ""
    designed: bool = False
    wood: int = 0
    wood_planned: int = 0
    unplaced: int = 0
    steps: int = 0
    steps_done: int = 0
    photos: int = 0
    photos_wordless: int = 0
    cover: bool = False
    captions: bool = False
    chapter_starts_ms: tuple[int, ...] = ()
    length_ms: int | None = None
    passages: tuple[Passage, ...] = ()
    description: str = ""
    disclosure: str = ""
    given: tuple[str, ...] = ()
    neighbours: tuple[Other, ...] = ()
    promises_open: tuple[Told, ...] = ()
    promises_linked: tuple[Told, ...] = ()
