"""The ring's segments, and the strips they are cut from; the bottom."""

from __future__ import annotations

from app.core import geometry
from app.core.design import Joint, Moving
from app.core.forms import _turned_bottom as under
from app.core.forms._ring import Ring, Stack, Strips
from app.core.geometry import Outline
from app.core.length import Length
from app.core.part import Dimensions, GlueUp, Part, Strip


def parts(stack: Stack) -> tuple[Part, ...]:
    """Segments by ring and species, then the bottom; spares beside their kind."""
    found = []
    for strips in stack.strips:
        found.append(_segment(stack, strips, strips.segments))
        if strips.spares:
            found.append(_segment(stack, strips, strips.spares, spare=True))
    if stack.bottom is not None:
        found.append(under.part(stack.bottom, stack.allowances))
    return tuple(found)


def glue_ups(stack: Stack) -> tuple[GlueUp, ...]:
    """Each strip that segments are cut from; the bottom's panel where it has strips.

    A strip of one board is kept like a panel: segments cut from it end for end take
    less wood than as many pieces of their full length.
    """
    found = [_strip(stack, strips) for strips in stack.strips]
    if stack.bottom is not None:
        found += under.glue_ups(stack.bottom, stack.allowances)
    return tuple(found)


def _segment(
    stack: Stack, strips: Strips, quantity: int, *, spare: bool = False
) -> Part:
    ring = strips.kind.first
    finished = Dimensions(ring.outer_edge, ring.width, ring.thickness)
    over = stack.allowances.of("segment")
    plain = f"segment, {strips.kind.name}, {strips.species}"
    return Part(
        key=f"{strips.part}-spare" if spare else strips.part,
        name=f"Spare {plain}" if spare else plain.capitalize(),
        quantity=quantity,
        species=strips.species,
        finished=finished,
        blank=Dimensions(
            finished.length, finished.width, finished.thickness + over.thickness
        ),
        glue_up=strips.key,
        outline=outline(ring),
        solid=ring.volume,
        spare=spare,
    )


def outline(ring: Ring) -> Outline:
    """A segment's face, the longer edge at the bottom."""
    none, long, wide = Length(0), ring.outer_edge, ring.width
    inset = (long - ring.inner_edge) / 2
    return ((none, wide), (long, wide), (inset + ring.inner_edge, none), (inset, none))


def _strip(stack: Stack, strips: Strips) -> GlueUp:
    ring, over = strips.kind.first, stack.allowances.of("segment")
    length = strips.length + over.length
    thickness = ring.thickness + over.thickness
    rough = Dimensions(length, ring.width + over.width, thickness)
    return GlueUp(
        strips.key,
        f"Strip for segments, {strips.kind.name}, {strips.species}",
        strips.quantity,
        (Strip(strips.species, 1, rough, ring.width),),
        Dimensions(length, ring.width, thickness),
    )


def joints(stack: Stack) -> tuple[Joint, ...]:
    """Glue between segments, between rings, and over the bottom."""
    slant = stack.joint_slant
    between = sum(
        ring.segments * slant * ring.width.nm * ring.thickness.nm
        for ring in stack.rings
    )
    found = [Joint("Between segments", round(between), end_grain=True)]
    pairs = list(zip(stack.rings, stack.rings[1:], strict=False))
    if pairs:
        area = sum(_shared(low, high) for low, high in pairs)
        found.append(Joint("Between rings", area))
    if stack.bottom is not None:
        area = round(stack.rings[0].face * stack.segments)
        found.append(Joint("Bottom to the lowest ring", area))
        found += under.joints(stack.bottom)
    return tuple(found)


def _shared(low: Ring, high: Ring) -> int:
    """What two rings share, were neither turned against the other, nm²."""
    count = low.segments
    outside, inside = min(low.outside, high.outside), max(low.inside, high.inside)
    flats = inside * geometry.cos(count)
    area = geometry.area_of_inscribed(outside, count)
    return max(round(area - geometry.area_of_inscribed(flats, count)), 0)


def moving(stack: Stack) -> tuple[Moving, ...]:
    """The segments' width is free; a solid bottom is held by the ring over it."""
    widest = max(stack.strips, key=lambda one: one.kind.first.width)
    found = [
        Moving(
            "segment_width",
            "Width of a segment",
            widest.species,
            widest.kind.first.width,
        )
    ]
    if stack.bottom is not None:
        found.append(under.moving(stack.bottom))
    return tuple(found)
