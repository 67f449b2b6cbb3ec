"""The tray held against solids built from the saw's instructions alone.

Each rail is a bar of the part's section whose ends are sawn through the long points
at the gauge's angle, with the groove ploughed where the set-up says. A general
solid-geometry library stands them round and adds them up.
"""

from __future__ import annotations

import math

import manifold3d
import numpy as np
import pytest
from manifold3d import Manifold as Solid

from app.core.angle import Angle
from app.core.design import Design
from app.core.length import Length
from app.core.setup import SetUp
from tests.core.forms.grids import Typed, each

MM = 1e6
THIN = 1e-3  # a micrometre, in millimetres


def number(design: Design, key: str) -> float:
    value = next(size.value for size in design.sizes if size.key == key)
    if isinstance(value, Length):
        return value.nm / MM
    assert isinstance(value, Angle)
    return float(value.degrees)


def length(design: Design, key: str) -> float:
    typed = design.inputs[key]
    return Length.read(typed, input=key).nm / MM


def gauge_of(design: Design) -> float:
    """The mitre as a set-up sets it: on the gauge, or by the tilt of the blade."""
    one = next(one for one in design.set_ups if one.key.startswith("mitre-"))
    if one.machine.startswith("hand"):  # marked out by the size, sawn to the line
        return number(design, "gauge_angle")
    angle = one.gauge if one.gauge and one.gauge.degrees else one.tilt
    assert angle is not None
    degrees = float(angle.degrees)
    # Upright in a jig the blade takes the rest of a right angle.
    return 90 - degrees if one.machine == "table saw" else degrees


def groove_of(design: Design) -> SetUp | None:
    return next((one for one in design.set_ups if one.key == "groove"), None)


def sawn_rail(design: Design, side: float) -> Solid:
    """A bar with its outer face on y = 0, grooved, then sawn at both long points."""
    wide, high = length(design, "rail_width"), length(design, "rail_height")
    bar = Solid.cube((2 * side, wide, high)).translate((-side, 0, 0))
    groove = groove_of(design)
    if groove is not None:
        assert groove.fence is not None
        deep = length(design, "groove_depth")
        thick = length(design, "panel_thickness")
        cutter = Solid.cube((2 * side, deep, thick))
        bar -= cutter.translate((-side, wide - deep, groove.fence.nm / MM))
    turn = math.radians(gauge_of(design))
    kept = -side / 2 * math.cos(turn)
    for way in (1, -1):
        normal = (-way * math.cos(turn), -math.sin(turn), 0.0)
        bar = bar.trim_by_plane(normal, kept)
    return bar


def rails(design: Design) -> list[Solid]:
    """The rails stood round, the front one first."""
    sides = int(design.inputs["sides"])
    long, short = number(design, "long_side"), number(design, "short_side")
    if sides != 4:
        out = long / 2 / math.tan(math.pi / sides)
        one = sawn_rail(design, long).translate((0, -out, 0))
        return [one.rotate((0, 0, 360 * i / sides)) for i in range(sides)]
    front = sawn_rail(design, long).translate((0, -short / 2, 0))
    right = sawn_rail(design, short).translate((0, -long / 2, 0))
    return [front.rotate((0, 0, 90 * i)) if i % 2 == 0 else right.rotate((0, 0, 90 * i))
            for i in range(4)]  # fmt: skip


def prism(points: np.ndarray, low: float, high: float) -> Solid:
    section = manifold3d.CrossSection([points])
    return Solid.extrude(section, high - low).translate((0, 0, low))


def outline(design: Design, inwards: float) -> np.ndarray:
    """The tray's outer outline moved inwards, from corner coordinates."""
    sides = int(design.inputs["sides"])
    if sides == 4:
        x = number(design, "long_side") / 2 - inwards
        y = number(design, "short_side") / 2 - inwards
        return np.array([(-x, -y), (x, -y), (x, y), (-x, y)])
    half = number(design, "long_side") / 2 / math.tan(math.pi / sides) - inwards
    radius = half / math.cos(math.pi / sides)
    turns = [-math.pi / 2 + math.pi * (2 * i + 1) / sides for i in range(sides)]
    return np.array([(radius * math.cos(a), radius * math.sin(a)) for a in turns])


def tray_of(design: Design) -> Solid:
    """What the rails ought to make together: a ring less the panel's housing."""
    high = length(design, "rail_height")
    wide = length(design, "rail_width")
    ring = prism(outline(design, 0), 0, high) - prism(
        outline(design, wide), -1, high + 1
    )
    groove = groove_of(design)
    if groove is None:
        return ring
    assert groove.fence is not None
    low = groove.fence.nm / MM
    deep = outline(design, wide - length(design, "groove_depth"))
    return ring - prism(deep, low, low + length(design, "panel_thickness"))


def plain(typed: Typed) -> bool:
    return typed.get("splines_per_corner", "0") == "0"


def test_rails_sawn_as_told_close_into_the_ring_without_overlap() -> None:
    checked = 0
    for typed, design in each("mitred_tray"):
        stood = rails(design)
        whole = Solid.batch_boolean(stood, manifold3d.OpType.Add)
        wanted = tray_of(design)
        room = THIN * wanted.surface_area()
        assert abs(whole.volume() - wanted.volume()) <= room, typed
        assert abs(sum(one.volume() for one in stood) - whole.volume()) <= room, typed
        assert (whole - wanted).volume() <= room, typed
        checked += 1
    assert checked >= 200


def test_parts_without_splines_are_as_much_wood_as_the_saw_leaves() -> None:
    checked = 0
    for typed, design in each("mitred_tray"):
        if not plain(typed):
            continue
        parts = [p for p in design.parts if "rail" in p.key and not p.spare]
        volume = sum(part.volume * part.quantity for part in parts) / MM**3
        wanted = tray_of(design)
        assert abs(volume - wanted.volume()) <= THIN * wanted.surface_area(), typed
        checked += 1
    assert checked >= 100


def test_splines_take_out_of_the_rails_what_they_fill() -> None:
    checked = 0
    for typed, design in each("mitred_tray"):
        if plain(typed):
            continue
        names = ("rail", "spline")
        parts = [p for p in design.parts if not p.spare]
        volume = sum(
            p.volume * p.quantity for p in parts if any(name in p.key for name in names)
        )
        wanted = tray_of(design)
        room = THIN * wanted.surface_area()
        assert abs(volume / MM**3 - wanted.volume()) <= room, typed
        checked += 1
    assert checked >= 40


def test_the_panel_lies_in_its_housing_with_the_room_it_was_given() -> None:
    checked = 0
    for typed, design in each("mitred_tray"):
        part = next((p for p in design.parts if p.key == "panel"), None)
        groove = groove_of(design)
        if part is None or groove is None or groove.fence is None:
            continue
        low = groove.fence.nm / MM
        points = np.array([(x.nm / MM, y.nm / MM) for x, y in part.outline])
        reach = length(design, "groove_depth") - length(design, "panel_room")
        inside = outline(design, length(design, "rail_width") - reach)
        # The part's outline, moved to where the inside's corner of least y stands.
        points -= (points.min(axis=0) + points.max(axis=0)) / 2
        points = points[::-1] * (1, -1)
        points += (inside.min(axis=0) + inside.max(axis=0)) / 2
        panel = prism(points, low, low + part.finished.thickness.nm / MM)
        wanted = prism(inside, low, low + length(design, "panel_thickness"))
        room = THIN * wanted.surface_area()
        assert abs(panel.volume() - wanted.volume()) <= room, typed
        assert abs(part.volume / MM**3 - wanted.volume()) <= room, typed
        assert (panel ^ tray_of(design)).volume() <= room, typed
        checked += 1
    assert checked >= 120


@pytest.mark.parametrize("sides", range(3, 13))
def test_the_gauge_is_half_of_what_a_corner_turns(sides: int) -> None:
    # Walking round a closed outline turns by 360° in all: common practice, no source.
    typed, design = next(
        (typed, one)
        for typed, one in each("mitred_tray")
        if one.inputs["sides"] == str(sides)
    )
    assert number(design, "gauge_angle") * 2 * sides == pytest.approx(360), typed
