"""Templates are offered beside their drawing and print true."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import replace
from xml.etree import ElementTree

import pytest
from flask.testing import FlaskClient
from pypdf import PdfReader

from app.core import registry
from app.core.template import template
from app.store.schema import Episode, Series
from app.store.workspace import Workspace

PAGE = "/series/porch/1/design"
# A size that no other test asks for: what is worked out is remembered.
INPUTS = {"form": "straight_vessel", "version": "0", "outside_side": "4.0625"}


@pytest.fixture(autouse=True)
def design(
    workspace: Workspace, client: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> Iterator[None]:
    """A kept vessel of a form that draws a template of 100 mm by 50 mm."""
    form = registry.form("straight_vessel")
    plain = form.design
    block = [(0.0, 0.0), (1e8, 0.0), (1e8, 5e7), (0.0, 5e7)]
    drawn = template("pattern", "The pattern", "A pattern.", [block])
    assert drawn is not None
    monkeypatch.setattr(
        form,
        "design",
        lambda inputs, shop: replace(plain(inputs, shop), draw=lambda: (drawn,)),
    )
    registry._work_out.cache_clear()
    with workspace.write() as work:
        series = Series(slug="porch", title="Porch pieces")
        work.add(series)
        work.flush()
        work.add(
            Episode(series_id=series.id, number=1, slug="planter", title="A planter")
        )
    assert client.post(PAGE, data=INPUTS).status_code == 303
    yield
    registry._work_out.cache_clear()


def test_a_kept_design_links_to_its_template(client: FlaskClient) -> None:
    assert f'href="{PAGE}/pattern.pdf"' in client.get("/series/porch/1").text


def test_a_design_that_is_only_tried_says_when_it_will_print(
    client: FlaskClient,
) -> None:
    text = client.post(f"{PAGE}/try", data=INPUTS).text
    assert "To print at full size, once the design is saved" in text
    assert "pattern.pdf" not in text


def test_the_pdf_names_the_build_and_says_to_measure(client: FlaskClient) -> None:
    answer = client.get(f"{PAGE}/pattern.pdf")
    assert answer.status_code == 200
    assert answer.mimetype == "application/pdf"
    assert 'filename="planter-pattern.pdf"' in answer.headers["Content-Disposition"]
    (page,) = PdfReader(io.BytesIO(answer.data)).pages
    text = page.extract_text()
    for words in ("Porch pieces, part 1: A planter", "100 mm", "4 in", "measure both"):
        assert words in text


def test_the_drawing_alone_has_its_size_in_real_millimetres(
    client: FlaskClient,
) -> None:
    answer = client.get(f"{PAGE}/pattern.svg")
    assert answer.mimetype == "image/svg+xml"
    root = ElementTree.fromstring(answer.text)
    _, _, wide, high = root.get("viewBox", "").split()
    assert (root.get("width"), root.get("height")) == (f"{wide}mm", f"{high}mm")
    (outline,) = root.findall("{http://www.w3.org/2000/svg}polygon")
    xs = [float(pair.split(",")[0]) for pair in outline.get("points", "").split()]
    assert max(xs) - min(xs) == pytest.approx(100)


@pytest.mark.parametrize("name", ["isometric.pdf", "nothing.pdf", "nothing.svg"])
def test_what_is_no_template_is_not_found(client: FlaskClient, name: str) -> None:
    answer = client.get(f"{PAGE}/{name}")
    assert answer.status_code == 404
    assert "no template" in answer.text
