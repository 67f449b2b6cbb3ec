"""Every form's pieces where they stand, held against a general solid library.

The library builds each piece from its corners alone and adds the pieces up: no
piece may be more or less than its part says, none may reach into another by more
than a micrometre.
"""

from __future__ import annotations

from collections import Counter

import manifold3d
import numpy as np
import pytest

from app.core.design import Design
from app.core.solid import Cell, Piece
from tests.core.forms.grids import each, forms

every_form = pytest.mark.parametrize("form", forms())
# A micrometre, and the millimetre that the library reckons in, in nanometres.
THIN, MM = 1_000, 1e6
# Looking at one build takes some milliseconds; the grids hold hundreds.
EVERY = 2


def hull(cell: Cell) -> manifold3d.Manifold:
    return manifold3d.Manifold.hull_points(np.array(list(cell.points())) / MM)


def together(pieces: tuple[Piece, ...]) -> manifold3d.Manifold:
    solids = [hull(cell) for piece in pieces for cell in piece.cells]
    return manifold3d.Manifold.batch_boolean(solids, manifold3d.OpType.Add)


def surface(pieces: tuple[Piece, ...]) -> float:
    return sum(cell.area for piece in pieces for cell in piece.cells)


@every_form
def test_every_part_stands_in_the_build_as_often_as_it_is_made(form: str) -> None:
    for typed, design in each(form, EVERY):
        standing = Counter(piece.part for piece in design.assembly)
        made = {part.key: part.quantity for part in design.parts if not part.spare}
        assert standing == made, f"{form}: {typed}"


@every_form
def test_a_piece_is_as_much_wood_as_its_part_says(form: str) -> None:
    for typed, design in each(form, EVERY):
        parts = {part.key: part for part in design.parts}
        for piece in design.assembly:
            off = abs(piece.volume - parts[piece.part].volume)
            room = THIN * sum(cell.area for cell in piece.cells)
            assert off <= room, f"{form} {piece.part} is off by {off / room:g}: {typed}"


@every_form
def test_cells_are_closed_and_convex(form: str) -> None:
    for typed, design in each(form, EVERY * 3):
        for piece in design.assembly:
            for cell in piece.cells:
                room = THIN * cell.area / MM**3
                assert abs(hull(cell).volume() - cell.volume / MM**3) <= room, typed


@every_form
def test_no_piece_reaches_into_another(form: str) -> None:
    for typed, design in each(form, EVERY * 2):
        alone = sum(piece.volume for piece in design.assembly) / MM**3
        whole = together(design.assembly).volume()
        room = THIN * surface(design.assembly) / MM**3
        assert abs(alone - whole) <= room, f"{form} overlaps {alone - whole}: {typed}"


@every_form
def test_a_build_stands_on_the_bench(form: str) -> None:
    for typed, design in each(form, EVERY * 3):
        low = min(p[2] for piece in design.assembly for p in corners(piece))
        assert abs(low) <= THIN, f"{form}: {typed}"


def corners(piece: Piece) -> list[tuple[float, float, float]]:
    return [point for cell in piece.cells for point in cell.points()]


def test_a_piece_pushed_into_its_neighbour_is_found() -> None:
    design = first("straight_vessel")
    one, *rest = design.assembly
    pushed = (one.moved(0, 2 * THIN * 1000, 0), *rest)
    alone = sum(piece.volume for piece in pushed) / MM**3
    room = THIN * surface(pushed) / MM**3
    assert alone - together(pushed).volume() > room


def first(form: str) -> Design:
    return each(form)[0][1]
