"""Laminated boards built from their instructions by a solid-geometry library.

Nothing of the form's own solids is used: strips and panels are laid out as the
glue-ups say, sliced at the stop of the set-up, turned on end, stood side by side,
levelled, trimmed to the fence and the stop of the set-ups and grooved at the
router's distance. What comes out is held against a block less a frame, by plane
geometry, and against the parts.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass

import manifold3d
import pytest

from app.core import registry
from app.core.design import Design
from app.core.length import Length
from app.core.part import GlueUp
from app.core.shop import Shop
from tests.core.forms.grid_laminated_board import GRID

SHOP = Shop()
MM = 1e6
# A micrometre over a surface, in mm, and what halving an odd trim may shift.
SKIN = 1e-3


def box(long: float, wide: float, high: float) -> manifold3d.Manifold:
    return manifold3d.Manifold.cube((long, wide, high))


def size(design: Design, key: str) -> float:
    value = next(one.value for one in design.sizes if one.key == key)
    assert isinstance(value, Length)
    return value.nm / MM


def stop(design: Design, key: str) -> float:
    one = next(one for one in design.set_ups if one.key == key)
    place = one.stop if one.stop is not None else one.fence
    # A narrow rip is told in words, not set with the fence.
    if place is None:
        return Length.read(design.inputs["width"]).nm / MM
    return place.nm / MM


@dataclass
class Told:
    """What a maker reads off the plan, in mm."""

    design: Design

    def __post_init__(self) -> None:
        typed = self.design.inputs
        self.thick = Length.read(typed["thickness"]).nm / MM
        self.end = typed["grain"] == "end"
        self.long = stop(self.design, "trim-ends")
        self.wide = stop(self.design, "trim-width")
        self.faces = {"none": 0, "one face": 1, "both faces": 2}[typed["juice_groove"]]

    def strips(self, panel: GlueUp) -> list[tuple[str, float]]:
        return [
            (strip.species, strip.finished_width.nm / MM)
            for strip in panel.strips
            for _ in range(strip.quantity)
        ]

    def slices(self) -> list[tuple[GlueUp, bool]]:
        """Every slice in order with its panel, and whether it is turned."""
        panels = {one.key: one for one in self.design.glue_ups}
        table = next(one for one in self.design.tables if one.key == "panels")
        found: dict[int, tuple[GlueUp, bool]] = {}
        for letter, *_, sides in table.rows:
            own = f"first_panel_{letter.lower()}"
            panel = panels[own if own in panels else "first_panel"]
            for phrase in sides.split(";"):
                if "spare" not in phrase:
                    turned = "turned" in phrase
                    for number in re.findall(r"\d+", phrase):
                        found[int(number)] = panel, turned
        return [found[number] for number in sorted(found)]

    def finished(self) -> manifold3d.Manifold:
        """The room that levelling, trimming and the router leave, round the middle."""
        whole = box(self.long, self.wide, self.thick).translate(
            (-self.long / 2, -self.wide / 2, 0)
        )
        if not self.faces:
            return whole
        router = next(s for s in self.design.set_ups if s.key == "juice-groove")
        assert router.fence is not None
        near = router.fence.nm / MM
        wide = 2 * (size(self.design, "groove_middle") - near)
        deep = (self.thick - size(self.design, "wood_under_groove")) / self.faces
        frame = self.frame(near, deep) - self.frame(near + wide, deep)
        whole -= frame.translate((0, 0, self.thick - deep))
        return whole - frame if self.faces == 2 else whole

    def frame(self, inset: float, high: float) -> manifold3d.Manifold:
        long, wide = self.long - 2 * inset, self.wide - 2 * inset
        return box(long, wide, high).translate((-long / 2, -wide / 2, 0))

    def glued(self) -> list[tuple[GlueUp, str, manifold3d.Manifold]]:
        """Every strip of every slice where it comes to lie, before any trim."""
        if not self.end:
            (panel,) = self.design.glue_ups
            long = panel.panel.length.nm / MM
            return self._laid(panel, False, -long / 2, long)
        across = size(self.design, "first_panel_thickness")
        slices = self.slices()
        start = -across * len(slices) / 2
        return [
            piece
            for i, (panel, turned) in enumerate(slices)
            for piece in self._laid(panel, turned, start + across * i, across)
        ]

    def _laid(
        self, panel: GlueUp, turned: bool, left: float, long: float
    ) -> list[tuple[GlueUp, str, manifold3d.Manifold]]:
        strips = self.strips(panel)
        high = (
            stop(self.design, "slices") if self.end else panel.panel.thickness.nm / MM
        )
        front = -sum(width for _, width in strips) / 2
        found = []
        for name, width in strips[::-1] if turned else strips:
            # Levelling takes half from either face; strips stand a little proud.
            laid = box(long, width, high).translate(
                (left, front, -(high - self.thick) / 2)
            )
            found.append((panel, name, laid))
            front += width
        return found


@pytest.mark.parametrize("part", range(8))
def test_a_board_made_as_told_is_the_block_less_its_groove(part: int) -> None:
    for typed in GRID[part::8]:
        design = registry.work_out("laminated_board", typed, SHOP)
        told = Told(design)
        room, pieces = told.finished(), told.glued()
        slack = SKIN * room.surface_area()
        glued = manifold3d.Manifold.batch_boolean(
            [laid for *_, laid in pieces], manifold3d.OpType.Add
        )
        # Nothing overlaps as glued, and nothing is missing from what is left of it.
        alone = sum(laid.volume() for *_, laid in pieces)
        assert alone == pytest.approx(glued.volume(), abs=slack), typed
        board = glued ^ room
        assert board.volume() == pytest.approx(room.volume(), abs=slack), typed
        block = told.long * told.wide * told.thick - groove_volume(told)
        assert room.volume() == pytest.approx(block, abs=slack), typed
        for panel in design.glue_ups:
            found = wood(pieces, panel.key, room)
            assert found == pytest.approx(listed(design, panel.key), abs=slack), typed


def wood(
    pieces: list[tuple[GlueUp, str, manifold3d.Manifold]],
    glue_up: str,
    room: manifold3d.Manifold,
) -> dict[str, float]:
    """What is left of one panel's strips, by species, mm³."""
    found: dict[str, list[manifold3d.Manifold]] = {}
    for panel, name, laid in pieces:
        if panel.key == glue_up:
            found.setdefault(name, []).append(laid)
    add = manifold3d.OpType.Add
    return {
        name: (manifold3d.Manifold.batch_boolean(laid, add) ^ room).volume()
        for name, laid in found.items()
    }


def groove_volume(told: Told) -> float:
    """Four bars, the corners counted once."""
    if not told.faces:
        return 0.0
    typed = told.design.inputs
    wide, deep, inset = (
        Length.read(typed[key]).nm / MM
        for key in ("groove_width", "groove_depth", "groove_inset")
    )
    long, across = told.long - 2 * inset, told.wide - 2 * inset
    return told.faces * deep * wide * 2 * (long + across - 2 * wide)


def listed(design: Design, glue_up: str) -> dict[str, float]:
    """What the parts from one panel hold of each wood, mm³."""
    found: Counter[str] = Counter()
    for part in design.parts:
        if part.glue_up == glue_up and not part.spare:
            whole = part.volume * part.quantity / MM**3
            for name, share in part.woods or ((part.species, 1),):
                found[name] += whole * float(share)
    return dict(found)


def test_every_first_panel_holds_its_slices_with_a_kerf_between_them() -> None:
    for typed in GRID:
        design = registry.work_out("laminated_board", typed, SHOP)
        if typed.get("grain") != "end":
            continue
        kerf = Length.read(design.inputs["kerf"]).nm / MM
        thick = stop(design, "slices")
        for panel in design.glue_ups:
            from_it = sum(
                part.quantity for part in design.parts if part.glue_up == panel.key
            )
            each = -(-from_it // panel.quantity)
            needs = each * thick + (each - 1) * kerf
            assert panel.panel.length.nm / MM >= needs - 1e-6, typed
