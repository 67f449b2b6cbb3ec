"""What an episode of the demo is told with."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True)
class Told:
    """A promise: what, when in the film, until when, and the part that keeps it."""

    text: str
    at: str
    due: str = ""
    kept_in: int = 0
    how: str = ""


@dataclass(frozen=True)
class Part:
    """One episode. ``day`` is the first day in the shop, ISO; empty: planned only."""

    title: str
    introduces: str
    opening: str
    due: str
    form: str = ""
    inputs: dict[str, str] = field(default_factory=dict)
    dealer: str = ""
    bought: tuple[str, ...] = ()  # the species that had to be bought
    day: str = ""
    until: str = ""  # words of the step it has come to; empty: it is built
    url: str = ""
    length: str = ""
    notes: tuple[tuple[str, str, str], ...] = ()  # step words, film time, text
    photos: tuple[tuple[str, str, str], ...] = ()  # shot, step words, what it shows
    chapters: tuple[tuple[str, str], ...] = ()
    spoken: tuple[tuple[str, str, str], ...] = ()  # from, to, words
    promises: tuple[Told, ...] = ()
    used: tuple[tuple[str, str, str, str], ...] = ()  # kind, name, quantity, cost
    published: bool = False


# What the forms' own steps do not name.


GLUE = ("supply", "PVA wood glue", "1 fl oz (30 ml)", "0.60")
WAXED = ("supply", "waxed paper, between panel and clamps", "1 sheet", "0.20")
GAUGE = ("tool", "digital angle gauge", "", "")
