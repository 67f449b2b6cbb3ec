"""Straight vessels worked out, for the tests of their sizes and warnings."""

from __future__ import annotations

from app.core import registry
from app.core.design import Design
from app.core.length import Length
from app.core.shop import Shop


def vessel(shop: Shop = Shop(), **given_texts: object) -> Design:
    texts = {key: str(value) for key, value in given_texts.items()}
    if not {"outside_inscribed", "outside_circumscribed", "inside_inscribed"} & {
        *texts
    }:
        texts.setdefault("outside_side", "4 in")
    return registry.work_out("straight_vessel", texts, shop)


def size(design: Design, key: str) -> Length:
    value = next(one.value for one in design.sizes if one.key == key)
    assert isinstance(value, Length)
    return value
