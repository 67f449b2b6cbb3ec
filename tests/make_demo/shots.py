"""The shots: what stands before the camera at each step of a build."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from tests.make_demo.scene import Camera, Scene, Solid, box, prism, turned
from tests.make_demo.wood import bench_top, ground_iron, plain, wood

IRON = plain(0.20, 0.21, 0.23, 0.10)
BASE, SPLINE = 9.5, 3.2  # thick, mm
STEEL = plain(0.58, 0.60, 0.62, 0.06)
TAPE = plain(0.34, 0.47, 0.60, 0.05, 2.0)
GREEN = plain(0.20, 0.33, 0.27, 0.08)
PLASTER = plain(0.70, 0.68, 0.63, 0.06, 30.0)
Place = tuple[float, float, float]
# Pieces by species and length, width and thickness, millimetres.
Wood = Sequence[tuple[str, Place]]


def put(solid: Solid, at: Place, degrees: float = 0.0) -> Solid:
    """The solid somewhere else, turned about its own upright axis."""
    turn = turned(degrees)
    solid.turn = turn @ solid.turn
    solid.at = turn @ solid.at + np.array(at)
    return solid


def on_bench(solids: list[Solid], camera: Camera, seed: int) -> tuple[Scene, Camera]:
    turn = (seed * 37) % 17 - 8.0
    return Scene(
        solids, bench_top(seed % 3 + 4), PLASTER, 1100.0, turn, seed=seed
    ), camera


def vessel(
    sides: int,
    outside: float,
    height: float,
    wall: float,
    rows: Sequence[str],
    seed: int,
    base: str = "within",
    stepped: bool = False,
    foot: str = "",
) -> list[Solid]:
    """Straight walls of strips, grain running round, and the base if there is one.

    ``outside`` is across the flats, millimetres; ``rows`` from below, a strip higher
    on each next wall if ``stepped``. ``base`` is "within" the walls, "under" or "",
    of the lowest row's wood unless ``foot`` names another.
    """
    low = BASE if base == "under" else 0.0
    half, step = outside / 2, 2 * np.pi / sides
    outer, inner = half * np.tan(step / 2), (half - wall) * np.tan(step / 2)
    piece = [
        (-outer, -half),
        (outer, -half),
        (inner, wall - half),
        (-inner, wall - half),
    ]
    rise = height / len(rows)
    solids = []
    for side in range(sides):
        for row in range(len(rows)):
            species = rows[(row - side * stepped) % len(rows)]
            # One strip runs round all the walls: the same piece, further along.
            made = prism(piece, rise, wood(species, seed + row))
            made.grain = np.array([[1, 0, 0], [0, 0, 1], [0, 1, 0]])
            made.at = np.array([0, 0, low + row * rise])
            solids.append(put(made, (0, 0, 0), 360 / sides * side))
    if not base:
        return solids
    reach = half if base == "under" else half - wall
    radius = reach / np.cos(step / 2)
    turns = [step * (n + 0.5) for n in range(sides)]
    ring = [(radius * np.sin(a), -radius * np.cos(a)) for a in turns]
    at = np.array([0, 0, 0.0 if low else 8.0])
    solids.append(prism(ring, BASE, wood(foot or rows[0], seed + 50), at=at))
    return solids


def vessel_splines(
    sides: int,
    outside: float,
    height: float,
    wall: float,
    species: str,
    low: float,
    seed: int,
) -> list[Solid]:
    """Two splines an eighth of an inch thick in each corner, half-way into the wood.

    They stand at the thirds of walls that begin ``low`` above the bench.
    """
    half, step = outside / 2, 2 * np.pi / sides
    depth = wall / np.cos(step / 2) / 2
    shows = depth / np.sin(step / 2)
    # A hair proud of the faces, so that it is seen.
    x = half * np.tan(step / 2) + 0.2 * np.sin(step / 2)
    y = -half - 0.2 * np.cos(step / 2)
    ring = [
        (x, y),
        (x + shows * np.cos(step), y + shows * np.sin(step)),
        (x - shows, y),
    ]
    made = []
    for side in range(sides):
        for third in (1, 2):
            one = prism(ring, SPLINE, wood(species, seed + 2 * side + third))
            one.at = np.array([0, 0, low + height * third / 3 - SPLINE / 2])
            made.append(put(one, (0, 0, 0), 360 / sides * side))
    return made


def boards(pieces: Wood, seed: int) -> tuple[Scene, Camera]:
    """The wood for a build, side by side on the bench."""
    solids: list[Solid] = []
    deep = sum(width + 34 for _, (_, width, _) in pieces) - 34
    far = max(deep / 310, max(size[0] for _, size in pieces) / 900)
    y = -deep / 2
    for n, (species, (length, width, thick)) in enumerate(pieces):
        piece = box(length, width, thick, wood(species, seed + n))
        turn = (-2.5, 1.5, -1.2, 2.0)[n % 4]
        solids.append(put(piece, (n * 46 - 60, y + width / 2, 0), turn))
        y += width + 34
    eye = (-420 * far, -760 * far, 600 * far)
    return on_bench(solids, Camera(eye, (-20, 20, 0), 2.05), seed)


def clamped(species: Sequence[str], size: Place, seed: int) -> tuple[Scene, Camera]:
    """Strips glued edge to edge between the jaws of three clamps."""
    length, width, thick = size
    whole = width * len(species)
    solids: list[Solid] = []
    for n, name in enumerate(species):
        y = (n + 0.5) * width - whole / 2
        off = ((n * 53) % 7 - 3) * 1.6
        solids.append(
            put(box(length, width, thick, wood(name, seed + n)), (off, y, 26))
        )
    for x in (-length * 0.34, 0, length * 0.34):
        bar = box(whole + 190, 9, 20, STEEL, shine=0.3, seams=0.05)
        solids.append(put(bar, (x, 25, 0), 90))
        for end in (-1, 1):
            jaw = box(34, 30, thick + 42, GREEN, shine=0.2)
            solids.append(put(jaw, (x, end * (whole / 2 + 15.5), 4), 0))
        screw = box(70, 11, 11, IRON, shine=0.35)
        solids.append(put(screw, (x, whole / 2 + 65, 34), 90))
        grip = prism(_round(14, 8), 46, wood("cherry", 9))
        grip.turn = turned(90, "x")
        solids.append(put(grip, (x, whole / 2 + 146, 40)))
    far = max(length, whole * 1.5) / 480
    eye = (-330 * far, -610 * far, 560 * far)
    return on_bench(solids, Camera(eye, (0, 35, 20), 2.1), seed)


def _round(radius: float, corners: int) -> list[tuple[float, float]]:
    turns = [2 * np.pi * n / corners for n in range(corners)]
    return [(radius * float(np.cos(a)), radius * float(np.sin(a))) for a in turns]


def taped(
    sides: int,
    side: float,
    height: float,
    wall: float,
    rows: Sequence[str],
    seed: int,
    stepped: bool = False,
) -> tuple[Scene, Camera]:
    """The walls laid out in a row, outer faces up, tape over the joints."""
    solids: list[Solid] = []
    bevel = wall * np.tan(np.pi / sides)
    rise = height / len(rows)
    ring = [
        (-side / 2 + bevel, 0),
        (side / 2 - bevel, 0),
        (side / 2, wall),
        (-side / 2, wall),
    ]
    for n in range(sides):
        x = (n - (sides - 1) / 2) * (side + 0.4)
        for row in range(len(rows)):
            species = rows[(row - n * stepped) % len(rows)]
            made = prism(ring, rise, wood(species, seed + row))
            made.grain = np.array([[1, 0, 0], [0, 0, 1], [0, 1, 0]])
            made.turn = turned(90, "x")
            solids.append(put(made, (x, (row + 1) * rise - height / 2, 0)))
    whole = sides * side
    for y in (-height * 0.28, height * 0.28):
        tape = box(
            whole + 70, min(24.0, height * 0.2), 0.35, TAPE, shine=0.04, seams=0.05
        )
        solids.append(put(tape, (8, y, wall), 0.6))
    far = whole * 0.95
    return on_bench(
        solids, Camera((-far * 0.35, -far * 0.86, far * 0.9), (0, 0, 0), 1.85), seed
    )


def base_on_saw(
    sides: int, inscribed: float, thick: float, species: str, seed: int
) -> tuple[Scene, Camera]:
    """The base against the mitre gauge's fence, before the blade."""
    radius = inscribed / 2 / np.cos(np.pi / sides)
    turns = [2 * np.pi * (n + 0.5) / sides - np.pi / 2 for n in range(sides)]
    ring = [(radius * float(np.cos(a)), radius * float(np.sin(a))) for a in turns]
    base = prism(ring, thick, wood(species, seed))
    gauge = 90 - 360 / sides
    half = inscribed / 2
    fence = box(300, 20, 62, wood("maple", seed + 3))
    put(base, (0, half + 10, 0))
    solids = [base, put(fence, (-30, 0, 0))]
    for solid in solids:
        put(solid, (0, -60, 0), abs(gauge) / 2)
    head = prism(
        [(x, y * 0.8) for x, y in _round(72, 20) if y <= 1], 16, IRON, shine=0.3
    )
    solids.append(put(head, (-20, -78, 1), 4))
    solids.append(put(box(420, 19, 3.5, STEEL, shine=0.4), (-20, -40, 0), 90))
    blade = prism(_round(90, 60), 2.6, STEEL, shine=0.6, seams=0.0)
    blade.turn = turned(90, "x")
    solids.append(put(blade, (0, 0, 0), 90))
    blade.at = np.array([half + 60, 70.0, -38.0])
    insert = box(300, 84, 0.6, plain(0.42, 0.14, 0.10, 0.05), shine=0.2)
    solids.append(put(insert, (half + 58, 70, 0), 90))
    scene = Scene(solids, ground_iron, PLASTER, 900.0, 0.0, seed=seed)
    return scene, Camera((-330, 360, 330), (25, -25, 0), 2.0)


def finished(
    solids: list[Solid], size: float, seed: int, lift: float = 0.27, zoom: float = 2.5
) -> tuple[Scene, Camera]:
    """The piece alone in the window's light."""
    far = size * 2.0
    turn = [put(solid, (0, 0, 0), 14) for solid in solids]
    eye = (-far * 0.42, -far * 0.95, far * 0.78)
    return on_bench(turn, Camera(eye, (0, 0, size * lift), zoom), seed)


def turners(seed: int, floor: float, height: float) -> list[Solid]:
    """Flat wooden turners that lean in a holder."""
    made = []
    for n, (x, y, lean, turn, species) in enumerate(
        (
            (-18, 10, 9, 20, "maple"),
            (16, 16, 10, 150, "cherry"),
            (4, -18, 8, 265, "walnut"),
        )
    ):
        length = height * (1.42 + 0.08 * n)
        stick = prism(_round(5.5, 10), length, wood(species, seed + n))
        stick.grain = np.array([[0, 0, 1], [1, 0, 0], [0, 1, 0]])
        stick.turn = turned(lean, "y")
        made.append(put(stick, (x, y, floor), turn))
        bowl = prism(
            [(a * 1.0, b * 0.22) for a, b in _round(21, 16)],
            58,
            wood(species, seed + n),
        )
        bowl.grain = stick.grain
        bowl.at = np.array([0, 0, length - 4])
        bowl.turn = np.eye(3)
        tip = turned(turn) @ turned(lean, "y")
        bowl.at = tip @ bowl.at + np.array([x, y, floor])
        bowl.turn = tip @ turned(35 * n)
        made.append(bowl)
    return made


def offcuts(pieces: Wood, seed: int) -> tuple[Scene, Camera]:
    """What was left, on the rack: two stacks, the largest pieces lowest."""
    solids: list[Solid] = []
    order = sorted(pieces, key=lambda one: -one[1][0] * one[1][1])
    levels = [0.0, 0.0]
    for n, (species, (length, width, thick)) in enumerate(order):
        stack = n % 2
        piece = box(length, width, thick, wood(species, seed + n))
        place = (n * 31 % 90 - 45.0, (95.0, -75.0)[stack], levels[stack])
        solids.append(put(piece, place, 2.5 * (n % 3) - 2))
        levels[stack] += thick
    ground = wood("bench", 77)
    scene = Scene(solids, ground, PLASTER, 215.0, 0.0, (-0.5, -0.55, 0.8), seed)
    far = max(1.0, order[0][1][0] / 640)
    eye = (-150 * far, -620 * far, 480 * far)
    return scene, Camera(eye, (0, 10, 20), 2.35)


def shelf(
    width: float,
    height: float,
    depth: float,
    thick: float,
    species: Sequence[str],
    seed: int,
) -> list[Solid]:
    """Two ends, two boards with lips between them, a rail across the back."""
    side, board, rail = species
    made: list[Solid] = []
    for n, x in enumerate((-1, 1)):
        end = box(height, depth, thick, wood(side, seed + n))
        end.turn = turned(-90, "y")
        made.append(
            put(end, (x * (width / 2 - (thick if x > 0 else 0)), 0, height / 2))
        )
    inner = width - 2 * thick
    lip, rail_high = (6.4, 28.6), 44.5
    for n, z in enumerate((12.0, height * 0.52)):
        one = box(inner, depth - lip[0], thick, wood(board, seed + 5 + n))
        made.append(put(one, (0, lip[0] / 2, z)))
        one = box(inner, *lip, wood(rail, seed + 9 + n))
        made.append(put(one, (0, (lip[0] - depth) / 2, z)))
    back = box(inner, thick, rail_high, wood(rail, seed + 13))
    made.append(put(back, (0, (depth - thick) / 2, height - 60)))
    return made


def rails(
    length: float, width: float, thick: float, high: float, species: str, seed: int
) -> list[Solid]:
    """Four rails mitred and stood together, nothing between them."""
    made: list[Solid] = []
    for n in range(4):
        long, off = (length, width) if n % 2 == 0 else (width, length)
        x, y = long / 2, -off / 2
        ring = [(-x, y), (x, y), (x - thick, y + thick), (thick - x, y + thick)]
        rail = prism(ring, high, wood(species, seed + n))
        made.append(put(rail, (0, 0, 0), 90.0 * n))
    return made
