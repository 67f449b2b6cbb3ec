"""What an offcut is worth: bigger and longer counts more than in proportion.

Worth is an area, nm² (a length, nm, where nothing has a width): that of a piece
of the full size, or larger, counts in full, a smaller one less.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Self

from app.core.cutting.job import Job


@dataclass(frozen=True, slots=True)
class Policy:
    """A job's rule in plain whole nanometres, for the planner's inner loops.

    ``keep_length`` and ``keep_width`` are the least sizes worth keeping;
    ``full_length`` and ``full_area`` are from where on an offcut counts in full.
    ``flat``: nothing has a width, and only lengths count.
    """

    keep_length: int
    keep_width: int
    full_length: int
    full_area: int
    flat: bool

    @classmethod
    def of(cls, job: Job) -> Self:
        """What the job says of keeping leftovers."""
        full, wide = job.offcut_value.full_length.nm, job.offcut_value.full_width.nm
        return cls(
            job.keep.length.nm,
            job.keep.width.nm,
            max(full, 1),
            max(full * wide, 1),
            job.one_dimensional,
        )

    def keeps(self, length: int, width: int) -> bool:
        """Whether a leftover is large enough both ways to be kept."""
        return length >= self.keep_length and (self.flat or width >= self.keep_width)

    def worth(self, length: int, width: int) -> int:
        """What a leftover is worth; nothing where it is not worth keeping.

        Half of its area counts by its length against the full one, half by its
        area against the full one, rounded down. So no leftover gains by being
        cut in two. Common practice, no source: one long board serves where two
        short ones do not.
        """
        if not self.keeps(length, width):
            return 0
        long = min(length, self.full_length)
        if self.flat:
            return length * long // self.full_length
        area = length * width
        share = long * self.full_area + min(area, self.full_area) * self.full_length
        return area * share // (2 * self.full_length * self.full_area)


def worth(length: int, width: int, job: Job) -> int:
    """What one leftover is worth by the job's rule; sizes in whole nanometres.

    In a job without widths ``width`` does not count. Where many are asked for,
    ``Policy.of(job)`` answers without reading the job again.
    """
    return Policy.of(job).worth(length, width)
