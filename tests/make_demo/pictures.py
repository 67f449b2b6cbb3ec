"""Every photo of the demo by its name, rendered from the build it shows."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from tests.make_demo import shots
from tests.make_demo.prints import photo
from tests.make_demo.scene import Camera, Scene

ONE = ("cherry", "cherry", "maple", "cherry")
TWO = ("walnut", "maple", "cherry")
INCH = 25.4
Shot = Callable[[], tuple[Scene, Camera]]


def _holder() -> tuple[Scene, Camera]:
    solids = shots.vessel(6, 4.5 * INCH, 6.5 * INCH, 0.5 * INCH, ONE, 31)
    return shots.finished(
        solids + shots.turners(5, 17, 6.5 * INCH), 230, 51, 0.62, 1.55
    )


def _cover() -> tuple[Scene, Camera]:
    solids = shots.vessel(8, 6.25 * INCH, 5.25 * INCH, 0.5 * INCH, TWO, 131, base=False)
    return shots.finished(solids, 215, 52, 0.28, 2.0)


def _cellar() -> tuple[Scene, Camera]:
    solids = shots.vessel(5, 3 * INCH, 2.5 * INCH, 0.375 * INCH, ["maple"], 231)
    return shots.finished(solids, 105, 53, 0.25, 2.1)


def _shelf() -> tuple[Scene, Camera]:
    size = (14.5 * INCH, 10 * INCH, 3.5 * INCH, 0.5 * INCH)
    solids = shots.shelf(*size, ("cherry", "walnut", "maple"), 61)
    return shots.finished(solids, 390, 61, 0.27, 2.5)


SHOTS: dict[str, Shot] = {
    "boards-1": lambda: shots.boards(
        [("cherry", (860, 152, 21)), ("maple", (640, 127, 21))], 11
    ),
    "clamps-1": lambda: shots.clamped(ONE, (480, 44, 14), 21),
    "tape-1": lambda: shots.taped(6, 66, 6.5 * INCH, 0.5 * INCH, ONE, 31),
    "saw-1": lambda: shots.base_on_saw(6, 3.9 * INCH, 9.5, "cherry", 41),
    "done-1": _holder,
    "offcuts-1": lambda: shots.offcuts(
        [
            ("cherry", (260, 60, 21)),
            ("maple", (220, 50, 21)),
            ("cherry", (230, 45, 21)),
            ("cherry", (210, 38, 21)),
            ("maple", (205, 50, 21)),
        ],
        81,
    ),
    "boards-2": lambda: shots.boards(
        [
            ("walnut", (900, 152, 21)),
            ("maple", (820, 127, 21)),
            ("cherry", (636, 146, 21)),
        ],
        12,
    ),
    "clamps-2": lambda: shots.clamped(TWO, (560, 46, 14), 22),
    "tape-2": lambda: shots.taped(8, 65.8, 5.25 * INCH, 0.5 * INCH, TWO, 131),
    "done-2": _cover,
    "boards-3": lambda: shots.boards(
        [
            ("cherry", (620, 95, 21)),
            ("walnut", (760, 90, 21)),
            ("maple", (700, 48, 21)),
        ],
        13,
    ),
    "done-3": _shelf,
    "offcuts-3": lambda: shots.offcuts(
        [
            ("walnut", (240, 60, 21)),
            ("cherry", (215, 50, 21)),
            ("maple", (250, 42, 21)),
            ("cherry", (205, 60, 21)),
            ("walnut", (225, 32, 21)),
            ("walnut", (210, 45, 21)),
        ],
        82,
    ),
    "tape-4": lambda: shots.taped(5, 55.4, 2.5 * INCH, 0.375 * INCH, ["maple"], 231),
    "done-4": _cellar,
}


def picture(name: str, taken: datetime) -> bytes:
    """The photo of this name as a JPEG file with the camera's clock."""
    return photo(*SHOTS[name](), taken)
