"""What surfaces look like: wood from its growth rings, iron, tape, plaster.

Every surface is a function of the place in the piece, in millimetres: x along
the grain, y and z across it. So the grain of a board runs on over its edges.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Surface = Callable[[Array], Array]


def noise(at: Array, seed: int) -> Array:
    """Smooth noise between 0 and 1, one wave a unit."""
    base = np.floor(at)
    part = at - base
    part = part * part * (3 - 2 * part)
    cell = base.astype(np.int64)
    primes = (374761393, 668265263, 2147483647)
    near = [cell[:, axis] * primes[axis] for axis in range(3)]
    far = [line + prime for line, prime in zip(near, primes, strict=True)]
    shares = [(1 - part[:, axis], part[:, axis]) for axis in range(3)]
    total = np.zeros(at.shape[0])
    for corner in range(8):
        bits = (corner & 1, corner >> 1 & 1, corner >> 2 & 1)
        mixed = np.full(at.shape[0], seed * 144269504, dtype=np.int64)
        weight = 1.0
        for axis, bit in enumerate(bits):
            mixed += far[axis] if bit else near[axis]
            weight = weight * shares[axis][bit]
        mixed &= 0x7FFFFFFF
        mixed ^= mixed >> 13
        mixed *= 1274126177
        mixed &= 0x7FFFFFFF
        mixed ^= mixed >> 15
        total += weight * (((mixed * 1911520717) >> 8) & 0xFFFF) / 65536
    return total


@dataclass(frozen=True)
class Look:
    """A species: light and dark of a ring, ring width in mm, strength of pores.

    ``coarse`` makes fibres and pores so many times as wide.
    """

    early: tuple[float, float, float]
    late: tuple[float, float, float]
    ring: float
    pores: float
    flecks: float = 0.0
    coarse: float = 1.0


LOOKS = {
    "cherry": Look((0.72, 0.43, 0.27), (0.57, 0.30, 0.17), 4.5, 0.10, 0.05),
    "maple": Look((0.88, 0.75, 0.56), (0.80, 0.64, 0.44), 5.0, 0.05, 0.05),
    "walnut": Look((0.40, 0.27, 0.185), (0.24, 0.15, 0.10), 4.0, 0.24),
    # Between maple and walnut and cooler than cherry, so that each stands out from
    # it; its grain is coarse, since fine lines far away would make waves.
    "bench": Look((0.53, 0.45, 0.37), (0.44, 0.36, 0.29), 9.0, 0.04, coarse=5.0),
    "shelf": Look((0.74, 0.61, 0.44), (0.66, 0.51, 0.34), 7.0, 0.08),
}


def wood(species: str, seed: int) -> Surface:
    """A piece of one species; every seed is another piece."""
    look = LOOKS[species]
    chance = np.random.default_rng(seed)
    # The pith lies off the piece: how far decides flat or upright rings.
    pith = np.array([chance.uniform(-15, 15), -chance.uniform(28, 75)])
    lean = chance.uniform(-0.05, 0.05, 2)
    tone = chance.uniform(0.94, 1.06)
    shift = chance.uniform(0, 500, 3)
    fine = 1 / look.coarse

    def colour(at: Array) -> Array:
        moved = at + shift
        long = np.array([1 / 190, 1 / 38, 1 / 38])
        bend = noise(moved * long, seed) + 0.35 * noise(moved * long * 2.7, seed + 1)
        y = at[:, 1] - pith[0] + lean[0] * at[:, 0] + 16 * (bend - 0.6)
        z = at[:, 2] - pith[1] + lean[1] * at[:, 0]
        ring = np.hypot(y, z) / look.ring
        ring = ring + 0.35 * noise(moved * np.array([1 / 90, 1 / 9, 1 / 9]), seed + 2)
        place = ring - np.floor(ring)
        late = np.clip(place, 0, 1) ** 2.2 * np.clip((1 - place) * 9, 0, 1)
        width = 0.55 + 0.45 * noise(np.stack([np.floor(ring)] * 3, 1) * 0.7, seed + 3)
        mixed = (late * width)[:, None]
        early, dark = np.array(look.early), np.array(look.late)
        rgb: Array = early * (1 - mixed) + dark * mixed
        fibre = noise(moved * np.array([1 / 26, fine / 0.7, fine / 0.7]), seed + 4)
        pore = noise(moved * np.array([1 / 9, fine / 0.5, fine / 0.5]), seed + 5)
        patch = noise(moved * np.array([1 / 120, 1 / 45, 1 / 45]), seed + 6)
        shade = tone * (0.93 + 0.10 * fibre + 0.10 * (patch - 0.5))
        shade = shade - look.pores * np.clip(pore - 0.66, 0, 1) * 2.4
        fleck = noise(moved * np.array([1 / 3.0, 1 / 1.1, 1 / 1.1]), seed + 7)
        shade = shade + look.flecks * np.clip(fleck - 0.72, 0, 1) * 2
        return rgb * shade[:, None]

    return colour


def bench_top(seed: int = 5) -> Surface:
    """Planks glued edge to edge, 70 mm wide, a little worn."""
    planks = [wood("bench", seed * 100 + n) for n in range(9)]

    def colour(at: Array) -> Array:
        number = np.floor(at[:, 1] / 70).astype(int)
        rgb = np.zeros((at.shape[0], 3))
        for n, plank in enumerate(planks):
            here = number % len(planks) == n
            if here.any():
                rgb[here] = plank(at[here])
        within = np.abs(at[:, 1] / 70 - np.round(at[:, 1] / 70)) * 70
        worn = noise(at * np.array([1 / 60, 1 / 60, 1.0]), seed)
        rub = noise(at * np.array([1 / 14, 1 / 3, 1.0]), seed + 9)
        shade = 0.9 + 0.12 * worn + 0.05 * rub - 0.22 * np.exp(-((within / 0.7) ** 2))
        return rgb * shade[:, None]

    return colour


def plain(
    red: float, green: float, blue: float, rough: float = 0.05, grain: float = 4.0
) -> Surface:
    """Something of one colour: iron, plaster, tape."""

    def colour(at: Array) -> Array:
        wave = noise(at / grain, 3) - 0.5 + 0.6 * (noise(at / (grain * 9), 4) - 0.5)
        return np.array([red, green, blue]) * (1 + rough * wave)[:, None]

    return colour


def ground_iron(at: Array) -> Array:
    """A machine's table: milled, with fine lines and stains."""
    line = noise(at * np.array([1 / 80, 1 / 0.6, 1.0]), 21)
    stain = noise(at / 70, 22)
    shade = 0.42 + 0.07 * line + 0.07 * (stain - 0.5)
    result: Array = np.array([0.98, 1.0, 1.02]) * shade[:, None]
    return result
