"""Cautions for the steps, tools and materials of a build.

They are reminders, not instruction: they defer to the tool's manual, local
codes and licensed practice, and `STANDING` says so wherever they are shown.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from app.core import wood
from app.core.errors import WorkshopError
from app.core.figures import table, words

STANDING = "general.scope"
POWERED = "powered machine"
WOOD_DUST = "wood dust"
# What every start of a motor asks for; the other rows of the powered machine
# are for choosing and keeping machines.
AT_EVERY_START = (
    "powered-machine.contact-with-cutter",
    "powered-machine.eye-injury",
    "powered-machine.noise",
    "powered-machine.entanglement",
    "powered-machine.unexpected-start",
    "cutting.wood-dust",
)
BY_HAND = {
    *("hand plane", "hand saw", "chisel", "marking knife", "drawknife", "spokeshave"),
    *("clamps", "brush or cloth", "try square", "tape measure", "mallet"),
}
# What is used on another machine carries that machine's cautions for the work.
USED_ON = {
    "mitre gauge": ("table saw", "crosscut"),
    "crosscut sled": ("table saw", "crosscut"),
}


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution with its reason and where it was read.

    ``confidence`` is ``read`` where the figure was seen in the source, else
    ``memory``. ``when`` names the work it belongs to, empty for all work.
    """

    key: str
    text: str
    reason: str
    source: str
    confidence: str
    subject: str = ""
    when: str = ""
    kind: str = ""


class NoSuchCaution(WorkshopError):
    """A step names a caution that the tables do not hold."""


@cache
def _all() -> dict[str, Caution]:
    return {
        row["key"]: Caution(
            *(row[name] for name in ("key", "text", "reason", "source", "confidence")),
            *(row[name] for name in ("subject", "when", "kind")),
        )
        for row in table("cautions")
    }


def all_cautions() -> tuple[Caution, ...]:
    """Every caution, in the order of the table."""
    return tuple(_all().values())


def cautions(keys: Iterable[str]) -> tuple[Caution, ...]:
    """The cautions of ``keys``, each once, in the order first named.

    Raises NoSuchCaution: a caution that cannot be found is never left out.
    """
    return tuple(_named(key) for key in dict.fromkeys(keys))


def _named(key: str) -> Caution:
    if key not in _all():
        raise NoSuchCaution(f"There is no caution “{key}” in the safety table.")
    return _all()[key]


def standing() -> Caution:
    """What is said wherever cautions are shown: to whom they defer."""
    return _all()[STANDING]


def for_tool(tool: str, doing: str = "") -> tuple[str, ...]:
    """Keys of the cautions that a tool brings to a step, its own first.

    ``doing`` narrows them to the work at hand (``rip``, ``crosscut``,
    ``bevel rip``, ``thin rip``, ``spline slots``…); without it all are given.
    A tool that the table does not know brings those of a powered machine
    unless it is known to be worked by hand: silence would be the worse guess.
    """
    name = tool.strip().lower()
    if not name:
        return ()
    own = _of(name, doing)
    if on := USED_ON.get(name):
        machine, usual = on
        own += _of(machine, doing or usual)
    if name in BY_HAND:
        return own
    return tuple(dict.fromkeys((*own, *AT_EVERY_START)))


def _of(name: str, doing: str) -> tuple[str, ...]:
    fits = {"", doing, "rip"} if doing.endswith(" rip") else {"", doing}
    rows = [
        row
        for row in table("cautions")
        if row["kind"] in {"tool", "operation"} and name in _names(row)
    ]
    # The narrower the work a caution is for, the sooner it is read.
    rows.sort(key=lambda row: not row["when"])
    return tuple(row["key"] for row in rows if not doing or row["when"] in fits)


def _names(row: dict[str, str]) -> frozenset[str]:
    return frozenset((row["subject"].lower(), *map(str.lower, words(row["also"]))))


def for_material(name: str) -> tuple[str, ...]:
    """Keys of the cautions that a wood, glue or finish brings.

    A name is met by every row whose words it holds: “boiled linseed oil” by
    linseed oil, white oak by oak. A wood also brings those of wood dust, and so
    does a name that no row meets, since it may be a wood.
    """
    known = wood.species_or_plain(name)
    said = _said(known.name) | _said(name)
    rows = [row for row in table("cautions") if row["kind"] == "material"]
    own = [row["key"] for row in rows if any(_said(n) <= said for n in _names(row))]
    if isinstance(known, wood.Species) or not own:
        own += [row["key"] for row in rows if row["subject"] == WOOD_DUST]
    return tuple(dict.fromkeys(own))


def _said(name: str) -> frozenset[str]:
    return frozenset(name.lower().replace("-", " ").replace(",", " ").split())
