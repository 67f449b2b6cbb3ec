"""The staves, the bottom, their glue lines and what moves."""

from __future__ import annotations

from app.core import geometry
from app.core.design import Joint, Moving
from app.core.forms import _turned_bottom as under
from app.core.forms._stave import Cylinder
from app.core.forms._turned import trapezoid
from app.core.part import Dimensions, GlueUp, Part
from app.core.pattern import letter
from app.core.solid import Piece, prism


def part_key(made: Cylinder, wood: str) -> str:
    """``stave``, or ``stave_a``, ``stave_b`` … where there are several species."""
    if len(made.kinds) == 1:
        return "stave"
    return f"stave_{letter(list(made.kinds).index(wood)).lower()}"


def parts(made: Cylinder) -> tuple[Part, ...]:
    """Staves by species with their spares, then the bottom."""
    found = []
    for wood, count in made.kinds.items():
        found.append(_stave(made, wood, count))
        if made.spares and wood == made.woods[0]:
            found.append(_stave(made, wood, made.spares, spare=True))
    if made.bottom is not None:
        found.append(under.part(made.bottom, made.allowances))
    return tuple(found)


def glue_ups(made: Cylinder) -> tuple[GlueUp, ...]:
    """The bottom's panel, where it has strips."""
    if made.bottom is None:
        return ()
    return tuple(under.glue_ups(made.bottom, made.allowances))


def _stave(made: Cylinder, wood: str, quantity: int, *, spare: bool = False) -> Part:
    finished = Dimensions(made.height, made.width, made.thickness)
    plain = "stave" if len(made.kinds) == 1 else f"stave, {wood}"
    key = part_key(made, wood)
    return Part(
        key=f"{key}-spare" if spare else key,
        name=f"Spare {plain}" if spare else plain.capitalize(),
        quantity=quantity,
        species=wood,
        finished=finished,
        blank=made.allowances.of("stave").on(finished),
        outline=geometry.rectangle(finished.length, finished.width),
        solid=made.volume,
        spare=spare,
    )


def joints(made: Cylinder) -> tuple[Joint, ...]:
    """Long grain between the staves; their ends over the bottom."""
    slant = made.thickness.nm / geometry.cos(made.staves)
    found = [Joint("Between staves", round(made.staves * slant * made.height.nm))]
    if made.bottom is not None:
        area = round(made.face * made.staves)
        found.append(Joint("Bottom to the staves", area, end_grain=True))
        found += under.joints(made.bottom)
    return tuple(found)


def moving(made: Cylinder) -> tuple[Moving, ...]:
    """Round the cylinder the staves' width is free; the bottom is held."""
    found = [
        Moving("stave_width", "Width of a stave", made.woods[0], made.width),
        Moving(
            "stave_thickness",
            "Thickness of a stave",
            made.woods[0],
            made.thickness,
            across="thickness",
        ),
    ]
    if made.bottom is not None:
        found.append(under.moving(made.bottom))
    return tuple(found)


def assembly(made: Cylinder) -> tuple[Piece, ...]:
    """The glued blank, not yet turned."""
    found = [] if made.bottom is None else [under.piece(made.bottom)]
    low, high = made.floor.nm, made.profile.height.nm
    for i, wood in enumerate(made.woods):
        points = outline(made, i)
        cell = prism(points, low, high, wood)
        found.append(Piece(part_key(made, wood), (cell,), f"Stave {i + 1}"))
    return tuple(found)


def outline(made: Cylinder, place: int) -> tuple[tuple[float, float], ...]:
    """A stave's end from above, y to the back, nm; places from 0."""
    turn = 360 / made.staves * place
    sizes = made.width, made.inner_width, made.thickness, made.outside
    return trapezoid(*sizes, turn)
