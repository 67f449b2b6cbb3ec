"""Which setting of the saw after which: few changes, each cut after its parent.

A run is all that is cut at one setting before fence or stop is moved.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from app.core.cutting.plan import Direction

# When (the place in time), whether a trim, which way, and how far the fence is, nm.
Setting = tuple[int, bool, Direction, int]


@dataclass(frozen=True, slots=True)
class Step:
    """One cut to be put in order. ``after`` is the step it waits for, or -1.

    ``material`` ranks what is cut: thickness and species that belong together.
    ``round`` counts the rounds of parallel cuts before it.
    """

    setting: Setting
    after: int
    round: int = 0
    material: int = 0


@dataclass
class _Bench:
    """What may be cut now, setting by setting, and what waits for other settings."""

    steps: Sequence[Step]
    waiting: Counter[Setting] = field(default_factory=Counter)
    open: dict[Setting, list[int]] = field(default_factory=dict)
    freed_by: dict[int, list[int]] = field(default_factory=dict)
    first: dict[Setting, tuple[int, int]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        gates: list[int] = []
        for number, step in enumerate(self.steps):
            # Cuts of one setting follow each other without a change of it: what
            # a cut waits for is the last one before it at another setting.
            gate = step.after
            if gate >= 0 and self.steps[gate].setting == step.setting:
                gate = gates[gate]
            gates.append(gate)
            rank = (step.material, step.round)
            self.first[step.setting] = min(rank, self.first.get(step.setting, rank))
            if gate < 0:
                self.open.setdefault(step.setting, []).append(number)
            else:
                self.waiting[step.setting] += 1
                self.freed_by.setdefault(gate, []).append(number)

    def run(self, setting: Setting) -> list[int]:
        """Cut all that may be cut at this setting, one piece of stock at a time."""
        done = sorted(self.open.pop(setting))
        for number in done:
            for freed in self.freed_by.get(number, ()):
                other = self.steps[freed].setting
                self.waiting[other] -= 1
                self.open.setdefault(other, []).append(freed)
        return done


Rule = Callable[[_Bench, Setting], int]
# Where no setting can be used up at once, it must be set again later: which first
# is a guess. So several are made, and the one with the fewest runs is taken.
RULES: tuple[Rule, ...] = (
    lambda bench, setting: bench.waiting[setting],
    lambda bench, setting: -len(bench.open[setting]),
    lambda bench, setting: bench.first[setting][1],
)


def in_runs(steps: Sequence[Step]) -> list[list[int]]:
    """Steps by their numbers in the order of sawing, run by run.

    A step comes after the one it waits for, which has a lower number; an earlier
    time comes before a later one. A setting that can be used up is, which costs
    no plan a change of setting. Among those trims come first, then material by
    material, round by round, and the way of the last cut before the other.
    """
    best: list[list[int]] | None = None
    for rule in RULES:
        found, guessed = _runs(steps, rule)
        if best is None or len(found) < len(best):
            best = found
        if not guessed:
            break
    return best or []


def _runs(steps: Sequence[Step], rule: Rule) -> tuple[list[list[int]], bool]:
    bench, done, guessed = _Bench(steps), [], False
    stands: Direction | None = None

    def rank(setting: Setting) -> tuple[object, ...]:
        when, trim, direction, size = setting
        waits = bench.waiting[setting] > 0
        guess = rule(bench, setting) if waits else 0
        turned = direction is not stands
        return (when, waits, guess, not trim, *bench.first[setting], turned, -size)

    while bench.open:
        setting = min(bench.open, key=lambda one: (*rank(one), one))
        guessed = guessed or bench.waiting[setting] > 0
        stands = setting[2]
        done.append(bench.run(setting))
    return done, guessed
