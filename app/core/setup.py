"""One machine setting and the cuts made at it."""

from __future__ import annotations

from dataclasses import dataclass

from app.core.angle import Angle
from app.core.length import Length


@dataclass(frozen=True, slots=True)
class SetUp:
    """A machine setting, read off the machine.

    ``tilt`` is from a vertical blade, ``gauge`` from a square crosscut.
    ``fence`` and ``stop`` are to the blade's near face at table height with
    ``face_down`` on the table. ``check`` is the measurement that proves it;
    ``cautions`` are keys of the safety data.
    """

    key: str
    machine: str
    cuts: str
    tilt: Angle | None = None
    gauge: Angle | None = None
    fence: Length | None = None
    stop: Length | None = None
    face_down: str = ""
    check: str = ""
    cautions: tuple[str, ...] = ()
