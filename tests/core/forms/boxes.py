"""Boxes worked out, for the tests of their sizes and of their making."""

from __future__ import annotations

from app.core import registry
from app.core.design import Design
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.step import Step

PLAIN = {"length": "8 in", "width": "5 in", "height": "3 1/4 in"}


def box(shop: Shop = Shop(), **typed: str) -> Design:
    return registry.work_out("box", PLAIN | typed, shop)


def value(design: Design, key: str) -> object:
    return next(size.value for size in design.sizes if size.key == key)


def set_up(design: Design, key: str) -> SetUp:
    return next(one for one in design.set_ups if one.key == key)


def step(design: Design, key: str) -> Step:
    return next(one for one in design.steps if one.key == key)


def keys(design: Design) -> list[str]:
    return [one.key for one in design.set_ups]
