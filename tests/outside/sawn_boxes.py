"""A box's pieces, sawn from its instructions by a general solid-geometry library.

Sizes, set-ups and the parts' outlines are all that is read; nothing of the form's own
solids is.
"""

from __future__ import annotations

from functools import cached_property

import manifold3d
import numpy as np

from app.core.design import Design
from app.core.length import Length
from app.core.part import Part
from app.core.setup import SetUp

Solid = manifold3d.Manifold
# Millimetres, in which the library reckons.
MM = 1e6
FAR = 1e5


def block(low: tuple[float, ...], high: tuple[float, ...]) -> Solid:
    size = tuple(b - a for a, b in zip(low, high, strict=True))
    return Solid.cube(size).translate(low)


def upright(part: Part) -> Solid:
    """A part's face standing on its lower edge, outer face on y = 0."""
    points = [(x.nm / MM, y.nm / MM) for x, y in part.outline]
    thick = part.finished.thickness.nm / MM
    section = manifold3d.CrossSection([np.array(points)], manifold3d.FillRule.NonZero)
    return section.extrude(thick).rotate((90, 0, 0)).translate((0, thick, 0))


class Bench:
    """Reads one design's instructions and makes its pieces from them."""

    def __init__(self, typed: dict[str, str], design: Design) -> None:
        self.typed, self.design = typed, design
        self.parts = {part.key: part for part in design.parts if not part.spare}
        self.set_ups = {one.key: one for one in design.set_ups}
        self.inputs = design.inputs
        self.long, self.wide = self.asked("length"), self.asked("width")
        self.wall, self.deep = self.asked("wall"), self.asked("groove_depth")
        self.base = self.parts["base"]
        self.under = self.thick("base") if self.inputs["base"] == "under" else 0.0
        self.high = self.asked("height") - self.under

    def asked(self, key: str) -> float:
        return Length.read(self.inputs[key], input=key).nm / MM

    def size(self, key: str) -> float:
        value = next(one.value for one in self.design.sizes if one.key == key)
        assert isinstance(value, Length)
        return value.nm / MM

    def thick(self, key: str) -> float:
        return self.parts[key].finished.thickness.nm / MM

    @cached_property
    def count(self) -> int:
        value = next(
            one.value for one in self.design.sizes if one.key == "finger_count"
        )
        assert isinstance(value, int)
        return value

    def outer(self, number: int) -> float:
        return self.wide if number % 2 else self.long

    def part(self, number: int) -> Part:
        place = ("front", "right", "back", "left")[number]
        kind = "end" if number % 2 else "side"
        return self.parts.get(kind) or self.parts[f"{kind}_{place}"]

    def told(self, set_up: SetUp, number: int) -> bool:
        """Whether a set-up's sentence names this wall."""
        if number % 2 == 0:
            return "both sides" in set_up.cuts
        return "both ends" in set_up.cuts or (
            ("the strip for the lid" if number == 1 else "the far end") in set_up.cuts
            if set_up.key.startswith("lid")
            else "the far end" in set_up.cuts
        )

    def walls(self) -> list[Solid]:
        """The four walls in their places; the right end in two under a sliding lid."""
        found = []
        for number in range(4):
            if number == 1 and "lowered_end" in self.parts:
                low = self.parts["lowered_end"].finished.width.nm / MM
                strip = upright(self.parts["lid_strip"]).translate((0, 0, low))
                whole = [(upright(self.parts["lowered_end"]), True), (strip, False)]
            else:
                whole = [(upright(self.part(number)), True)]
            for piece, dado in whole:
                found.append(self.stood(self.sawn(piece, number, dado), number))
        return found

    def sawn(self, piece: Solid, number: int, dado: bool) -> Solid:
        key = "end" if number % 2 else "side"
        cut = self.size(f"{key}_length")
        piece = piece.translate(((self.outer(number) - cut) / 2, 0, 0))
        if self.inputs["joint"] == "mitre":
            piece = self.bevelled(piece, number)
        carries = self.inputs["rebate_on"].startswith(key)
        if self.inputs["joint"] == "rebate" and carries:
            piece = self.rebated(piece, number)
        for kind in ("base", "lid"):
            for name in (f"{kind}-groove", f"{kind}-groove-stopped"):
                if name in self.set_ups and self.told(self.set_ups[name], number):
                    piece -= self.groove(self.set_ups[name], number)
        if dado and f"dados-{key}s" in self.set_ups:
            for start in self.starts("across" if key == "side" else "along"):
                place = start + self.wall
                if number > 1:
                    place = self.outer(number) - place - self.divider
                cutter = block(
                    (place, self.wall - self.asked("dado_depth"), -1),
                    (place + self.divider, self.wall + 1, self.high + 1),
                )
                piece -= cutter
        return piece

    def bevelled(self, piece: Solid, number: int) -> Solid:
        name = "bevel-ends" if number % 2 else "bevel-sides"
        # A bevel too long for the saw is planed, and its angle stands in the sizes.
        tilt = self.set_ups[name].tilt
        turn = np.radians(45.0 if tilt is None else float(tilt.degrees))
        right = (-np.cos(turn), -np.sin(turn), 0.0)
        left = (np.cos(turn), -np.sin(turn), 0.0)
        far = -self.outer(number) * np.cos(turn)
        return piece.trim_by_plane(right, far).trim_by_plane(left, 0.0)

    def rebated(self, piece: Solid, number: int) -> Solid:
        wide, lip = self.size("rebate_width"), self.size("rebate_lip")
        for start in (-1.0, self.outer(number) - wide):
            piece -= block((start, lip, -1), (start + wide + (start < 0), FAR, FAR))
        return piece

    def groove(self, set_up: SetUp, number: int) -> Solid:
        lid = set_up.key.startswith("lid")
        assert set_up.fence is not None
        wide = self.thick("lid" if lid else "base")
        low = set_up.fence.nm / MM
        if "upper edge" in set_up.face_down:
            low = self.high - low - wide
        start, end = -1.0, self.outer(number) + 1
        if set_up.key.endswith("stopped"):
            stop = self.wall - self.deep
            start, end = stop, self.outer(number) - stop
            if lid and number == 0:
                end = self.outer(number) + 1
            if lid and number == 2:
                start = -1.0
        return block((start, self.wall - self.deep, low), (end, FAR, low + wide))

    def stood(self, piece: Solid, number: int) -> Solid:
        half, back = self.outer(number) / 2, self.outer(number + 1) / 2
        placed = piece.translate((-half, -back, self.under))
        return placed.rotate((0, 0, 90 * number))

    @property
    def divider(self) -> float:
        return self.asked("divider_thickness")

    def starts(self, way: str) -> list[float]:
        count = int(self.inputs[f"dividers_{way}"])
        if not count:
            return []
        room = self.size(f"compartment_{'length' if way == 'across' else 'width'}")
        return [room * (i + 1) + self.divider * i for i in range(count)]

    def plate(self, size: tuple[float, float], low: float, high: float) -> Solid:
        (x, y), rise = size, self.under
        return block((-x / 2, -y / 2, low + rise), (x / 2, y / 2, high + rise))

    def face(self, key: str) -> tuple[float, float]:
        done = self.parts[key].finished
        return done.length.nm / MM, done.width.nm / MM

    def bottom(self) -> Solid:
        low = {"groove": self.asked("groove_up"), "rebate": 0.0}.get(
            self.inputs["base"], -self.under
        )
        return self.plate(self.face("base"), low, low + self.thick("base"))

    def lid(self) -> list[Solid]:
        kind, top = self.inputs["lid"], self.high
        if kind == "none":
            return []
        thick = self.thick("lid")
        if kind == "sliding":
            high = top - self.asked("lid_down")
            return [self.plate(self.face("lid"), high - thick, high)]
        lip = self.asked("lid_lip")
        if kind == "battened":
            across, wide = self.face("batten")
            one = block((0, 0, 0), (wide, across, lip))
            reach = self.size("lid_inner_length") / 4
            battens = [
                one.translate(
                    (
                        sign * reach - wide / 2,
                        -across / 2,
                        top - lip + self.under,
                    )
                )
                for sign in (-1, 1)
            ]
            return [self.plate(self.face("lid"), top, top + thick), *battens]
        long, wide = self.face("lid")
        rebate = self.size("lid_rebate")
        plug = self.plate((long - 2 * rebate, wide - 2 * rebate), top - lip, top)
        return [plug + self.plate((long, wide), top, top + thick - lip)]

    def dividers(self) -> list[Solid]:
        found = []
        bottom = 0.0
        if self.inputs["base"] != "under":
            up = self.asked("groove_up") if self.inputs["base"] == "groove" else 0.0
            bottom = up + self.thick("base")
        left, front = self.wall - self.long / 2, self.wall - self.wide / 2
        for way in ("across", "along"):
            for start in self.starts(way):
                piece = upright(self.parts[f"divider_{way}"])
                half = self.face(f"divider_{way}")[0] / 2
                piece = piece.translate((-half, 0, bottom + self.under))
                if way == "across":
                    # Turned to run back; its face looks right.
                    piece = piece.rotate((0, 0, 90)).translate((self.divider, 0, 0))
                    found.append(piece.translate((left + start, 0, 0)))
                else:
                    found.append(piece.translate((0, front + start, 0)))
        return found
