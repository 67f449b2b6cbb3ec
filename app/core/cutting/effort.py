"""How much thinking a plan may cost: by work, and by the caller's clock if any."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from app.core.cutting.plan import Plan

Progress = Callable[[int, int], None]


@dataclass(frozen=True, slots=True)
class Standing:
    """How a search stands: what its best plan costs, and what none can beat.

    Both in minor units. ``plan`` lays the best one out; it may be asked for at
    any time, from any thread.
    """

    cost: int
    bound: int
    plan: Callable[[], Plan]


Watch = Callable[[Standing], None]


@dataclass(slots=True)
class Work:
    """How much may be done and how much has been; in looks at a shape.

    ``left`` tells the seconds that the caller still gives. It only ever stops
    earlier: without it the same job always gives the same plan.
    """

    most: int
    spent: int = 0
    left: Callable[[], float] | None = None

    def tick(self, amount: int) -> None:
        """Count work done."""
        self.spent += amount

    @property
    def over(self) -> bool:
        """Whether it is time to stop."""
        if self.spent > self.most:
            return True
        return self.left is not None and self.left() <= 0

    def share(self, part: float) -> Work:
        """A part of what is left, counted apart; give it back with ``tick``."""
        most = max(0, int((self.most - self.spent) * part))
        left = self.left
        if left is None:
            return Work(most)
        others = left() * (1 - part)
        return Work(most, 0, lambda: left() - others)
