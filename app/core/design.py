"""A design: one form with its inputs, worked out."""

from __future__ import annotations

from dataclasses import dataclass

from app.core.drawing import Drawing
from app.core.part import GlueUp, Part
from app.core.setup import SetUp
from app.core.size import Size
from app.core.step import Step


@dataclass(frozen=True, slots=True)
class Design:
    """Everything a form works out from its inputs.

    ``inputs`` holds each input as understood, defaults included, as text that
    would be typed. What goes to the saw is the strips of ``glue_ups`` and the
    parts that come from none.
    """

    form: str
    title: str
    inputs: dict[str, str]
    sizes: tuple[Size, ...]
    parts: tuple[Part, ...]
    glue_ups: tuple[GlueUp, ...] = ()
    set_ups: tuple[SetUp, ...] = ()
    steps: tuple[Step, ...] = ()
    drawings: tuple[Drawing, ...] = ()
    warnings: tuple[str, ...] = ()
