"""A design: one form with its inputs, worked out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property

from app.core.drawing import Drawing
from app.core.length import Length
from app.core.part import GlueUp, Part
from app.core.setup import SetUp
from app.core.size import Size
from app.core.solid import Piece
from app.core.step import Step
from app.core.table import Table


@dataclass(frozen=True, slots=True)
class Joint:
    """Equal glue lines: ``area`` of all of them together, whole nm².

    ``end_grain`` where the fibres of both pieces run into the glue.
    """

    name: str
    area: int
    end_grain: bool = False


@dataclass(frozen=True, slots=True)
class Moving:
    """A size across the grain, which the air changes.

    ``across`` is ``width`` or ``thickness`` of the wood. ``room`` is what it may
    grow before it pushes against what holds it, both sides together; None where
    nothing holds it. ``input`` names what gives more room. ``woods`` is the share of
    each species where several lie side by side across it; empty where ``species``
    names the only one.
    """

    key: str
    label: str
    species: str
    size: Length
    across: str = "width"
    room: Length | None = None
    input: str = ""
    woods: tuple[tuple[str, Fraction], ...] = ()


@dataclass(frozen=True)
class Design:
    """Everything a form works out from its inputs.

    ``inputs`` holds each input as understood, defaults included, as text that
    would be typed. What goes to the saw is the strips of ``glue_ups`` and the
    parts that come from none. ``finish_area`` is all that a finish covers, nm².
    ``turned`` is the wood left, nm³, where the glued parts are a blank for the lathe.
    ``draw`` and ``build`` are called when somebody first looks at ``drawings`` or
    ``assembly``: most who ask for a size never do.
    """

    form: str
    title: str
    inputs: dict[str, str]
    sizes: tuple[Size, ...]
    parts: tuple[Part, ...]
    glue_ups: tuple[GlueUp, ...] = ()
    set_ups: tuple[SetUp, ...] = ()
    steps: tuple[Step, ...] = ()
    warnings: tuple[str, ...] = ()
    tables: tuple[Table, ...] = ()
    joints: tuple[Joint, ...] = ()
    moving: tuple[Moving, ...] = ()
    finish_area: int = 0
    turned: int | None = None
    draw: Callable[[], tuple[Drawing, ...]] = field(
        default=tuple, compare=False, repr=False
    )
    build: Callable[[], tuple[Piece, ...]] = field(
        default=tuple, compare=False, repr=False
    )

    @cached_property
    def drawings(self) -> tuple[Drawing, ...]:
        """What it looks like and how it is made."""
        return self.draw()

    @cached_property
    def assembly(self) -> tuple[Piece, ...]:
        """Every finished piece where it stands in the build."""
        return self.build()
