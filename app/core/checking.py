"""Every check there is, found by itself, tried on one story."""

from __future__ import annotations

from functools import cache
from types import ModuleType

from app.core import checks as package
from app.core.discover import modules
from app.core.finding import Finding
from app.core.story import PLACES, Story


@cache
def checks() -> dict[str, ModuleType]:
    """Every check by its name."""
    return modules(package)


def findings(story: Story) -> tuple[Finding, ...]:
    """All that is missing or wrong, down the page, so that one pass mends it."""
    found = [item for check in checks().values() for item in check.find(story)]
    return tuple(sorted(found, key=lambda item: PLACES.index(item.where)))
