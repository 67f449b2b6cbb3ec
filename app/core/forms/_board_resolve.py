"""From what was typed to a board that can be built, or the reason it cannot."""

from __future__ import annotations

from dataclasses import replace

from app.core import allowance
from app.core.allowance import Over
from app.core.forms._bench import shop_text
from app.core.forms._board import Board, Groove
from app.core.forms._board_inputs import Inputs
from app.core.forms._patterned import MOST_ROWS, read_pattern
from app.core.inputs import refuse, typed
from app.core.length import Length, Unit, inches, mm
from app.core.pattern import Cut, ways
from app.core.shop import Shop
from app.core.volume import share

PARTS = ("board", "panel", "strip")


def resolve(inputs: Inputs, shop: Shop) -> Board:
    """Inputs to a board that can be built, or the refusal that says why not."""
    end = inputs.grain == "end"
    strips = _count("strip_width", inputs.strip_width, inputs.width, "strips", shop)
    each = inputs.slice_width or inputs.strip_width
    slices = _count("slice_width", each, inputs.length, "slices", shop) if end else 1
    pattern = read_pattern(
        inputs,
        slices,
        strips,
        rows_key="strip_width",
        side="slice",
        needs=lambda count: typed(_shared(inputs.width, count), shop.unit),
    )
    of = allowance.read(inputs.over_size, PARTS, shop)
    board, panel, strip = (of.of(key) for key in PARTS)
    if end and "length" not in of.own.get("board", {}):
        # Both its edges are made of slices: they are trimmed alike.
        board = replace(board, length=board.width)
    glued = inputs.length + board.length
    planed = _shared(glued, slices) if end else inputs.thickness
    widths = share((inputs.width + board.width).nm, [1] * strips)
    cut = _cut(inputs, planed, max(widths), (board, panel, strip), shop)
    made = Board(
        end=end,
        length=inputs.length,
        width=inputs.width,
        thickness=inputs.thickness,
        pattern=pattern,
        strips=tuple(map(Length, widths)),
        slice_width=planed,
        trim_length=board.length,
        trim_width=board.width,
        level=board.thickness if end else Length(0),
        cut=cut,
        ways=ways(pattern, cut),
        groove=_groove(inputs, shop),
    )
    _prove_trim(made)
    return made


def _cut(
    inputs: Inputs, planed: Length, widest: int, overs: tuple[Over, ...], shop: Shop
) -> Cut:
    board, panel, strip = overs
    end = inputs.grain == "end"
    return Cut(
        wall=inputs.thickness + board.thickness if end else inputs.length,
        strip_width=Length(widest) + strip.width,
        thickness=planed + panel.thickness,
        kerf=inputs.kerf or shop.kerf,
        over_length=panel.length if end else board.length,
        spares=inputs.spares if end else 0,
        may_turn=end,
    )


def _shared(whole: Length, count: int) -> Length:
    """One of so many that make at least the whole."""
    return Length(-(-whole.nm // count))


def _count(key: str, each: Length, whole: Length, what: str, shop: Shop) -> int:
    """How many share the whole, none wider than asked."""
    count = -(-whole.nm // each.nm)
    if count < 2:
        near = typed(whole / 2, shop.unit)
        message = (
            f"One piece {typed(each, shop.unit)} wide is all that "
            f"{shop_text(whole, shop)} takes; a laminated board has two {what} or "
            "more."
        )
        raise refuse(key, message, near)
    if count > MOST_ROWS:
        near = typed(_up(_shared(whole, MOST_ROWS), shop), shop.unit)
        message = (
            f"{count} {what} are more than {MOST_ROWS}, the most that is reckoned "
            f"with. Make them {near} or wider."
        )
        raise refuse(key, message, near)
    return count


def _up(length: Length, shop: Shop) -> Length:
    """Up to the next mark that a tape shows."""
    step = inches("1/16").nm if shop.unit is Unit.INCH else mm("0.5").nm
    return Length(-(-length.nm // step) * step)


def _down(length: Length, shop: Shop) -> Length:
    """Down to the mark before, at least one of it."""
    step = inches("1/64").nm if shop.unit is Unit.INCH else mm("0.1").nm
    return Length(max(length.nm // step, 1) * step)


def _groove(inputs: Inputs, shop: Shop) -> Groove | None:
    if inputs.juice_groove == "none":
        return None
    faces = 2 if inputs.juice_groove == "both faces" else 1
    groove = Groove(
        inputs.groove_width, inputs.groove_depth, inputs.groove_inset, faces
    )
    if groove.depth * 2 * faces > inputs.thickness:
        near = typed(_down(inputs.thickness / (2 * faces), shop), shop.unit)
        message = (
            f"Grooves {typed(groove.depth, shop.unit)} deep on {inputs.juice_groove} "
            f"take more than half of a board {typed(inputs.thickness, shop.unit)} "
            "thick."
        )
        raise refuse("groove_depth", message, near)
    short = min(inputs.length, inputs.width)
    # A hand's width of island, or at least a third of the board.
    if (groove.inset + groove.width) * 3 > short:
        _refuse_groove(groove, short, shop)
    return groove


def _refuse_groove(groove: Groove, short: Length, shop: Shop) -> None:
    room = Length(short.nm // 3)
    start = (
        f"A groove {typed(groove.width, shop.unit)} wide, "
        f"{typed(groove.inset, shop.unit)} in from the edge, leaves less than a third "
        f"of a board {typed(short, shop.unit)} across."
    )
    if room - groove.width >= mm(1):
        near = typed(_down(room - groove.width, shop), shop.unit)
        raise refuse("groove_inset", f"{start} Try {near} in.", near)
    message = f"{start} The board is too narrow for this groove."
    raise refuse("juice_groove", message, "none")


def _prove_trim(board: Board) -> None:
    """Refuse a trim that would take a whole strip or slice off."""
    pairs = (
        (board.strips[0], board.trim_width),
        (board.slice_width, board.trim_length),
    )
    for each, trim in pairs if board.end else pairs[:1]:
        if trim >= each:
            message = (
                "The board's own allowance takes a whole strip off at its edges. Take "
                "less, like board: length 1/8 in, width 1/8 in"
            )
            near = "board: length 1/8 in, width 1/8 in"
            raise refuse("over_size", f"{message}.", near)
