"""Work on wood in the shop: cut by hand, surfaced, glued up, built.

Each function takes pieces off the rack and says where every cubic nanometre
went. What the wood cost is carried, by volume, by what is kept of it.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from app.core.cutting.plan import Direction
from app.core.errors import WorkshopError
from app.core.length import Display, Length, show
from app.core.movement import (
    Made,
    Movement,
    MovementKind,
    PanelStrip,
    PartMade,
    Piece,
    PieceKind,
    Taken,
)
from app.core.part import Dimensions
from app.core.volume import share
from app.core.wood import species_or_plain

MOST_CUTS = 200
NM3_PER_CM3 = 10**21
IN_BOTH = Display(denominator=64, both=True)


def both(length: Length) -> str:
    """A length for a sentence, in inches and millimetres."""
    return show(length, IN_BOTH).text


@dataclass(frozen=True, slots=True)
class PartWanted:
    """Finished parts that a build makes; ``volume`` is one, cubic nanometres."""

    key: str
    name: str
    quantity: int
    volume: int


def cut_by_hand(
    taken: Taken,
    direction: Direction,
    sizes: Sequence[Length],
    kerf: Length,
    *,
    keep_rest: bool = True,
    place: str = "",
) -> Movement:
    """Each piece taken, cut from one end or edge into ``sizes``, in order.

    A crosscut's sizes are lengths, a rip's are widths. Each piece costs one
    kerf, less where less is left. The rest is an offcut, or scrap unless kept.
    Raises WorkshopError where the sizes and kerfs do not fit.
    """
    board = taken.piece
    whole = board.size.length if direction is Direction.CROSSCUT else board.size.width
    _check_sizes(sizes, whole, kerf)
    pieces = Counter(_cut_pieces(board, direction, sizes, kerf))
    left = whole.nm - sum(size.nm for size in sizes)
    dust = min(left, kerf.nm * len(sizes))
    rest = _part_of(board, direction, whole.nm - (left - dust), whole.nm)
    scrap = 0
    if rest.volume and keep_rest:
        pieces[replace(rest, kind=PieceKind.OFFCUT)] += 1
    else:
        scrap = rest.volume * taken.quantity
    made = [
        Made(piece, quantity * taken.quantity, place=place)
        for piece, quantity in pieces.items()
    ]
    return Movement(
        MovementKind.CUT,
        taken=(taken,),
        made=_carrying(taken.cost, made),
        kerf=dust * (board.volume // whole.nm) * taken.quantity,
        scrap=scrap,
    )


def _check_sizes(sizes: Sequence[Length], whole: Length, kerf: Length) -> None:
    if not sizes or len(sizes) > MOST_CUTS:
        raise WorkshopError(
            f"Type the sizes to cut, from 1 to {MOST_CUTS} of them.", input="sizes"
        )
    if min(sizes).nm <= 0:
        raise WorkshopError("A piece to cut is nothing long.", input="sizes")
    if kerf.nm < 0:
        raise WorkshopError("A kerf is not less than nothing.", input="kerf")
    needed = sum(sizes[1:], sizes[0]) + kerf * (len(sizes) - 1)
    if needed > whole:
        raise WorkshopError(
            f"The pieces and the kerfs between them need {both(needed)}; there "
            f"are {both(whole)}. Leave a piece out or make one smaller.",
            input="sizes",
        )


def _cut_pieces(
    board: Piece, direction: Direction, sizes: Sequence[Length], kerf: Length
) -> Iterable[Piece]:
    at = 0
    for size in sizes:
        piece = _part_of(board, direction, at, at + size.nm)
        # A ripped length of a board is a strip; anything else stays what it was.
        ripped = direction is Direction.RIP and board.kind is PieceKind.BOARD
        yield replace(piece, kind=PieceKind.STRIP) if ripped else piece
        at += size.nm + kerf.nm


def _part_of(board: Piece, direction: Direction, start: int, end: int) -> Piece:
    """What lies between two places along the length or across the width."""
    if direction is Direction.CROSSCUT:
        return replace(board, size=replace(board.size, length=Length(end - start)))
    size = replace(board.size, width=Length(end - start))
    return replace(board, size=size, strips=strips_between(board.strips, start, end))


def strips_between(
    strips: Sequence[PanelStrip], start: int, end: int
) -> tuple[PanelStrip, ...]:
    """The strips of a panel that lie between two places across it, nm."""
    kept = []
    at = 0
    for strip in strips:
        low, high = max(at, start), min(at + strip.width.nm, end)
        if high > low:
            kept.append(PanelStrip(strip.species, Length(high - low)))
        at += strip.width.nm
    return tuple(kept)


def surfaced(taken: Taken, size: Dimensions) -> Movement:
    """Jointed or planed down to ``size``; what is gone is chips."""
    before = taken.piece.size
    for name in ("thickness", "width", "length"):
        was, now = getattr(before, name), getattr(size, name)
        if not 0 < now.nm <= was.nm:
            raise WorkshopError(
                f"Surfacing makes the {name} less than {both(was)}, not "
                f"{both(now)}. Type what it measures now.",
                input=name,
            )
    if size == before:
        raise WorkshopError(
            "It measures the same as before, so nothing was taken off.",
            input="thickness",
        )
    strips = strips_between(taken.piece.strips, 0, size.width.nm)
    piece = replace(taken.piece, size=size, strips=strips)
    made = Made(piece, taken.quantity, taken.cost)
    return Movement(
        MovementKind.SURFACED,
        taken=(taken,),
        made=(made,),
        chips=taken.volume - made.volume,
    )


def glued_up(
    taken: Sequence[Taken],
    order: Sequence[PanelStrip],
    panel: Dimensions,
    quantity: int = 1,
    *,
    name: str = "",
    place: str = "",
    part_key: str = "",
) -> Movement:
    """Strips glued into ``quantity`` equal panels, all lying flat or all on edge.

    ``order`` is one panel's strips as they lie, with the width each gives it;
    where the panel measures otherwise they share the difference by width. What
    the strips hold beyond the panels is chips. Raises WorkshopError where the
    strips do not make them.
    """
    if not 1 <= quantity <= MOST_CUTS:
        raise WorkshopError(
            f"Type how many panels, from 1 to {MOST_CUTS}.", input="quantity"
        )
    widths = share(panel.width.nm, [strip.width.nm for strip in order])
    strips = tuple(
        PanelStrip(strip.species, Length(width))
        for strip, width in zip(order, widths, strict=True)
    )
    _check_either_way(taken, strips, panel, quantity)
    species = " + ".join(dict.fromkeys(strip.species for strip in strips))
    made = Made(
        Piece(PieceKind.PANEL, species, panel, strips),
        quantity,
        sum(line.cost for line in taken),
        name,
        place,
        part_key,
    )
    return Movement(
        MovementKind.GLUED,
        taken=tuple(taken),
        made=(made,),
        chips=sum(line.volume for line in taken) - made.volume,
    )


def _check_either_way(
    taken: Sequence[Taken],
    strips: Sequence[PanelStrip],
    panel: Dimensions,
    quantity: int,
) -> None:
    """Flat or on edge: a board of edge grain is made of strips turned on edge."""
    try:
        _check_glue_up(taken, strips, panel, quantity)
    except WorkshopError:
        try:
            _check_glue_up([_on_edge(line) for line in taken], strips, panel, quantity)
        except WorkshopError:
            pass
        else:
            return
        raise


def _on_edge(line: Taken) -> Taken:
    size = line.piece.size
    turned = Dimensions(size.length, size.thickness, size.width)
    return replace(line, piece=replace(line.piece, size=turned))


def _check_glue_up(
    taken: Sequence[Taken],
    strips: Sequence[PanelStrip],
    panel: Dimensions,
    quantity: int,
) -> None:
    wanted = Counter(_wood(strip.species) for strip in strips)
    there = Counter[str]()
    held = defaultdict[str, int](int)
    for line in taken:
        there[_wood(line.piece.species)] += line.quantity
        held[_wood(line.piece.species)] += line.piece.size.width.nm * line.quantity
        _check_strip(line, panel)
    spoken = [*(strip.species for strip in strips), *(x.piece.species for x in taken)]
    called = {_wood(name): name for name in reversed(spoken)}
    for species in wanted | there:
        needed = wanted[species] * quantity
        if there[species] != needed:
            raise WorkshopError(
                f"{needed} strips of {called[species]} are needed for {quantity} × the "
                f"panel and {there[species]} are on hand. Cut what is missing first.",
                input="quantity",
            )
        face = sum(
            strip.width.nm for strip in strips if _wood(strip.species) == species
        )
        if held[species] < face * quantity:
            raise WorkshopError(
                f"The strips of {called[species]} are too narrow for a panel "
                f"{both(panel.width)} wide. Measure the panel again.",
                input="width",
            )


def _wood(name: str) -> str:
    """One name for what goes by several: walnut is black walnut."""
    return species_or_plain(name).name


def _check_strip(line: Taken, panel: Dimensions) -> None:
    for name in ("length", "thickness"):
        has, needs = getattr(line.piece.size, name), getattr(panel, name)
        if has < needs:
            raise WorkshopError(
                f"The panel's {name}, {both(needs)}, is more than that of its "
                f"strips, {both(has)}. Measure the panel again.",
                input=name,
            )


def built(
    taken: Sequence[Taken],
    parts: Sequence[PartWanted],
    *,
    kept: Sequence[Made] = (),
    kerf: int = 0,
    scrap: int = 0,
    note: str = "",
) -> Movement:
    """Blanks and panels become finished parts.

    ``kept`` are pieces, spares say, that go back to the rack. ``kerf`` and
    ``scrap``, cubic nanometres, are what the design says of them; chips take the
    remainder. Raises WorkshopError where the parts hold more
    wood than there is.
    """
    wood = sum(line.volume for line in taken)
    finished = sum(part.volume * part.quantity for part in parts)
    finished += sum(line.volume for line in kept)
    if finished > wood:
        short = -(-(finished - wood) // NM3_PER_CM3)
        raise WorkshopError(
            f"The parts hold {short} cm³ more wood than the blanks and panels given. "
            "Cut or glue up what is missing first."
        )
    # A saw cannot turn more to dust than is there, nor can more fall off.
    kerf = min(kerf, wood - finished)
    scrap = min(scrap, wood - finished - kerf)
    costs = share(
        sum(line.cost for line in taken),
        [
            *(part.volume * part.quantity for part in parts),
            *(line.volume for line in kept),
        ],
    )
    made = tuple(
        PartMade(part.key, part.name, part.quantity, part.volume * part.quantity, cost)
        for part, cost in zip(parts, costs, strict=False)
    )
    return Movement(
        MovementKind.BUILT,
        taken=tuple(taken),
        made=tuple(
            replace(line, cost=cost)
            for line, cost in zip(kept, costs[len(parts) :], strict=True)
        ),
        parts=made,
        kerf=kerf,
        scrap=scrap,
        chips=wood - finished - kerf - scrap,
        note=note,
    )


def _carrying(cost: int, made: Sequence[Made]) -> tuple[Made, ...]:
    """The pieces kept, each with its share of the money by volume."""
    costs = share(cost, [line.volume for line in made])
    return tuple(
        replace(line, cost=part) for line, part in zip(made, costs, strict=True)
    )
