"""The picture of a build: its lines, tones, words, and its woods named."""

from __future__ import annotations

import math

import pytest

from app.core import registry
from app.core.drawing import Drawing, Pen, Shape
from app.core.isometric import isometric
from app.core.length import Display, Unit
from app.core.shop import Shop
from app.core.solid import Piece, block, prism
from app.core.species_key import with_key
from app.core.wood import species_or_plain
from tests.drawings import crowded

MM = 1e6
BOTH = Shop(display=Display(both=True))


def board(*woods: str) -> Piece:
    """Strips 20 mm wide edge to edge, 100 mm long, 10 mm thick."""
    cells = [
        block((0, i * 20 * MM, 0), (100 * MM, (i + 1) * 20 * MM, 10 * MM), wood)
        for i, wood in enumerate(woods)
    ]
    return Piece("board", tuple(cells))


def pens(drawing: Drawing) -> list[Pen | None]:
    return [pen for shape in drawing.shapes for pen in shape.edges]


def tops(drawing: Drawing) -> list[Shape]:
    lightest = min(shape.tone for shape in drawing.shapes)
    return [shape for shape in drawing.shapes if shape.tone == lightest]


def test_strips_of_one_wood_show_no_line_between_them() -> None:
    drawing = isometric([board("cherry", "cherry")], Shop())
    # Seen are two tops, two right ends and one front; four edges of theirs meet.
    assert len(drawing.shapes) == 5
    assert pens(drawing).count(None) == 4
    assert Pen.GRAIN not in pens(drawing)


def test_strips_of_two_woods_meet_at_a_thin_line() -> None:
    drawing = isometric([board("cherry", "walnut")], Shop())
    assert pens(drawing).count(Pen.GRAIN) == 4
    assert None not in pens(drawing)


def test_two_pieces_meet_at_an_outline_whatever_their_wood() -> None:
    one = board("cherry")
    drawing = isometric([one, one.moved(y=20 * MM)], Shop())
    assert set(pens(drawing)) == {Pen.OUTLINE}


def test_an_edge_is_drawn_as_far_as_nothing_goes_on_beyond_it() -> None:
    short = block((0, 20 * MM, 0), (60 * MM, 40 * MM, 10 * MM), "cherry")
    piece = Piece("step", (*board("cherry").cells, short))
    top = next(s for s in tops(isometric([piece], Shop())) if len(s.points) == 5)
    assert sorted(map(str, top.edges)) == ["None", *["outline"] * 4]


def test_where_two_faces_go_on_in_each_other_no_third_draws_its_edge() -> None:
    """The right face of the deep cell ends where the front runs on over both."""
    deep = block((0, 0, 0), (10 * MM, 20 * MM, 10 * MM), "cherry")
    flat = block((10 * MM, 0, 0), (20 * MM, 10 * MM, 10 * MM), "cherry")
    drawing = isometric([Piece("step", (deep, flat))], Shop())
    upright = [pen for shape in drawing.shapes for pen in upright_edges(shape)]
    # The two ends of the front, the right end, the step and its inner corner: the
    # front's middle has none, though three faces meet in it.
    assert upright.count(None) == 3


def upright_edges(shape: Shape) -> list[Pen | None]:
    ends = zip(shape.points, (*shape.points[1:], shape.points[0]), strict=True)
    edges = zip(shape.edges, ends, strict=True)
    return [pen for pen, (a, b) in edges if abs(a.x - b.x) < 10]


def test_a_curve_cut_into_flats_shows_no_edges_on_its_side() -> None:
    turns = [2 * math.pi * i / 48 for i in range(48)]
    ring = [(50 * MM * math.cos(a), 50 * MM * math.sin(a)) for a in turns]
    drawing = isometric([Piece("disc", (prism(ring, 0, 20 * MM, "ash"),))], Shop())
    sides = [shape for shape in drawing.shapes if len(shape.points) == 4]
    upright = [pen for side in sides for pen in upright_edges(side)]
    # Only the two that bound what is seen of the side are lines.
    assert upright.count(Pen.OUTLINE) == 2
    assert upright.count(None) == len(upright) - 2


def test_what_faces_up_is_lightest_and_what_faces_right_is_darkest() -> None:
    cube = Piece("cube", (block((0, 0, 0), (MM, MM, MM), "ash"),))
    tones = {shape.tone for shape in isometric([cube], Shop()).shapes}
    assert len(tones) == 3
    (top,) = tops(isometric([cube], Shop()))
    assert min(p.y for p in top.points) == min(
        p.y for s in isometric([cube], Shop()).shapes for p in s.points
    )


def test_moved_apart_no_piece_touches_its_neighbour() -> None:
    one = board("cherry")
    pair = [one, one.moved(y=20 * MM)]
    whole, apart = isometric(pair, Shop()), isometric(pair, Shop(), apart=0.5)
    assert len(apart.shapes) == len(whole.shapes) + 1  # the front of the one behind
    assert "moved apart" in apart.description


@pytest.mark.parametrize("shop", [Shop(), BOTH], ids=["one", "both"])
def test_the_whole_size_is_said_and_nothing_is_crowded(shop: Shop) -> None:
    drawing = isometric([board("cherry", "walnut", "ash", "sugar maple")], shop)
    assert "3 15/16 × 3 5/32 × 13/32 in:" in drawing.labels[0].text
    assert not crowded(with_key(drawing))


def test_both_systems_stand_on_a_line_each() -> None:
    shop = Shop(Unit.MILLIMETRE, Display(Unit.MILLIMETRE, both=True))
    first, second = isometric([board("cherry")], shop).labels
    assert first.text == "100 × 20 × 10 mm: wide, deep, high"
    assert second.text == "(3 15/16 × 25/32 × 13/32 in)"


def test_a_drawing_of_several_woods_names_each_once() -> None:
    plain = isometric([board("maple", "walnut", "sugar maple")], Shop())
    keyed = with_key(plain)
    names = [label.text for label in keyed.labels[len(plain.labels) :]]
    assert names == ["Sugar maple", "Black walnut"]
    assert keyed.height > plain.height
    one = isometric([board("walnut")], Shop())
    assert with_key(one) is one


def test_many_woods_wrap_to_more_rows() -> None:
    woods = [f"wood from the yard {i}" for i in range(9)]
    assert {species_or_plain(wood).name for wood in woods} == set(woods)
    assert not crowded(with_key(isometric([board(*woods)], Shop())))


def test_every_form_that_builds_opens_on_its_picture() -> None:
    for key, module in registry.forms().items():
        design = registry.work_out(key, module.example(Unit.INCH), Shop())
        if design.assembly:
            assert design.drawings[0].key == "isometric", key
