"""The shots: what stands before the camera at each step of a build."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from tests.make_demo.scene import Camera, Scene, Solid, box, prism, turned
from tests.make_demo.wood import bench_top, ground_iron, plain, wood

IRON = plain(0.20, 0.21, 0.23, 0.10)
STEEL = plain(0.58, 0.60, 0.62, 0.06)
TAPE = plain(0.34, 0.47, 0.60, 0.05, 2.0)
GREEN = plain(0.20, 0.33, 0.27, 0.08)
PLASTER = plain(0.70, 0.68, 0.63, 0.06, 30.0)
Place = tuple[float, float, float]


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
    base: bool = True,
) -> list[Solid]:
    """Straight walls of strips, grain running round, and the base between them.

    ``outside`` is across the flats, millimetres; ``rows`` from below.
    """
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
        for row, species in enumerate(rows):
            # One strip runs round all the walls: the same piece, further along.
            made = prism(piece, rise, wood(species, seed + row))
            made.grain = np.array([[1, 0, 0], [0, 0, 1], [0, 1, 0]])
            made.at = np.array([0, 0, row * rise])
            solids.append(put(made, (0, 0, 0), 360 / sides * side))
    if not base:
        return solids
    within = (half - wall) / np.cos(step / 2)
    turns = [step * (n + 0.5) for n in range(sides)]
    ring = [(within * np.sin(a), -within * np.cos(a)) for a in turns]
    solids.append(prism(ring, 9.0, wood(rows[0], seed + 50), at=np.array([0, 0, 8.0])))
    return solids


def boards(sizes: Sequence[tuple[str, Place]], seed: int) -> tuple[Scene, Camera]:
    """Bought boards, side by side on the bench as they came."""
    solids, y = [], -120.0
    for n, (species, (length, width, thick)) in enumerate(sizes):
        piece = box(length, width, thick, wood(species, seed + n))
        turn = (-3.5, 2.0, -1.2, 4.0)[n % 4]
        solids.append(put(piece, (n * 46 - 60, y + width / 2, 0), turn))
        y += width + 34
    return on_bench(solids, Camera((-420, -760, 600), (-20, 60, 0), 2.05), seed)


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
    return on_bench(solids, Camera((-330, -610, 560), (0, 35, 20), 2.1), seed)


def _round(radius: float, corners: int) -> list[tuple[float, float]]:
    turns = [2 * np.pi * n / corners for n in range(corners)]
    return [(radius * float(np.cos(a)), radius * float(np.sin(a))) for a in turns]


def taped(
    sides: int, side: float, height: float, wall: float, rows: Sequence[str], seed: int
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
        for row, species in enumerate(rows):
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


def offcuts(pieces: Sequence[tuple[str, Place]], seed: int) -> tuple[Scene, Camera]:
    """What was left, on the rack: some lying, some standing against the wall."""
    solids: list[Solid] = []
    x = -250.0
    for n, (species, (length, width, thick)) in enumerate(pieces):
        piece = box(length, width, thick, wood(species, seed + n))
        if n % 3 == 2:
            piece.turn = turned(-78, "y")
            piece.at = np.array([0, 0, length / 2])
            solids.append(put(piece, (x + 40, 150, 2), 90))
            x += width + 40
        else:
            level = (n % 3) * (pieces[n - 1][1][2] if n else 0)
            solids.append(
                put(piece, (x + length / 2, (n % 2) * 22 - 6, level), 2.5 * (n % 3) - 2)
            )
            x += (length * 0.72 + 24) if n % 3 else 16
    ground = wood("shelf", 77)
    scene = Scene(solids, ground, PLASTER, 215.0, 0.0, (-0.5, -0.55, 0.8), seed)
    return scene, Camera((-60, -760, 330), (0, 60, 75), 2.35)


def shelf(
    width: float,
    height: float,
    depth: float,
    thick: float,
    species: Sequence[str],
    seed: int,
) -> list[Solid]:
    """Two sides, three boards between them, a rail across the back."""
    side, board, rail = species
    made: list[Solid] = []
    for n, x in enumerate((-1, 1)):
        end = box(height, depth, thick, wood(side, seed + n))
        end.turn = turned(-90, "y")
        made.append(
            put(end, (x * (width / 2 - (thick if x > 0 else 0)), 0, height / 2))
        )
    inner = width - 2 * thick
    for n, z in enumerate((12.0, height * 0.52)):
        made.append(
            put(box(inner, depth - 6, thick, wood(board, seed + 5 + n)), (0, 0, z))
        )
    for n, z in enumerate((12.0 + thick + 18, height * 0.52 + thick + 18)):
        lip = box(inner, 8, 18, wood(rail, seed + 9 + n))
        made.append(put(lip, (0, -depth / 2 + 6, z)))
    back = box(inner, 10, 44, wood(rail, seed + 13))
    made.append(put(back, (0, depth / 2 - 8, height - 60)))
    return made


def tray(
    length: float,
    width: float,
    high: float,
    thick: float,
    species: Sequence[str],
    seed: int,
) -> list[Solid]:
    """A striped bottom in a frame whose ends stand higher."""
    frame, *stripes = species
    made: list[Solid] = []
    each = (width - 2 * thick) / len(stripes)
    for n, name in enumerate(stripes):
        y = (n + 0.5) * each - width / 2 + thick
        made.append(
            put(box(length - 2 * thick, each, 9, wood(name, seed + n)), (0, y, 6))
        )
    for n, y in enumerate((-1, 1)):
        side = box(length, thick, high, wood(frame, seed + 20 + n))
        made.append(put(side, (0, y * (width - thick) / 2, 0)))
    for n, x in enumerate((-1, 1)):
        end = box(width - 2 * thick, thick, high * 0.75, wood(frame, seed + 23 + n))
        made.append(put(end, (x * (length - thick) / 2, 0, 0), 90))
        grip = box(width * 0.5, thick * 1.2, thick * 1.1, wood("walnut", seed + 26 + n))
        made.append(put(grip, (x * (length - thick) / 2, 0, high * 1.35), 90))
        for y in (-1, 1):
            post = box(thick, thick, high * 0.62, wood("walnut", seed + 30 + n))
            where = (x * (length - thick) / 2, y * width * 0.22, high * 0.74)
            made.append(put(post, where))
    return made
