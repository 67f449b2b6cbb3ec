"""The strokes of a PDF page in millimetres, read by a general PDF library."""

from __future__ import annotations

import io

from pypdf import PageObject, PdfReader
from pypdf.generic import ContentStream, DictionaryObject

Matrix = tuple[float, ...]
Stroke = tuple[float, float, float, float]
PLAIN: Matrix = (1, 0, 0, 1, 0, 0)
MM_PER_POINT = 25.4 / 72  # ISO 32000-1, 8.3.2.3: a point is 1/72 inch


def strokes(page: PageObject) -> list[Stroke]:
    """Every straight stroke from its start to its end, from the page's lower left."""
    found: list[Stroke] = []
    content = page.get_contents()
    assert content is not None
    _walk(content, page["/Resources"], page.pdf, PLAIN, found)
    return found


def _walk(content, resources, pdf, base: Matrix, found: list[Stroke]) -> None:  # type: ignore[no-untyped-def]
    matrix, kept = base, []
    at = first = (0.0, 0.0)
    for operands, operator in ContentStream(content, pdf).operations:
        if operator == b"q":
            kept.append(matrix)
        elif operator == b"Q":
            matrix = kept.pop()
        elif operator == b"cm":
            matrix = _times(tuple(map(float, operands)), matrix)
        elif operator == b"m":
            at = first = _put(operands, matrix)
        elif operator in (b"l", b"h"):
            end = _put(operands, matrix) if operands else first
            found.append((*at, *end))
            at = end
        elif operator == b"Do":
            form = resources["/XObject"][operands[0]].get_object()
            if form["/Subtype"] == "/Form":
                own = tuple(map(float, form.get("/Matrix", PLAIN)))
                inner = form.get("/Resources", DictionaryObject())
                _walk(form, inner, pdf, _times(own, matrix), found)


def _times(a: Matrix, b: Matrix) -> Matrix:
    return (
        a[0] * b[0] + a[1] * b[2],
        a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2],
        a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4],
        a[4] * b[1] + a[5] * b[3] + b[5],
    )


def _put(operands, m: Matrix) -> tuple[float, float]:  # type: ignore[no-untyped-def]
    x, y = map(float, operands)
    px, py = m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]
    return px * MM_PER_POINT, py * MM_PER_POINT


def pages(content: bytes) -> list[PageObject]:
    return list(PdfReader(io.BytesIO(content)).pages)
