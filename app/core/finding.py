"""One thing that is missing or wrong."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Finding:
    """Where it is, what is wrong, and what mends it, the latter two as sentences."""

    where: str
    what: str
    fix: str

    def __str__(self) -> str:
        return f"{self.where}: {self.what} {self.fix}"
