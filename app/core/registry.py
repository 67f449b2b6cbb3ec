"""The forms there are, found by themselves."""

from __future__ import annotations

from difflib import get_close_matches
from functools import cache, lru_cache
from types import ModuleType
from typing import Any

from app.core import forms as package
from app.core import inputs
from app.core.completing import complete
from app.core.design import Design
from app.core.discover import modules
from app.core.errors import WorkshopError
from app.core.nearest import proven
from app.core.pictured import pictured
from app.core.shop import Shop


@cache
def forms() -> dict[str, ModuleType]:
    """Every form by its key."""
    return modules(package)


def form(key: str) -> ModuleType:
    """The form of this name, or a refusal that names the nearest."""
    known = forms()
    if key not in known:
        nearest = (get_close_matches(key, known, 1, 0.4) or [""])[0]
        message = f"There is no form “{key[:40]}”. There is: {', '.join(known)}."
        raise WorkshopError(message, input="form", nearest=nearest)
    return known[key]


def read_inputs(key: str, typed: dict[str, str], shop: Shop) -> Any:
    """The form's Inputs from typed text, each fault named."""
    return inputs.read(form(key).Inputs, typed, shop)


def work_out(key: str, typed: dict[str, str], shop: Shop) -> Design:
    """Typed inputs to a whole design.

    One page shows a design in several places, so the last few are remembered: the
    same inputs in the same shop always give the same design.
    """
    return _work_out(key, tuple(typed.items()), shop)


def _designed(key: str, typed: dict[str, str], shop: Shop) -> tuple[Any, Design]:
    module = form(key)
    given = inputs.read(module.Inputs, typed, shop)
    return given, module.design(given, shop)


def _nearest(
    refusal: WorkshopError, key: str, typed: dict[str, str], shop: Shop
) -> str:
    """The refusal's nearest value, if it works with all else that was typed."""
    module = form(key)
    asked = {item.key: item for item in inputs.listed(module.Inputs, shop.unit)}
    # Of several faults each would refuse the mending of the others.
    several = isinstance(refusal, inputs.FaultyInputs) and len(refusal.faults) > 1
    if several or refusal.input not in asked:
        return refusal.nearest

    def attempt(text: str) -> WorkshopError | None:
        try:
            _designed(key, {**typed, refusal.input: text}, shop)
        except WorkshopError as again:
            return again
        return None

    example: dict[str, str] = module.example(shop.unit)
    given, shown = (one.get(refusal.input, "") for one in (typed, example))
    return proven(refusal, asked[refusal.input], given, shown, attempt, shop)


@lru_cache(maxsize=16)
def _work_out(key: str, typed: tuple[tuple[str, str], ...], shop: Shop) -> Design:
    try:
        given, design = _designed(key, dict(typed), shop)
    except WorkshopError as refusal:
        refusal.nearest = _nearest(refusal, key, dict(typed), shop)
        raise
    return pictured(complete(design, given, shop), shop)
