"""The isometric picture held against a general geometry library.

What is seen of each cell is worked out anew: its faces are projected, every pair of
faces is compared by depth where they overlap, and what is nearer is taken away. The
picture, painted from back to front, must show the same area of each.
"""

from __future__ import annotations

import math
from collections import defaultdict
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import STRtree, difference, unary_union, union
from shapely.geometry import LineString, MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from app.core import geometry, registry
from app.core.drawing import Drawing
from app.core.isometric import isometric
from app.core.length import Length, Unit
from app.core.shop import Shop
from app.core.solid import XYZ, Cell, Piece, block, prism

MM = 1e6
# Corners are put on a lattice this fine: without it the library drops slivers.
GRID = 1e-6
Scene = tuple[Piece, ...]


def page(point: XYZ) -> tuple[float, float]:
    """ISO 5456-3, from memory: axes 120 degrees apart, to one scale; y down."""
    x, y, z = (one / MM for one in point)
    cos, sin = math.cos(math.pi / 6), math.sin(math.pi / 6)
    return (x + y) * cos, (x - y) * sin - z


def depth(point: XYZ) -> float:
    """How near the viewer, who stands to the right, in front and above."""
    x, y, z = point
    return (x - y + z) / MM


def faces(cell: Cell) -> list[tuple[Polygon, tuple[float, float, float]]]:
    """Faces that are seen, each with its depth as a plane over the page."""
    found = []
    for face in cell.faces:
        flat = [page(point) for point in face]
        polygon = Polygon(flat)
        # Anticlockwise from outside is clockwise on a page whose y runs down.
        if polygon.area < 1e-9 or polygon.exterior.is_ccw:
            continue
        found.append((polygon, plane([(*page(p), depth(p)) for p in face])))
    return found


def plane(points: list[tuple[float, float, float]]) -> tuple[float, float, float]:
    """Depth = a x + b y + c through the corners that are farthest from a line."""
    (x0, y0, d0), *rest = points
    best = max(
        ((p, q) for p in rest for q in rest),
        key=lambda pair: abs(
            (pair[0][0] - x0) * (pair[1][1] - y0)
            - (pair[1][0] - x0) * (pair[0][1] - y0)
        ),
    )
    (x1, y1, d1), (x2, y2, d2) = best
    det = (x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0)
    a = ((d1 - d0) * (y2 - y0) - (d2 - d0) * (y1 - y0)) / det
    b = ((x1 - x0) * (d2 - d0) - (x2 - x0) * (d1 - d0)) / det
    return a, b, d0 - a * x0 - b * y0


def seen(scene: Scene) -> dict[str, float]:
    """The area seen of each cell, by its species, square millimetres."""
    all_faces = [
        (cell.species, *face)
        for piece in scene
        for cell in piece.cells
        for face in faces(cell)
    ]
    areas: dict[str, float] = defaultdict(float)
    for i, (name, polygon, (a, b, c)) in enumerate(all_faces):
        nearer = []
        for j, (_, other, (d, e, f)) in enumerate(all_faces):
            shared = polygon.intersection(other)
            if i != j and shared.area > 1e-6:
                at = shared.representative_point()
                if (d - a) * at.x + (e - b) * at.y + f - c > 0:
                    # Where two only touch there may be lines among the areas.
                    nearer += [one for one in parts(shared) if one.area]
        together = unary_union(nearer, grid_size=GRID)
        hidden = MultiPolygon([one for one in parts(together) if one.area])
        areas[name] += difference(polygon, hidden, grid_size=GRID).area
    return areas


def parts(shape: BaseGeometry) -> list[BaseGeometry]:
    return list(getattr(shape, "geoms", [shape]))


def painted(drawing: Drawing) -> dict[str, float]:
    """The area that the picture shows of each species, square millimetres."""
    areas: dict[str, float] = defaultdict(float)
    above = MultiPolygon()
    for shape in reversed(drawing.shapes):
        polygon = Polygon([(p.x / MM, p.y / MM) for p in shape.points])
        areas[shape.species] += difference(polygon, above, grid_size=GRID).area
        together = union(above, polygon, grid_size=GRID)
        above = MultiPolygon([one for one in parts(together) if one.area])
    return areas


def same(scene: Scene) -> None:
    wanted, shown = seen(scene), painted(isometric(scene, Shop()))
    for name, area in wanted.items():
        # Corners are drawn to the nanometre.
        assert shown.get(name, 0.0) == pytest.approx(area, abs=0.01), name


def edged(scene: Scene) -> None:
    """Whatever is drawn as a line is an edge, of its cell or of one that ends there."""
    drawing = isometric(scene, Shop())
    ends = [p for s in drawing.shapes for p in s.points]
    wanted: list[LineString] = []
    for cell in (cell for piece in scene for cell in piece.cells):
        for face in cell.faces:
            around = zip(face, (*face[1:], face[0]), strict=True)
            wanted += [LineString(map(page, one)) for one in around]
    seen_faces = [f for piece in scene for cell in piece.cells for f in faces(cell)]
    left, top = (min(f.bounds[i] for f, _ in seen_faces) for i in (0, 1))
    x, y = min(p.x for p in ends) / MM - left, min(p.y for p in ends) / MM - top
    real = STRtree(wanted)
    for shape in drawing.shapes:
        points = [(p.x / MM - x, p.y / MM - y) for p in shape.points]
        around = zip(points, (*points[1:], points[0]), strict=True)
        for pen, line in zip(shape.edges, map(LineString, around), strict=True):
            for part in (0.1, 0.5, 0.9) if pen else ():
                at = line.interpolate(part, normalized=True)
                assert wanted[real.nearest(at)].distance(at) < 0.01, shape.species


def named(pieces: list[Piece]) -> Scene:
    """With a species of its own for each cell, to tell them apart in the picture."""
    found = []
    for number, piece in enumerate(pieces):
        cells = (
            Cell(cell.faces, f"wood {number}.{i}") for i, cell in enumerate(piece.cells)
        )
        found.append(Piece(piece.part, tuple(cells)))
    return tuple(found)


def vessel(sides: int) -> Scene:
    """Mitred walls of two rows with a base in their grooves."""
    tan, out, wall = math.tan(math.pi / sides), 50 * MM, 12 * MM

    def slab(near: float, far: float, low: float, high: float) -> Cell:
        a, b = out - near, out - far
        ends = [(-a * tan, -a), (a * tan, -a), (b * tan, -b), (-b * tan, -b)]
        return prism(ends, low * MM, high * MM)

    cells = (
        slab(0, wall, 0, 6),
        slab(0, 6 * MM, 6, 12),
        slab(0, wall, 12, 30),
        slab(0, wall, 30, 40),
    )
    walls = [Piece("wall", cells).turned(360 * i / sides) for i in range(sides)]
    side = Length(round(2 * tan * (out - 7.5 * MM)))
    corners = [(x, -y) for x, y in geometry.corners(sides, side)][::-1]
    return named([*walls, Piece("base", (prism(corners, 6 * MM, 12 * MM),))])


@pytest.mark.parametrize("sides", [3, 4, 5, 6, 7, 9, 12])
def test_walls_round_a_base_in_their_grooves(sides: int) -> None:
    same(vessel(sides))


def bar(low: XYZ, high: XYZ) -> Piece:
    low_mm, high_mm = (tuple(one * MM for one in end) for end in (low, high))
    return Piece("bar", (block(low_mm, high_mm),))  # type: ignore[arg-type]


def test_three_bars_each_before_the_next_have_no_order_and_are_right_all_the_same() -> (
    None
):
    scene = named(
        [
            bar((-50, -10, -10), (50, -4, -4)),
            bar((4, -50, -4), (10, 50, 2)),
            bar((-4, -4, -50), (2, 2, 50)),
        ]
    )
    same(scene)
    tied = named(
        [
            bar((0, 0, 10), (60, 10, 20)),
            bar((50, -40, 0), (60, 20, 10)),
            bar((40, -20, -20), (50, -10, 60)),
        ]
    )
    same(tied)
    edged(tied)


def test_fingers_that_reach_into_each_other() -> None:
    front = [block((10 * MM, 0, 0), (60 * MM, 10 * MM, 50 * MM))]
    side = [block((0, 10 * MM, 0), (10 * MM, 60 * MM, 50 * MM))]
    for i in range(5):
        low, high = i * 10 * MM, (i + 1) * 10 * MM
        (front if i % 2 == 0 else side).append(
            block((0, 0, low), (10 * MM, 10 * MM, high))
        )
    same(named([Piece("front", tuple(front)), Piece("side", tuple(side))]))


@st.composite
def blocks(draw: st.DrawFn) -> Scene:
    """Blocks in the rooms of a lattice, the whole turned any way."""
    lattice = st.sampled_from(list(product(range(3), repeat=3)))
    rooms = draw(st.lists(lattice, min_size=2, max_size=9, unique=True))
    found = []
    for room in rooms:
        ends = [sorted(draw(st.tuples(*[st.integers(0, 20)] * 2))) for _ in room]
        low = tuple(20 * at + end[0] for at, end in zip(room, ends, strict=True))
        high = tuple(
            20 * at + max(end[1], end[0] + 1)
            for at, end in zip(room, ends, strict=True)
        )
        found.append(bar(low, high))  # type: ignore[arg-type]
    turn = draw(st.integers(0, 359))
    return named([piece.turned(turn) for piece in found])


@settings(max_examples=40, deadline=None)
@given(blocks())
def test_any_blocks_that_do_not_overlap(scene: Scene) -> None:
    same(scene)


@pytest.mark.parametrize(
    "form", [key for key in registry.forms() if key != "parts_list"]
)
def test_what_every_form_opens_on(form: str) -> None:
    example = registry.form(form).example(Unit.MILLIMETRE)
    design = registry.work_out(form, example, Shop(unit=Unit.MILLIMETRE))
    scene = named(list(design.assembly))
    same(scene)
    edged(scene)


def test_dividers_in_a_box_of_fingers_are_cut_to_be_drawn_and_show_no_cut() -> None:
    """They cross in each other and in all walls: no plane parts them uncut."""
    typed = {"length": "260 mm", "width": "180 mm", "height": "90 mm", "wall": "9 mm"}
    typed |= {"joint": "finger", "cutter": "1/4 in"}
    typed |= {"dividers_across": "2", "dividers_along": "1"}
    edged(named(list(registry.work_out("box", typed, Shop()).assembly)))


def test_a_cube_has_three_faces_of_one_size() -> None:
    """ISO 5456-3, from memory: three faces of a cube in isometric are equal rhombi."""
    cube = (Piece("cube", (block((0, 0, 0), (MM * 30, MM * 30, MM * 30)),)),)
    shapes = isometric(cube, Shop()).shapes
    areas = [Polygon([(p.x, p.y) for p in s.points]).area / MM**2 for s in shapes]
    assert areas == pytest.approx([900 * math.sin(math.pi / 3)] * 3, rel=1e-6)
    for shape in shapes:
        ends = zip(shape.points, (*shape.points[1:], shape.points[0]), strict=True)
        for a, b in ends:
            assert math.hypot(b.x - a.x, b.y - a.y) == pytest.approx(30 * MM, rel=1e-6)
