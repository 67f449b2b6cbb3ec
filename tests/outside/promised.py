"""What the promise to other programs says of ``size``, put as a stranger's arithmetic.

A stranger has the table of forms and nothing else: gives the inputs it names, reads
one document, and works every size out anew from the words beside it.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

from app.core.length import Unit
from app.core.shop import Shop
from app.services.sizing import size_document

Document = dict[str, Any]
METRIC = replace(Shop(), unit=Unit.MILLIMETRE)
NM_PER_MM = 1_000_000
KERF = 3.175  # mm, 1/8 in: the one input that the table leaves to the shop
# A length is a whole number of nanometres: half of one is all that rounding may take.
HALF = 0.5 + 1e-3
DEGREES = 1e-9


def document(form: str, **typed: object) -> Document:
    """What the command prints where bare numbers are millimetres."""
    return _document(form, tuple((key, str(value)) for key, value in typed.items()))


@cache
def _document(form: str, typed: tuple[tuple[str, str], ...]) -> Document:
    return size_document(form, dict(typed), METRIC)


def sizes(found: Document) -> dict[str, Any]:
    """Lengths in mm, angles in degrees, everything else as it stands."""
    return {size["key"]: value(size) for size in found["sizes"]}


def value(size: dict[str, Any]) -> Any:
    if "nm" in size:
        return size["nm"] / NM_PER_MM
    return size["degrees"] if "degrees" in size else size["value"]


def hold(found: Document, **promised: float) -> None:
    """Every promised size is there, in its kind, to the nanometre or 1e-9 degrees.

    ``promised`` is in mm, in degrees or a count.
    """
    by_key = {size["key"]: size for size in found["sizes"]}
    for key, wanted in promised.items():
        size = by_key[key]
        told = f"{found['form']}, {key}: {size}, not {wanted}, of {found['inputs']}"
        if size["kind"] == "count":
            assert size["value"] == wanted, told
        elif size["kind"] == "angle":
            assert abs(size["degrees"] - wanted) <= DEGREES, told
        else:
            assert size["kind"] == "length", told
            assert type(size["nm"]) is int, told
            assert abs(size["nm"] - wanted * NM_PER_MM) <= HALF, told
