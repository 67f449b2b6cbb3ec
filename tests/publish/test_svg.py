"""The pen: every drawing of every form as SVG that a page may show."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from app.core import registry
from app.core.drawing import Drawing, Label, Measure, Pen, Point, Shape, text_width
from app.core.length import Display, Length
from app.core.shop import Shop
from app.core.wood import species_or_plain
from app.publish.svg import svg

SPACE = "{http://www.w3.org/2000/svg}"
PAGE = Length(120_000_000)


def drawings() -> list[Drawing]:
    """In one system and in both, where texts are longest."""
    both = Shop(display=Display(both=True))
    return [*drawings_of(Shop()), *drawings_of(both)]


def drawings_of(shop: Shop) -> list[Drawing]:
    found: list[Drawing] = []
    for sides in (3, 4, 5, 6, 9, 16):
        for base in ("groove", "under"):
            typed = {"sides": str(sides), "outside_side": "5", "base": base}
            typed["splines_per_corner"] = "1"
            found += registry.work_out("straight_vessel", typed, shop).drawings
    example = registry.form("parts_list").example(shop.unit)
    return [*found, *registry.work_out("parts_list", example, shop).drawings]


def read(text: str) -> ElementTree.Element:
    return ElementTree.fromstring(text)


def page(**things: object) -> Drawing:
    return Drawing("one", "One <b>", "A & B", PAGE, PAGE, **things)  # type: ignore[arg-type]


def at(x: float, y: float) -> Point:
    return Point(round(x * 1e6), round(y * 1e6))


def test_every_drawing_is_well_formed_named_and_without_style() -> None:
    for drawing in drawings():
        text = svg(drawing, standalone=True)
        root = read(text)
        assert root.get("role") == "img"
        names = root.get("aria-labelledby", "").split()
        title, words = root.find(f"{SPACE}title"), root.find(f"{SPACE}desc")
        assert title is not None
        assert words is not None
        assert [title.get("id"), words.get("id")] == names
        assert words.text
        assert "style=" not in text
        assert "nan" not in text
        ids = re.findall(r' id="([^"]+)"', text)
        assert len(ids) == len(set(ids))


def test_ids_of_different_drawings_never_meet() -> None:
    ids: list[str] = []
    for drawing in {repr(drawing): drawing for drawing in drawings()}.values():
        ids += re.findall(r' id="([^"]+)"', svg(drawing))
    assert len(ids) == len(set(ids))


def test_the_same_drawing_gives_the_same_bytes() -> None:
    drawing = drawings()[0]
    assert svg(drawing) == svg(drawing)
    assert svg(drawing, ids="a") != svg(drawing, ids="b")


def test_everything_drawn_lies_on_the_page() -> None:
    for drawing in drawings():
        root = read(svg(drawing, standalone=True))
        _, _, wide, high = map(float, root.get("viewBox", "").split())
        for x, y in places(root):
            assert -0.01 <= x <= wide + 0.01, drawing.key
            assert -0.01 <= y <= high + 0.01, drawing.key


def places(root: ElementTree.Element) -> list[tuple[float, float]]:
    found = []
    for shape in (*root.findall(f"{SPACE}polygon"), *root.findall("polygon")):
        pairs = [pair.split(",") for pair in shape.get("points", "").split()]
        found += [(float(x), float(y)) for x, y in pairs]
    for path in root.findall(f"{SPACE}path"):
        numbers = re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", path.get("d", ""))
        found += [(float(x), float(y)) for x, y in numbers]
    for text in root.findall(f"{SPACE}text"):
        x, y = float(text.get("x", "")), float(text.get("y", ""))
        wide = text_width(text.text or "", float(text.get("font-size", "")))
        left = {"start": 0.0, "middle": wide / 2, "end": wide}[
            text.get("text-anchor", "")
        ]
        found += [(x - left, y), (x - left + wide, y)]
    return found


def test_no_two_texts_stand_on_each_other() -> None:
    for drawing in drawings():
        root = read(svg(drawing, standalone=True))
        boxes = [box(text) for text in root.findall(f"{SPACE}text")]
        for i, (left, top, right, bottom, words) in enumerate(boxes):
            for other in boxes[i + 1 :]:
                clear = (
                    right <= other[0]
                    or other[2] <= left
                    or bottom <= other[1]
                    or other[3] <= top
                )
                assert clear, (drawing.key, words, other[4])


def test_no_dimension_stands_on_what_it_measures() -> None:
    for drawing in drawings():
        if not drawing.measures:
            continue
        bare = replace(drawing, shapes=(), lines=(), labels=())
        # The key of its woods stands below them all.
        foot = max(max(m.start.y, m.end.y) for m in drawing.measures)
        built = tuple(s for s in drawing.shapes if min(p.y for p in s.points) <= foot)
        shapes = replace(drawing, shapes=built, measures=(), lines=(), labels=())
        drawn = places(read(svg(shapes)))
        right, foot = max(x for x, _ in drawn), max(y for _, y in drawn)
        left, head = min(x for x, _ in drawn), min(y for _, y in drawn)
        for text in read(svg(bare)).findall("text"):
            start, top, end, low, words = box(text)
            beside = end <= left or start >= right or top >= foot or low <= head
            assert beside, (drawing.key, words)


def box(text: ElementTree.Element) -> tuple[float, float, float, float, str]:
    size, words = float(text.get("font-size", "")), text.text or ""
    x, y = float(text.get("x", "")), float(text.get("y", ""))
    wide = text_width(words, size)
    left = (
        x - {"start": 0.0, "middle": wide / 2, "end": wide}[text.get("text-anchor", "")]
    )
    return left, y - 0.72 * size, left + wide, y, words


def test_words_from_outside_cannot_become_elements() -> None:
    hostile = '<script>alert("1")</script>'
    shape = Shape((at(1, 1), at(9, 1), at(9, 9)), species=hostile, title=hostile)
    text = svg(
        page(shapes=(shape,), labels=(Label(at(5, 5), hostile),)), standalone=True
    )
    assert "<script" not in text
    assert read(text).find(f"{SPACE}desc") is not None


@pytest.mark.parametrize(
    ("pen", "weight", "dashed"),
    [(Pen.OUTLINE, "0.5", False), (Pen.HIDDEN, "0.25", True)],
)
def test_pens_have_their_weights(pen: Pen, weight: str, dashed: bool) -> None:
    """Weights in mm: this project's own drawing rules."""
    root = read(
        svg(page(shapes=(Shape((at(1, 1), at(9, 1), at(9, 9)), pen),)), standalone=True)
    )
    shape = root.find(f"{SPACE}polygon")
    assert shape is not None
    assert shape.get("stroke-width") == weight
    assert (shape.get("stroke-dasharray") is not None) == dashed


def test_a_dimension_leaves_its_line_open_for_its_text() -> None:
    measure = Measure(at(10, 50), at(110, 50), "3 15/16 in", Length(-8_000_000))
    root = read(svg(page(measures=(measure,)), standalone=True))
    text, path = root.find(f"{SPACE}text"), root.find(f"{SPACE}path")
    assert text is not None
    assert path is not None
    left, _, right, _, _ = box(text)
    flat = re.findall(r"M([\d.]+) ([\d.]+)L([\d.]+) \2(?!\d)", path.get("d", ""))
    spans = [(float(a), float(b)) for a, _, b in flat]
    assert len(spans) == 2
    assert all(end <= left or start >= right for start, end in spans)


def test_scrap_is_crossed_out_and_woods_differ_in_hatch() -> None:
    corners = (at(1, 1), at(9, 1), at(9, 9))
    woods = ("walnut", "sugar maple")
    shapes = (Shape(corners, scrap=True), *(Shape(corners, species=w) for w in woods))
    text = svg(page(shapes=shapes))
    assert text.count("<pattern") == 3
    marks = {
        (species_or_plain(w).hatch_angle, species_or_plain(w).hatch_spacing)
        for w in woods
    }
    assert len(marks) == 2
