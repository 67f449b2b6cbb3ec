"""One operation of a build."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Until(StrEnum):
    """What a wait is for."""

    UNCLAMP = "unclamp"
    MACHINE = "machine"
    RECOAT = "recoat"
    USE = "use"


@dataclass(frozen=True, slots=True)
class Wait:
    """Time that passes without the maker: until what, in minutes."""

    until: Until
    minutes: int


@dataclass(frozen=True, slots=True)
class Supply:
    """Something used up that is not wood: glue, finish, abrasive."""

    name: str
    quantity: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One operation with its tool, set-up, time at the bench and waiting time.

    ``tools`` and ``supplies`` name what it uses; ``cautions`` are keys of the
    safety data; ``set_up`` the key of its machine setting.
    """

    key: str
    name: str
    tool: str
    detail: str = ""
    set_up: str = ""
    bench_minutes: int = 0
    waits: tuple[Wait, ...] = ()
    cautions: tuple[str, ...] = ()
    supplies: tuple[Supply, ...] = ()
