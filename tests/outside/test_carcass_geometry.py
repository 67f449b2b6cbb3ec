"""The carcass held against boards cut, rebated and dadoed as its sizes tell.

Every board is a block of the part's finished size. Housings are cut from it at the
story stick's marks, the boards are stood together by a general solid-geometry
library, and what they make is held against the closed form: the outside less the
spaces inside. Shelf sag is held against the work that a load does.
"""

from __future__ import annotations

import math

import pytest
from manifold3d import Manifold as Solid
from manifold3d import OpType

from app.core.design import Design
from app.core.length import Length
from app.core.part import Part
from app.core.stiffness import stiffness
from tests.core.forms.grids import each

MM = 1e6
THIN = 1e-3  # a micrometre, in millimetres


def number(design: Design, key: str) -> float:
    value = next(size.value for size in design.sizes if size.key == key)
    assert isinstance(value, Length)
    return value.nm / MM


def typed(design: Design, key: str) -> float:
    return Length.read(design.inputs[key], input=key).nm / MM


def part(design: Design, key: str) -> Part | None:
    return next((part for part in design.parts if part.key == key), None)


def size(found: Part) -> tuple[float, float, float]:
    done = found.finished
    return done.length.nm / MM, done.width.nm / MM, done.thickness.nm / MM


def block(x: float, y: float, z: float) -> Solid:
    return Solid.cube((x, y, z))


def behind(design: Design) -> float:
    back = part(design, "back")
    return size(back)[2] if back else 0.0


def marks(design: Design) -> list[float]:
    count = int(design.inputs["shelves"])
    return [number(design, f"shelf_{i}_up") for i in range(1, count + 1)]


def left_side(design: Design, found: Part) -> Solid:
    """Standing, inner face to the right, front edge at y = 0, its housings cut."""
    high, deep, thick = size(found)
    dado = typed(design, "dado_depth")
    board = block(thick, deep, high)
    housing = block(dado, deep, thick)
    for up in (0.0, *marks(design), high - thick):
        cut = housing
        if up not in (0.0, high - thick):
            cut = block(dado, deep - behind(design), thick)
        board -= cut.translate((thick - dado, 0, up))
    if behind(design):
        rebate = block(dado, behind(design), high)
        board -= rebate.translate((thick - dado, deep - behind(design), 0))
    return board


def bottom(design: Design, found: Part) -> Solid:
    """Lying, inner face up, front edge at y = 0."""
    long, deep, thick = size(found)
    board = block(long, deep, thick)
    if behind(design):
        dado = typed(design, "dado_depth")
        rebate = block(long, behind(design), dado)
        board -= rebate.translate((0, deep - behind(design), thick - dado))
    return board


def stood(design: Design) -> list[Solid]:
    """Every fixed board where it belongs."""
    wide, high = typed(design, "width"), typed(design, "height")
    edge = typed(design, "edge_strip")
    side, top = part(design, "side"), part(design, "top")
    assert side
    assert top
    thick = size(side)[2]
    start = thick - typed(design, "dado_depth")
    left = left_side(design, side).translate((0, edge, 0))
    low = bottom(design, top).translate((start, edge, 0))
    found = [left, left.mirror((1, 0, 0)).translate((wide, 0, 0))]
    found += [low, low.mirror((0, 0, 1)).translate((0, 0, high))]
    if shelf := part(design, "shelf"):
        found += [
            block(*size(shelf)).translate((start, edge, up)) for up in marks(design)
        ]
    if back := part(design, "back"):
        room = typed(design, "back_room")
        tall, across, deep = size(back)
        at = (start + room, typed(design, "depth") - deep, start + room)
        found.append(block(across, deep, tall).translate(at))
    return found + strips(design, thick)


def strips(design: Design, thick: float) -> list[Solid]:
    edge = typed(design, "edge_strip")
    if not edge:
        return []
    wide, high = typed(design, "width"), typed(design, "height")
    side, shelf = part(design, "side_edge"), part(design, "shelf_edge")
    assert side
    assert shelf
    upright = block(thick, edge, size(side)[0])
    level = block(size(shelf)[0], edge, thick)
    found = [upright, upright.translate((wide - thick, 0, 0))]
    for up in (0.0, *marks(design), high - thick):
        found.append(level.translate((thick, 0, up)))
    return found


def closed_form(design: Design) -> float:
    """The outside less the spaces, and less the room round the back."""
    wide, high, deep = (typed(design, key) for key in ("width", "height", "depth"))
    thick, dado = typed(design, "thickness"), typed(design, "dado_depth")
    inner, shelves = wide - 2 * thick, int(design.inputs["shelves"])
    spaces = inner * (high - (2 + shelves) * thick) * (deep - behind(design))
    # Without a back no board is rebated for one.
    rebated = (inner + 2 * dado) * (high - 2 * thick + 2 * dado) * behind(design)
    back = part(design, "back")
    filled = math.prod(size(back)) if back else 0.0
    return wide * high * deep - spaces - (rebated - filled)


def test_boards_cut_as_told_make_the_case_without_overlap() -> None:
    checked = 0
    for asked, design in each("carcass"):
        boards = stood(design)
        whole = Solid.batch_boolean(boards, OpType.Add)
        room = THIN * whole.surface_area()
        assert abs(whole.volume() - closed_form(design)) <= room, asked
        assert abs(sum(one.volume() for one in boards) - whole.volume()) <= room, asked
        checked += 1
    assert checked >= 200


def test_parts_are_as_much_wood_as_the_cuts_leave() -> None:
    checked = 0
    for asked, design in each("carcass"):
        parts = [p for p in design.parts if not p.spare and p.key != "loose_shelf"]
        volume = sum(one.volume * one.quantity for one in parts) / MM**3
        side = part(design, "side")
        assert side
        surface = 2 * size(side)[0] * size(side)[1]
        assert abs(volume - closed_form(design)) <= THIN * surface, asked
        cut = left_side(design, side)
        assert abs(side.volume / MM**3 - cut.volume()) <= THIN * surface, asked
        checked += 1
    assert checked >= 200


def summed(load: float, span: float, stiff: float, steps: int = 400) -> float:
    """Sag at mid-span by the unit load: moment × moment of 1 N there / E I, summed.

    Castigliano's theorem, any handbook of statics; Simpson's rule over half the span,
    which is exact for this curve. Newtons and metres.
    """
    step = span / 2 / steps
    total = 0.0
    for i in range(steps + 1):
        x = i * step
        weight = 1 if i in (0, steps) else 4 if i % 2 else 2
        total += weight * load * x * (span - x) / 2 * x / 2
    return 2 * total * step / 3 / stiff


def test_shelves_sag_by_the_work_that_their_load_does() -> None:
    checked = 0
    for asked, design in each("carcass"):
        if "shelf_sag" not in {one.key for one in design.sizes}:
            continue
        shelf, species = part(design, "shelf"), design.parts[0].species
        modulus = stiffness(species)
        if shelf is None or modulus is None:
            continue
        long, wide, thick = (one / 1000 for one in size(shelf))
        stiff = float(modulus.pascals) * wide * thick**3 / 12
        load = float(design.inputs["shelf_load"]) * 9.80665
        wanted = summed(load, long, stiff) * 1000
        assert number(design, "shelf_sag") == pytest.approx(wanted, abs=1.5e-6), asked
        checked += 1
    assert checked >= 100
