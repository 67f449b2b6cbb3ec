"""Every photo of the demo by its name, rendered from the build it shows."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from tests.make_demo import shots
from tests.make_demo.prints import photo
from tests.make_demo.scene import Camera, Scene
from tests.make_demo.shots import Wood

ONE = ("cherry", "cherry", "maple", "cherry")
TWO = ("walnut", "maple", "cherry", "maple")
INCH = 25.4
Shot = Callable[[], tuple[Scene, Camera]]


def _holder() -> tuple[Scene, Camera]:
    solids = shots.vessel(6, 4.5 * INCH, 6.5 * INCH, 0.5 * INCH, ONE, 31)
    return shots.finished(
        solids + shots.turners(5, 17, 6.5 * INCH), 230, 51, 0.62, 1.55
    )


def _cover() -> tuple[Scene, Camera]:
    size = (8, 6.25 * INCH, 5.25 * INCH, 0.5 * INCH)
    solids = shots.vessel(*size, TWO, 131, base="", stepped=True)
    return shots.finished(solids, 215, 52, 0.28, 2.0)


def _cellar() -> tuple[Scene, Camera]:
    size = (5, 3 * INCH, 2.5 * INCH, 0.375 * INCH)
    solids = shots.vessel(*size, ["walnut"], 231, base="under", foot="maple")
    solids += shots.vessel_splines(*size, "maple", 0.375 * INCH, 241)
    return shots.finished(solids, 105, 53, 0.25, 2.1)


def _shelf() -> tuple[Scene, Camera]:
    size = (14.5 * INCH, 10 * INCH, 3.5 * INCH, 0.5 * INCH)
    solids = shots.shelf(*size, ("cherry", "walnut", "maple"), 61)
    return shots.finished(solids, 390, 61, 0.27, 2.5)


def _rails() -> tuple[Scene, Camera]:
    solids = shots.rails(17 * INCH, 12 * INCH, 0.625 * INCH, 1.5 * INCH, "cherry", 71)
    return shots.finished(solids, 440, 71, 0.0, 2.9)


SHOTS: dict[str, Shot] = {
    "clamps-1": lambda: shots.clamped(ONE, (425, 44, 14), 21),
    "tape-1": lambda: shots.taped(6, 66, 6.5 * INCH, 0.5 * INCH, ONE, 31),
    "saw-1": lambda: shots.base_on_saw(6, 3.9 * INCH, 9.5, "cherry", 41),
    "done-1": _holder,
    "clamps-2": lambda: shots.clamped(TWO, (285, 36, 14), 22),
    "tape-2": lambda: shots.taped(
        8, 65.8, 5.25 * INCH, 0.5 * INCH, TWO, 131, stepped=True
    ),
    "done-2": _cover,
    "done-3": _shelf,
    "tape-4": lambda: shots.taped(5, 55.4, 2.5 * INCH, 0.375 * INCH, ["walnut"], 231),
    "done-4": _cellar,
    "dry-5": _rails,
    "clamps-5": lambda: shots.clamped(("maple",) * 3, (437, 95, 8), 24),
}


def picture(name: str, taken: datetime, wood: Wood) -> bytes:
    """The photo of this name as a JPEG file with the camera's clock.

    ``wood`` lies in the photos of boards and of offcuts, at its own sizes.
    """
    kind, _, part = name.partition("-")
    if kind == "boards":
        return photo(*shots.boards(wood, 10 + int(part)), taken)
    if kind == "offcuts":
        return photo(*shots.offcuts(wood, 80 + int(part)), taken)
    return photo(*SHOTS[name](), taken)
