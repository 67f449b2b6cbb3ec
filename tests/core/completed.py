"""A small design to complete, for the tests of what follows from any design."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from app.core.completing import complete
from app.core.design import Design
from app.core.forms._common import Common
from app.core.inputs import Ask, ask
from app.core.length import Display, Length, Unit, mm
from app.core.part import Dimensions, Part
from app.core.shop import Shop
from app.core.size import Size

METRIC = Shop(unit=Unit.MILLIMETRE, display=Display(Unit.MILLIMETRE))
SQUARE_METRE = 10**18
WALNUT, MAPLE = "black walnut", "hard maple"


@dataclass(frozen=True, kw_only=True)
class Inputs(Common):
    base_clearance: Length = ask(
        "Room for the base", Ask.LENGTH, default=mm(1), help=""
    )


def slab(length: int, width: int, thickness: int) -> Dimensions:
    return Dimensions(mm(length), mm(width), mm(thickness))


def plank(**changes: object) -> Part:
    part = Part("top", "Top", 1, WALNUT, slab(1000, 200, 25), slab(1020, 210, 30))
    return replace(part, **changes)  # type: ignore[arg-type]


def design(**facts: object) -> Design:
    known = {"parts": (plank(),), "sizes": ()} | facts
    return Design("shelf", "Shelf", {}, **known)  # type: ignore[arg-type]


def made(shop: Shop = METRIC, inputs: object = None, **facts: object) -> Design:
    return complete(design(**facts), inputs or Inputs(), shop)


def size(found: Design, key: str) -> Size:
    (one,) = (one for one in found.sizes if one.key == key)
    return one


def value(found: Design, key: str) -> float:
    one = size(found, key).value
    assert isinstance(one, Fraction | int)
    return float(one)
