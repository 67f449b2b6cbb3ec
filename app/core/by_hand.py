"""For each powered machine a way without it."""

from __future__ import annotations

from functools import cache

from app.core.figures import table


@cache
def _ways() -> dict[str, str]:
    return {row["machine"]: row["way"] for row in table("by_hand")}


def without(machine: str) -> str:
    """How the work is done without ``machine``; empty for what is a hand tool.

    Common practice, no source.
    """
    return _ways().get(machine.strip().lower(), "")
