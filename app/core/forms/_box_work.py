"""A machine setting together with the step it is made for."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from app.core.forms._box import Box
from app.core.setup import SetUp
from app.core.step import Step


@dataclass(frozen=True, slots=True)
class Work:
    """One set-up and the step at the bench that uses it."""

    set_up: SetUp
    name: str
    minutes: int
    detail: str = ""

    @property
    def step(self) -> Step:
        """The step, with its set-up's tool and cautions."""
        return Step(
            key=self.set_up.key,
            name=self.name,
            tool=self.set_up.machine,
            detail=self.detail,
            set_up=self.set_up.key,
            bench_minutes=self.minutes,
            cautions=self.set_up.cautions,
        )


def walls_named(box: Box, numbers: list[int], strip: bool = False) -> str:
    """Which walls, as a maker calls them; ``strip`` where the lid's is among them."""
    found = ["both sides"] if 0 in numbers else []
    if 1 in numbers and not box.lid_groove:
        found.append("both ends")
    elif 1 in numbers:
        found += ["the far end"]
        found += ["the strip for the lid"] if strip else ["the lowered end"]
    return listed(found)


def listed(words: list[str]) -> str:
    """``1``, ``1 and 2``, ``1, 2 and 3``."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if words[1:] else words)


def counted(count: int, thing: str) -> str:
    """``1 slot``, ``3 slots``."""
    return f"{count} {thing}{'' if count == 1 else 's'}"


def fingers_named(numbers: Iterable[int]) -> str:
    """Fingers, numbered from 0, as they are counted at the bench."""
    words = [str(number + 1) for number in numbers]
    return f"{'finger' if len(words) == 1 else 'fingers'} {listed(words)}"
