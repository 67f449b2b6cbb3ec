"""Plans name piles by row id; a series folder names them by label."""

from __future__ import annotations

import copy
from collections.abc import Mapping
from typing import Any

ON_RACK = "rack:"
Record = dict[str, Any]


def by_label(plan: Record, labels: Mapping[int, str]) -> Record:
    """The plan's record with every pile named by its label."""
    names = {str(row_id): ON_RACK + label for row_id, label in labels.items()}
    return _renamed(plan, names)


def by_id(plan: Record, ids: Mapping[str, int]) -> Record:
    """The plan's record with the piles of ``ids`` named by their rows again.

    Other piles were on offer once and are not here; they keep their label.
    """
    names = {ON_RACK + label: str(row_id) for label, row_id in ids.items()}
    return _renamed(plan, names)


def _renamed(plan: Record, names: Mapping[str, str]) -> Record:
    made = copy.deepcopy(plan)
    for stock in made["job"].get("job", {}).get("stock", []):
        stock["id"] = names.get(stock["id"], stock["id"])
    # A series has two answers to its job.
    for answer in (made["answer"], made.get("apart", {})):
        for layout in answer.get("layouts", []):
            layout["stock"] = names.get(layout["stock"], layout["stock"])
    return made
