"""The grids of inputs that every form is held to, found by themselves."""

from __future__ import annotations

import importlib
from functools import cache

from app.core import registry
from app.core.design import Design
from app.core.shop import Shop

Typed = dict[str, str]
# What it lists is typed by its maker; it makes no solid of its own.
FREE = "parts_list"


def forms() -> list[str]:
    """Every form but the free list."""
    return [key for key in registry.forms() if key != FREE]


@cache
def grid(form: str) -> tuple[Typed, ...]:
    """Hundreds of inputs that can be built."""
    found: list[Typed] = _module(form).GRID
    return tuple(found)


def refused(form: str) -> tuple[tuple[Typed, str], ...]:
    """Inputs that cannot be built, each with the input at fault."""
    found: list[tuple[Typed, str]] = _module(form).REFUSED
    return tuple(found)


def _module(form: str):  # type: ignore[no-untyped-def]
    return importlib.import_module(f"tests.core.forms.grid_{form}")


def made(form: str, typed: Typed, shop: Shop = Shop()) -> Design:
    return registry.work_out(form, typed, shop)


@cache
def _all(form: str) -> tuple[tuple[Typed, Design], ...]:
    return tuple((typed, made(form, typed)) for typed in grid(form))


def each(form: str, every: int = 1) -> tuple[tuple[Typed, Design], ...]:
    """The grid worked out; ``every`` third, say, where looking at one takes long."""
    return _all(form)[::every]
