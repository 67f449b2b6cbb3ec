"""Staves held against solids built from the set-ups alone.

A stave is a block ripped square that runs twice past a tilted blade: what the fences,
the tilt and the face on the table say is all that is taken from the form.
"""

from __future__ import annotations

import csv
import math

import manifold3d
import pytest

from app.core import registry
from app.core.angle import Angle
from app.core.design import Design
from app.core.length import Length
from app.core.setup import SetUp
from app.core.shop import Shop
from tests.conftest import shared
from tests.core.forms.grids import Typed, each

MM = 1e6
THIN = 1e-3  # a micrometre, in millimetres
FACETS = 180
Solid = manifold3d.Manifold


def set_ups(design: Design) -> dict[str, SetUp]:
    return {one.key: one for one in design.set_ups}


def millimetres(text: str) -> float:
    return Length.read(text).nm / MM


def past_the_blade(stave: Solid, one: SetUp) -> Solid:
    """The table is z = 0, the fence x = 0; the blade leans away from the fence."""
    assert one.fence is not None
    assert one.tilt is not None
    lean = math.radians(float(one.tilt.degrees))
    # Kept: x <= fence + z tan(lean).
    normal = (-math.cos(lean), 0.0, math.sin(lean))
    return stave.trim_by_plane(normal, -one.fence.nm / MM * math.cos(lean))


def ripped(design: Design) -> Solid:
    """One stave, outer face up, the fence on its left; y along it."""
    part = next(one for one in design.parts if one.key.startswith("stave"))
    found = set_ups(design)
    rip = found["rip-staves"]
    size = next(one for one in design.sizes if one.key == "blank_width")
    assert isinstance(size.value, Length)
    assert rip.fence in (None, size.value)
    block = Solid.cube(
        (size.value.nm / MM, part.finished.length.nm / MM,
         part.finished.thickness.nm / MM)
    )  # fmt: skip
    first = past_the_blade(block, found["bevel-first"])
    # End for end: the bevelled edge's tip comes to the fence.
    turned = first.rotate((0, 0, 180))
    low = turned.bounding_box()
    against = turned.translate((-low[0], -low[1], 0))
    return past_the_blade(against, found["bevel-second"])


def stood_round(design: Design) -> list[Solid]:
    """Upright, outer face on its flat, all of them round the middle."""
    one = ripped(design)
    count = int(design.inputs["staves"])
    box = one.bounding_box()
    wide, thick = box[3] - box[0], box[5]
    out = wide / 2 / math.tan(math.pi / count)
    # Outer face up becomes outer face towards the viewer: y to z, z to -y.
    upright = one.translate((-(box[0] + box[3]) / 2, 0, -thick)).rotate((90, 0, 0))
    box = upright.bounding_box()
    facing = upright.translate((0, -box[1] - out, -box[2]))
    if upright.bounding_box()[1] < -THIN:
        facing = upright.rotate((0, 0, 180)).translate((0, 0, -box[2]))
        box = facing.bounding_box()
        facing = facing.translate((0, -box[1] - out, 0))
    return [facing.rotate((0, 0, 360 * i / count)) for i in range(count)]


def union(solids: list[Solid]) -> Solid:
    return Solid.batch_boolean(solids, manifold3d.OpType.Add)


def tilted() -> list[tuple[Typed, Design]]:
    """Those whose bevel the blade reaches, without a jig."""
    return [
        (typed, design)
        for typed, design in each("stave_cylinder")
        if set_ups(design)["bevel-second"].fence is not None
    ]


def test_a_stave_ripped_as_told_is_the_stave_of_the_parts() -> None:
    tried = tilted()
    assert len(tried) > 200
    for typed, design in tried:
        part = next(one for one in design.parts if one.key.startswith("stave"))
        one = ripped(design)
        room = THIN * one.surface_area()
        assert abs(one.volume() - part.volume / MM**3) <= room, typed
        box = one.bounding_box()
        assert box[3] - box[0] == pytest.approx(part.finished.width.nm / MM, abs=THIN)


def test_staves_close_into_the_prism_that_the_circles_ask_for() -> None:
    """Area of n staves: n tan(180°/n) (R² - (R - thickness)²), plane geometry."""
    for typed, design in tilted()[::2]:
        count = int(design.inputs["staves"])
        more = millimetres(design.inputs["turning_allowance"])
        out = millimetres(design.inputs["outside_diameter"]) / 2 + more
        within = out - millimetres(design.inputs["thickness"])
        high = millimetres(design.inputs["height"])
        area = count * math.tan(math.pi / count) * (out**2 - within**2)
        placed = stood_round(design)
        whole = union(placed).volume()
        room = THIN * sum(one.surface_area() for one in placed)
        assert abs(whole - area * high) <= room, typed
        assert abs(whole - sum(one.volume() for one in placed)) <= room, typed


def tube(outside: float, inside: float, high: float) -> Solid:
    """A turned tube, its facets within both circles' wood."""
    outer = manifold3d.CrossSection.circle(outside / 2, FACETS)
    inner = manifold3d.CrossSection.circle(
        inside / 2 / math.cos(math.pi / FACETS), FACETS
    )
    return Solid.extrude(outer - inner, high)


def test_the_turned_tube_lies_inside_the_glued_staves() -> None:
    for typed, design in tilted()[::2]:
        outside = millimetres(design.inputs["outside_diameter"])
        inside = millimetres(design.inputs["inside_diameter"])
        high = millimetres(design.inputs["height"])
        placed = stood_round(design)
        missing = (tube(outside, inside, high) - union(placed)).volume()
        assert missing <= THIN * sum(one.surface_area() for one in placed), typed


def test_a_stave_thinner_than_the_least_does_not_hold_both_circles() -> None:
    for count in range(4, 25):
        typed = {
            "staves": str(count),
            "outside_diameter": "200 mm",
            "inside_diameter": "170 mm",
            "height": "50 mm",
        }
        design = registry.work_out("stave_cylinder", typed, Shop())
        wood = union(stood_round(design))
        missing = tube(200, 170, 50) - wood
        assert missing.volume() <= THIN * wood.surface_area()
        for wide, narrow in ((200.2, 170), (200, 169.8)):
            assert (tube(wide, narrow, 50) - wood).volume() > 1e-2, count


def test_bevels_and_faces_agree_with_the_polygons_worked_out_to_fifty_digits() -> None:
    """Source: reference/geometry_checks.csv, bevel, apothem and circumradius."""
    path = shared("reference/geometry_checks.csv")
    with path.open(encoding="utf-8", newline="") as file:
        polygons = [row for row in csv.DictReader(file) if row["kind"] == "polygon"]
    rows = {row["check_id"]: float(row["value"]) for row in polygons}
    for count in range(4, 17):
        typed = {
            "staves": str(count),
            "outside_diameter": "300 mm",
            "inside_diameter": "240 mm",
        }
        sizes = {
            size.key: size.value
            for size in registry.work_out("stave_cylinder", typed, Shop()).sizes
        }
        bevel, width, least = (
            sizes[key] for key in ("edge_bevel", "stave_width", "least_thickness")
        )
        assert isinstance(bevel, Angle)
        assert isinstance(width, Length)
        assert isinstance(least, Length)
        name = f"poly-{count:02}"
        assert float(bevel.degrees) == pytest.approx(rows[f"{name}-bevel"], abs=1e-9)
        apothem, around = rows[f"{name}-apothem"], rows[f"{name}-circumradius"]
        assert width.nm * apothem == pytest.approx(150e6, abs=2)
        # The inner flat's distance is the inner circle's radius by apothem / corner.
        assert least.nm == pytest.approx(150e6 - 120e6 * apothem / around, abs=2)


@pytest.mark.parametrize("count", [6, 8, 12, 16])
def test_the_sagitta_is_what_turning_takes_at_a_corner(count: int) -> None:
    """Sagitta of a chord c in a circle of radius r: r - √(r² - c²/4).

    Source: any handbook's circle segment; the formula from memory.
    """
    typed = {"staves": str(count), "outside_diameter": "200 mm"}
    typed |= {"inside_diameter": "160 mm", "height": "100 mm"}
    design = registry.work_out("stave_cylinder", typed, Shop())
    sizes = {size.key: size.value for size in design.sizes}
    swing, width = sizes["swing"], sizes["stave_width"]
    assert isinstance(swing, Length)
    assert isinstance(width, Length)
    around = swing.nm / 2
    sagitta = around - math.sqrt(around**2 - width.nm**2 / 4)
    assert around - 100e6 == pytest.approx(sagitta, abs=4)
