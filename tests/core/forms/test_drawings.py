"""Laws that every form's drawings keep, on its grid of inputs."""

from __future__ import annotations

import pytest

from app.core.drawing import TRUE_HIGH_MM, TRUE_WIDE_MM
from app.core.length import Display, Unit
from app.core.shop import Shop
from app.core.template import MOST_PAGES, pages
from tests.core.forms.grids import forms, grid, made
from tests.drawings import crowded

every_form = pytest.mark.parametrize("form", forms())
SHOPS = {
    "inches": Shop(),
    "both": Shop(display=Display(both=True)),
    "metric": Shop(display=Display(Unit.MILLIMETRE)),
}
EVERY = 23


@every_form
@pytest.mark.parametrize("shop", SHOPS.values(), ids=SHOPS)
def test_every_text_can_be_read(form: str, shop: Shop) -> None:
    for typed in grid(form)[::EVERY]:
        for drawing in made(form, typed, shop).drawings:
            assert not crowded(drawing), f"{form}: {typed}"


@every_form
def test_a_drawing_says_in_words_what_it_shows(form: str) -> None:
    for typed in grid(form)[::EVERY]:
        drawings = made(form, typed).drawings
        keys = [drawing.key for drawing in drawings]
        assert len(keys) == len(set(keys)), f"{form}: {keys}"
        for drawing in drawings:
            assert drawing.title, f"{form} {drawing.key}: {typed}"
            assert len(drawing.description.split()) > 3, f"{form} {drawing.key}"


@every_form
def test_what_is_at_full_size_fits_the_paper(form: str) -> None:
    for typed in grid(form)[::EVERY]:
        for drawing in made(form, typed).drawings:
            if drawing.true_size:
                count = len(pages(drawing.width, drawing.height))
                assert count <= MOST_PAGES, f"{form}: {typed}"
                if count == 1:
                    assert drawing.width.millimetres <= TRUE_WIDE_MM
                    assert drawing.height.millimetres <= TRUE_HIGH_MM
