"""Rings held against solids built from the cut instructions alone.

A segment is a slab as wide and thick as its part says, both ends sawn by the gauge's
angle at the stop's distance. A general solid-geometry library stands the segments
round, stacks the rings and turns the profile: nothing turned may lie outside the wood.
"""

from __future__ import annotations

import csv
import math
import re
from itertools import pairwise

import manifold3d
import numpy as np
import pytest

from app.core import registry
from app.core.angle import Angle
from app.core.design import Design
from app.core.length import Length
from app.core.part import Part
from app.core.shop import Shop
from tests.conftest import shared
from tests.core.forms.grids import Typed, each

MM = 1e6
THIN = 1e-3  # a micrometre, in millimetres
FACETS = 120
Solid = manifold3d.Manifold


def sawn(edge: float, width: float, thick: float, gauge: float) -> Solid:
    """A segment, its longer edge on y = 0 towards the viewer, both ends sawn."""
    slab = Solid.cube((2 * edge, width, thick)).translate((-edge, 0, 0))
    turn = math.radians(gauge)
    kept = -edge / 2 * math.cos(turn)
    right = slab.trim_by_plane((-math.cos(turn), -math.sin(turn), 0.0), kept)
    return right.trim_by_plane((math.cos(turn), -math.sin(turn), 0.0), kept)


def segments(design: Design) -> list[Part]:
    return [p for p in design.parts if "_segment_" in p.key and not p.spare]


def ring_numbers(part: Part) -> list[int]:
    told = re.search(r"rings? ([\d, and]+), ", part.name)
    assert told, part.name
    return [int(number) for number in re.findall(r"\d+", told[1])]


def rings(design: Design) -> dict[int, tuple[float, float, float, float]]:
    """By number: outer edge, width, thickness and gauge, off set-ups and parts."""
    stops = {one.key: one for one in design.set_ups}
    found = {}
    for part in segments(design):
        numbers = ring_numbers(part)
        cut = stops[f"cut-ring-{numbers[0]}"]
        assert cut.stop is not None
        assert cut.gauge is not None
        size = part.finished
        for number in numbers:
            found[number] = (
                cut.stop.nm / MM,
                size.width.nm / MM,
                size.thickness.nm / MM,
                float(cut.gauge.degrees),
            )
    return dict(sorted(found.items()))


def glued(design: Design, floor: float) -> tuple[list[Solid], float]:
    """Every segment where it stands, and the wood of all of them."""
    count = int(design.inputs["segments"])
    placed: list[Solid] = []
    for number, (edge, width, thick, gauge) in rings(design).items():
        one = sawn(edge, width, thick, gauge)
        out = edge / 2 / math.tan(math.radians(gauge))
        up = floor + (number - 1) * thick
        first = 180 / count * ((number - 1) % 2)
        stood = one.translate((0, -out, up))
        placed += [stood.rotate((0, 0, first + 360 * i / count)) for i in range(count)]
    return placed, sum(one.volume() for one in placed)


def union(solids: list[Solid]) -> Solid:
    return Solid.batch_boolean(solids, manifold3d.OpType.Add)


def millimetres(text: str) -> float:
    return Length.read(text).nm / MM


def single() -> list[tuple[Typed, Design]]:
    return [
        (typed, design)
        for typed, design in each("segmented_ring")
        if "profile" not in typed and design.inputs["bottom"] == "none"
    ]


def stacks(every: int) -> list[tuple[Typed, Design]]:
    found = [pair for pair in each("segmented_ring") if "profile" in pair[0]]
    return found[::every]


def test_segments_cut_as_told_close_into_the_ring_that_the_circles_ask_for() -> None:
    """Area of a ring of n: n (tan(180°/n) R² - sin(180°/n) cos(180°/n) r²), Euclid."""
    tried = single()
    assert len(tried) > 90
    for typed, design in tried:
        count = int(design.inputs["segments"])
        more = millimetres(design.inputs["turning_allowance"])
        out = millimetres(design.inputs["outside_diameter"]) / 2 + more
        within = millimetres(design.inputs["inside_diameter"]) / 2 - more
        thick = millimetres(design.inputs["thickness"])
        half = math.pi / count
        area = math.tan(half) * out**2 - math.sin(half) * math.cos(half) * within**2
        placed, alone = glued(design, 0)
        whole = union(placed).volume()
        room = THIN * sum(one.surface_area() for one in placed)
        assert abs(whole - count * area * thick) <= room, typed
        assert abs(whole - alone) <= room, typed
        parts = sum(part.volume * part.quantity for part in segments(design)) / MM**3
        assert abs(whole - parts) <= room, typed


def annulus(outside: float, inside: float, thick: float) -> Solid:
    """A turned ring, facets within both circles' wood."""
    outer = manifold3d.CrossSection.circle(outside / 2, FACETS)
    inner = manifold3d.CrossSection.circle(
        inside / 2 / math.cos(math.pi / FACETS), FACETS
    )
    return Solid.extrude(outer - inner, thick)


def test_the_turned_ring_lies_inside_the_glued_one() -> None:
    for typed, design in single():
        outside = millimetres(design.inputs["outside_diameter"])
        inside = millimetres(design.inputs["inside_diameter"])
        thick = millimetres(design.inputs["thickness"])
        placed, _ = glued(design, 0)
        missing = (annulus(outside, inside, thick) - union(placed)).volume()
        assert missing <= THIN * sum(one.surface_area() for one in placed), typed


def test_without_an_allowance_the_circles_just_touch_the_wood() -> None:
    for typed, design in single():
        if design.inputs["turning_allowance"] != "0 in":
            continue
        outside = millimetres(design.inputs["outside_diameter"])
        inside = millimetres(design.inputs["inside_diameter"])
        wood = union(glued(design, 0)[0])
        for wide, narrow in ((outside + 0.2, inside), (outside, inside - 0.2)):
            assert (annulus(wide, narrow, 3) - wood).volume() > 1e-3, typed


def bellies() -> list[tuple[Typed, Design]]:
    """Profiles that turn within a ring, with nothing allowed for: a hair shows."""
    return [
        (typed, design)
        for typed, design in each("segmented_ring")
        if "profile" in typed and typed.get("turning_allowance") == "0"
    ]


def turned(design: Design, typed: Typed, grown: float = 1) -> Solid:
    """The profile as typed, spun; hollow from the floor up, ``grown`` so much."""
    levels = [
        tuple(map(millimetres, re.split(r": *", line)))
        for line in re.split(r"[\n;] *", typed["profile"])
    ]
    wall = millimetres(design.inputs["wall"])
    outer = [(0.0, 0.0), *((d / 2, z) for z, d in levels), (0.0, levels[-1][0])]
    whole = spun(outer)
    low = floor(design)
    rise = [(z, d) for z, d in levels if z > low]
    at = np.interp(low, [z for z, _ in levels], [d for _, d in levels])
    inner = [(float(at), low), *((d, z) for z, d in rise)]
    within = [((d / 2 - wall) * grown, z) for d, z in inner]
    hollow = [(0.0, low), *within, (0.0, levels[-1][0])]
    return whole - spun(hollow)


def spun(points: list[tuple[float, float]]) -> Solid:
    section = manifold3d.CrossSection([np.array(points)])
    return Solid.revolve(section, FACETS)


def floor(design: Design) -> float:
    if design.inputs["bottom"] == "none":
        return 0.0
    return millimetres(design.inputs["bottom_thickness"])


def bottom(design: Design) -> list[Solid]:
    found = [part for part in design.parts if part.key == "bottom"]
    if not found:
        return []
    points = np.array([(x.nm / MM, y.nm / MM) for x, y in found[0].outline])
    points -= (points.max(axis=0) + points.min(axis=0)) / 2
    section = manifold3d.CrossSection([points[::-1]])
    if section.area() == 0:
        section = manifold3d.CrossSection([points])
    return [Solid.extrude(section, found[0].finished.thickness.nm / MM)]


def test_the_turned_profile_lies_inside_every_ring_of_the_stack() -> None:
    tried = stacks(4) + bellies()
    assert len(tried) > 30
    for typed, design in tried:
        placed, alone = glued(design, floor(design))
        placed += bottom(design)
        wood = union(placed)
        room = THIN * sum(one.surface_area() for one in placed)
        alone += sum(one.volume() for one in bottom(design))
        assert abs(wood.volume() - alone) <= room, typed
        # Flat facets cut into the hole: grown, they stand round its circle.
        shape = turned(design, typed, 1 / math.cos(math.pi / FACETS))
        assert (shape - wood).volume() <= room, typed


def test_what_is_turned_away_is_the_blank_less_the_profile() -> None:
    for typed, design in stacks(9):
        sizes = {size.key: size for size in design.sizes}
        left, gone = sizes["turned_volume"].value, sizes["turned_away"].value
        assert isinstance(left, int)
        assert isinstance(gone, int)
        # The library spins with flat facets: so much less than a circle's area.
        facets = math.sin(2 * math.pi / FACETS) * FACETS / 2 / math.pi
        solid = turned(design, typed).volume()
        assert solid / facets == pytest.approx(left / MM**3, rel=1e-6), typed
        wood = sum(
            part.volume * part.quantity for part in design.parts if not part.spare
        )
        assert left + gone == pytest.approx(wood, rel=1e-9)


def test_a_strip_gives_its_segments_turned_end_for_end() -> None:
    """Segments laid along a strip by their corners, a kerf square to each cut."""
    for typed, design in single():
        edge, width, _, gauge = rings(design)[1]
        count = int(design.inputs["segments"])
        kerf = millimetres(design.inputs["kerf"])
        lean = width * math.tan(math.radians(gauge))
        # Two lines a kerf apart, at the gauge's angle, are this far apart along.
        apart = kerf / math.cos(math.radians(gauge))
        cuts = [(0.0, lean)]  # where each cut meets the lower and the upper edge
        for i in range(count):
            low, high = cuts[-1]
            if i:
                low, high = low + apart, high + apart
            long, short = edge, edge - 2 * lean
            cuts.append((low + long, high + short) if i % 2 == 0 else (
                low + short, high + long
            ))  # fmt: skip
        ends = [x for pair in (cuts[0], cuts[-1]) for x in pair]
        size = next(one for one in design.sizes if one.key == "strip_length")
        assert isinstance(size.value, Length)
        laid = max(ends) - min(ends)
        assert size.value.nm / MM == pytest.approx(laid, abs=1e-4), typed


def test_edges_agree_with_the_polygons_worked_out_to_fifty_digits() -> None:
    """Source: reference/geometry_checks.csv, apothem and circumradius over side."""
    path = shared("reference/geometry_checks.csv")
    with path.open(encoding="utf-8", newline="") as file:
        rows = {row["check_id"]: row for row in csv.DictReader(file)}
    checked = 0
    for count in range(3, 17):
        outside = {"outside_diameter": "300 mm", "inside_diameter": "200 mm"}
        typed = outside | {"segments": str(count), "turning_allowance": "0"}
        shop = Shop(longest_crosscut=Length(10**9))
        design = registry.work_out("segmented_ring", typed, shop)
        sizes = {size.key: size.value for size in design.sizes}
        outer, inner = sizes["segment_outer_edge"], sizes["segment_inner_edge"]
        assert isinstance(outer, Length)
        assert isinstance(inner, Length)
        apothem = float(rows[f"poly-{count:02}-apothem"]["value"])
        around = float(rows[f"poly-{count:02}-circumradius"]["value"])
        assert outer.nm * apothem == pytest.approx(150e6, abs=2)
        assert inner.nm * around == pytest.approx(100e6, abs=2)
        bevel = sizes["gauge_angle"]
        assert isinstance(bevel, Angle)
        told = float(rows[f"poly-{count:02}-bevel"]["value"])
        assert float(bevel.degrees) == pytest.approx(told, abs=1e-9)
        checked += 1
    assert checked == 14


def test_rings_of_a_stack_meet_by_more_than_the_wall() -> None:
    for typed, design in stacks(1):
        wall = millimetres(design.inputs["wall"])
        for low, high in pairwise(rings(design).values()):
            outs = [e / 2 / math.tan(math.radians(g)) for e, _, _, g in (low, high)]
            ins = [
                (e / 2 - w * math.tan(math.radians(g))) / math.sin(math.radians(g))
                for e, w, _, g in (low, high)
            ]
            assert min(outs) - max(ins) >= wall - THIN, typed
