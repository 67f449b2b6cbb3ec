"""Finding the modules of a seam: one file each, no list to keep."""

from __future__ import annotations

import importlib
import pkgutil
from types import ModuleType


def modules(package: ModuleType) -> dict[str, ModuleType]:
    """Every public module of ``package`` by name, in name order."""
    found = pkgutil.iter_modules(package.__path__)
    names = sorted(item.name for item in found if not item.name.startswith("_"))
    return {
        name: importlib.import_module(f"{package.__name__}.{name}") for name in names
    }
