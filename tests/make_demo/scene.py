"""A small picture-maker: convex solids on a bench, a window's light, a camera."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from tests.make_demo.wood import Surface

Array = NDArray[np.float64]
SIZE = (1200, 800)
OVER = 1.25  # rendered larger, then made smaller, so that edges are smooth


@dataclass
class Solid:
    """A convex solid: its corners in its own frame, faces as rings of corners.

    ``turn`` and ``at`` place the frame in the scene; z is up, millimetres.
    """

    corners: Array
    faces: list[list[int]]
    surface: Surface
    turn: Array = field(default_factory=lambda: np.eye(3))
    at: Array = field(default_factory=lambda: np.zeros(3))
    # From the solid's frame to the grain's: x of the result runs along it.
    grain: Array = field(default_factory=lambda: np.eye(3))
    shine: float = 0.10
    seams: float = 0.18

    def placed(self) -> Array:
        result: Array = self.corners @ self.turn.T + self.at
        return result


def turned(degrees: float, axis: str = "z") -> Array:
    """A turn about one axis, counter-clockwise looking down it."""
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    turns = {
        "z": [[c, -s, 0], [s, c, 0], [0, 0, 1]],
        "y": [[c, 0, s], [0, 1, 0], [-s, 0, c]],
        "x": [[1, 0, 0], [0, c, -s], [0, s, c]],
    }
    return np.array(turns[axis])


def prism(
    base: Sequence[tuple[float, float]],
    height: float,
    surface: Surface,
    **place: object,
) -> Solid:
    """A convex outline (counter-clockwise) standing on z = 0."""
    n = len(base)
    low = [(x, y, 0.0) for x, y in base]
    high = [(x, y, height) for x, y in base]
    sides = [[i, (i + 1) % n, n + (i + 1) % n, n + i] for i in range(n)]
    faces = [list(range(n))[::-1], list(range(n, 2 * n)), *sides]
    return Solid(np.array(low + high), faces, surface, **place)  # type: ignore[arg-type]


def box(
    length: float, width: float, thickness: float, surface: Surface, **place: object
) -> Solid:
    """A board lying flat, grain along x, its middle over the origin."""
    x, y = length / 2, width / 2
    return prism([(-x, -y), (x, -y), (x, y), (-x, y)], thickness, surface, **place)


@dataclass
class Camera:
    """Where the picture is taken from; ``zoom`` is the lens against the width."""

    eye: tuple[float, float, float]
    target: tuple[float, float, float]
    zoom: float = 1.5

    def rays(self, width: int, height: int) -> tuple[Array, Array]:
        forward = np.subtract(self.target, self.eye)
        forward = forward / np.linalg.norm(forward)
        right = np.cross(forward, [0, 0, 1])
        right = right / np.linalg.norm(right)
        up = np.cross(right, forward)
        frame = np.stack([right, up, forward])
        x = (np.arange(width) + 0.5 - width / 2) / (width * 0.5) / self.zoom
        y = -(np.arange(height) + 0.5 - height / 2) / (width * 0.5) / self.zoom
        gx, gy = np.meshgrid(x, y)
        rays = gx[..., None] * right + gy[..., None] * up + forward
        return rays, frame


@dataclass
class Scene:
    """Solids on a ground at z = 0, before a wall at ``wall`` along y."""

    solids: list[Solid]
    ground: Surface
    wall: Surface
    wall_at: float = 900.0
    ground_turn: float = 0.0
    light: tuple[float, float, float] = (-0.55, -0.35, 0.85)
    seed: int = 1


def _corners_seen(camera: Camera, points: Array, size: tuple[int, int]) -> Array:
    _, frame = camera.rays(2, 2)
    seen = (points - np.array(camera.eye)) @ frame.T
    depth = np.maximum(seen[:, 2], 1.0)
    scale = size[0] * 0.5 * camera.zoom
    x = seen[:, 0] / depth * scale + size[0] / 2
    y = -seen[:, 1] / depth * scale + size[1] / 2
    return np.stack([x, y], axis=1)


def _inside(
    face: Array, normal: Array, points: Array
) -> tuple[NDArray[np.bool_], Array]:
    """Which points of a face's plane are in it, and how far from its edge."""
    near = np.full(points.shape[:-1], np.inf)
    for start, end in zip(face, np.roll(face, -1, axis=0), strict=True):
        edge = end - start
        across = np.cross(normal, edge / np.linalg.norm(edge))
        near = np.minimum(near, (points - start) @ across)
    return near >= -1e-9, near


def _normal(face: Array) -> Array:
    normal = np.cross(face[1] - face[0], face[2] - face[0])
    result: Array = normal / np.linalg.norm(normal)
    return result


class _Shadow:
    """How far each line of light gets: a map of depths towards one light."""

    SIDE = 460

    def __init__(self, solids: list[Solid], light: Array, middle: Array, reach: float):
        self.light = light / np.linalg.norm(light)
        helper = np.array([0.0, 0, 1]) if abs(self.light[2]) < 0.9 else np.eye(3)[0]
        a = np.cross(helper, self.light)
        self.a = a / np.linalg.norm(a)
        self.b = np.cross(self.light, self.a)
        self.middle, self.scale = middle, self.SIDE / (2 * reach)
        self.depth = np.full((self.SIDE, self.SIDE), -np.inf)
        for solid in solids:
            points = solid.placed()
            for ring in solid.faces:
                self._draw(points[ring])

    def _flat(self, points: Array) -> Array:
        off = points - self.middle
        return np.stack([off @ self.a, off @ self.b], -1) * self.scale + self.SIDE / 2

    def _draw(self, face: Array) -> None:
        normal = _normal(face)
        facing = float(normal @ self.light)
        if facing < 1e-6:
            return
        flat = self._flat(face)
        low = np.clip(np.floor(flat.min(0)).astype(int), 0, self.SIDE)
        high = np.clip(np.ceil(flat.max(0)).astype(int) + 1, 0, self.SIDE)
        if (high <= low).any():
            return
        gx, gy = np.meshgrid(np.arange(low[0], high[0]), np.arange(low[1], high[1]))
        u = (gx + 0.5 - self.SIDE / 2) / self.scale
        v = (gy + 0.5 - self.SIDE / 2) / self.scale
        on = self.middle + u[..., None] * self.a + v[..., None] * self.b
        t = ((face[0] - on) @ normal) / facing
        hit, _ = _inside(face, normal, on + t[..., None] * self.light)
        part = self.depth[low[1] : high[1], low[0] : high[0]]
        part[...] = np.where(hit & (t > part), t, part)

    def lit(self, points: Array) -> Array:
        flat = np.clip(self._flat(points).astype(int), 0, self.SIDE - 1)
        away = (points - self.middle) @ self.light
        blocked = self.depth[flat[:, 1], flat[:, 0]] > away + 2.2
        return np.where(blocked, 0.0, 1.0)


def render(scene: Scene, camera: Camera) -> Array:
    """The picture, rows of red, green and blue from 0 to 1, before the print."""
    width, height = (int(side * OVER) for side in SIZE)
    rays, _ = camera.rays(width, height)
    eye = np.array(camera.eye)
    depth = np.full((height, width), np.inf)
    owner = np.full((height, width), -1)
    edge = np.full((height, width), 99.0)
    faces: list[tuple[Solid | None, Array]] = []
    ground, wall = np.array([0, 0, 1.0]), np.array([0, -1.0, 0])
    for number, normal, level in ((0, ground, 0.0), (1, wall, -scene.wall_at)):
        with np.errstate(divide="ignore", invalid="ignore"):
            t = (level - eye @ normal) / (rays @ normal)
        nearer = (t > 1) & (t < depth)
        depth[nearer], owner[nearer] = t[nearer], number
        faces.append((None, normal))
    for solid in scene.solids:
        points = solid.placed()
        for ring in solid.faces:
            face = points[ring]
            normal = _normal(face)
            if (eye - face[0]) @ normal > 0:
                _draw(camera, face, normal, rays, eye, (depth, owner, edge), len(faces))
            faces.append((solid, normal))
    return _lit(scene, faces, depth, owner, edge, rays, eye)


def _draw(
    camera: Camera,
    face: Array,
    normal: Array,
    rays: Array,
    eye: Array,
    buffers: tuple[Array, NDArray[np.int_], Array],
    number: int,
) -> None:
    depth, owner, edge = buffers
    height, width = depth.shape
    seen = _corners_seen(camera, face, (width, height))
    x0, y0 = np.clip(np.floor(seen.min(0)).astype(int), 0, [width, height])
    x1, y1 = np.clip(np.ceil(seen.max(0)).astype(int) + 1, 0, [width, height])
    if x1 <= x0 or y1 <= y0:
        return
    some = rays[y0:y1, x0:x1]
    t = ((face[0] - eye) @ normal) / (some @ normal)
    hit, near = _inside(face, normal, eye + t[..., None] * some)
    nearer = hit & (t > 1) & (t < depth[y0:y1, x0:x1])
    depth[y0:y1, x0:x1][nearer] = t[nearer]
    owner[y0:y1, x0:x1][nearer] = number
    edge[y0:y1, x0:x1][nearer] = near[nearer]


def _lit(
    scene: Scene,
    faces: list[tuple[Solid | None, Array]],
    depth: Array,
    owner: NDArray[np.int_],
    edge: Array,
    rays: Array,
    eye: Array,
) -> Array:
    flat_owner, flat_ray = owner.ravel(), rays.reshape(-1, 3)
    shown = np.nonzero(flat_owner >= 0)[0]
    points = eye + depth.ravel()[shown, None] * flat_ray[shown]
    flat_owner = flat_owner[shown]
    colour = np.zeros((len(shown), 3))
    normals = np.array([normal for _, normal in faces])[flat_owner]
    shine = np.zeros(len(shown))
    order = np.argsort(flat_owner, kind="stable")
    starts = np.searchsorted(flat_owner[order], np.arange(len(faces) + 1))
    for number, (solid, _) in enumerate(faces):
        here = order[starts[number] : starts[number + 1]]
        if not len(here):
            continue
        if solid is None:
            at = points[here]
            if number == 0:
                at = at @ turned(scene.ground_turn)
                shine[here] = 0.05
            colour[here] = (scene.wall if number else scene.ground)(at)
            continue
        at = (points[here] - solid.at) @ solid.turn @ solid.grain.T
        near = edge.ravel()[shown][here]
        seam = 1 - solid.seams * np.exp(-((near / 0.5) ** 2))
        colour[here] = solid.surface(at) * seam[:, None]
        shine[here] = solid.shine
    light = _light(scene, points, normals)
    picture = np.full((depth.size, 3), 0.5)
    towards = eye - points
    towards /= np.linalg.norm(towards, axis=1)[:, None]
    key = np.array(scene.light) / np.linalg.norm(scene.light)
    half = towards + key
    half /= np.linalg.norm(half, axis=1)[:, None]
    glint = np.clip((normals * half).sum(1), 0, 1) ** 28
    picture[shown] = colour * light + (shine * glint)[:, None] * light * 0.6
    return picture.reshape(*depth.shape, 3)


def _light(scene: Scene, points: Array, normals: Array) -> Array:
    """A large window to one side, and the room's own light from everywhere."""
    chance = np.random.default_rng(scene.seed)
    corners = np.concatenate([solid.placed() for solid in scene.solids])
    middle = (corners.min(0) + corners.max(0)) / 2
    reach = float(np.linalg.norm(corners.max(0) - corners.min(0)) / 2) + 5
    total = np.zeros_like(points)
    key = np.array(scene.light) / np.linalg.norm(scene.light)
    window, room = 14, 22
    for _ in range(window):
        direction = key + chance.normal(0, 0.10, 3)
        shadow = _Shadow(scene.solids, direction, middle, reach)
        fall = np.clip(normals @ shadow.light, 0, 1) * shadow.lit(points)
        total += fall[:, None] * np.array([1.06, 0.98, 0.86]) * (0.98 / window)
    for _ in range(room):
        direction = chance.normal(0, 1, 3)
        direction[2] = abs(direction[2]) + 0.25
        direction[1] -= 0.35
        shadow = _Shadow(scene.solids, direction, middle, reach)
        fall = (0.35 + 0.65 * np.clip(normals @ shadow.light, 0, 1)) * shadow.lit(
            points
        )
        total += fall[:, None] * np.array([0.90, 0.97, 1.06]) * (0.62 / room)
    return total + 0.035
