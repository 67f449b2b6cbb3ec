"""What a run is asked for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tests.core.cutting.published import Instance, instances


@dataclass(frozen=True)
class Asked:
    """The options of a run.

    ``seconds`` None: what the section itself thinks right. ``rivals``: every how
    many of the instances measured the other ways are tried on too; 0 never.
    """

    families: tuple[str, ...]
    every: int
    seconds: float | None
    rivals: int
    on: date

    def wants(self, family: str) -> bool:
        """Whether a family is to be measured."""
        return not self.families or family in self.families

    def of(self, family: str) -> list[Instance]:
        """The instances of a family that are to be measured."""
        return instances(family)[:: self.every]

    def rival(self, number: int) -> bool:
        """Whether the other ways are tried on this one of the instances."""
        return bool(self.rivals) and number % self.rivals == 0

    def words(self, seconds: float) -> str:
        """How a section was made."""
        each = f"every {_nth(self.every)}instance"
        return (
            f"Made on {self.on.day} {self.on:%B %Y} with `--every {self.every}`: "
            f"{each} of a family, at most {seconds:g} s each."
        )

    def beside(self, seconds: float) -> str:
        """How a section of several ways was made."""
        fewer = f" Other ways were tried on every {_nth(self.rivals)}of them."
        return self.words(seconds) + (fewer if self.rivals > 1 else "")


def _nth(number: int) -> str:
    """The word before what is counted."""
    return {1: "", 2: "second ", 3: "third "}.get(number, f"{number}th ")
