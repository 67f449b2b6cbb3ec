"""What the maker of a laminated board is told before the wood is cut."""

from __future__ import annotations

from app.core.forms._bench import shop_text
from app.core.forms._board import Board
from app.core.forms._board_inputs import Inputs
from app.core.forms._patterned import pattern_warnings
from app.core.length import mm
from app.core.shop import Shop
from app.core.wood import species_or_plain

# An end-grain board is as strong as the glue between its fibres: below this it
# breaks when dropped. Common practice, no source.
THIN = mm(19)
# Its pores are open from end to end: air can be blown through a stick of it. Common
# practice, no source.
OPEN_PORED = {"Northern red oak"}


def warnings(board: Board, inputs: Inputs, shop: Shop) -> tuple[str, ...]:
    """Sentences on what can go wrong, the most particular first."""
    found = pattern_warnings(inputs, board.pattern, comes_round=False)
    if board.end and board.thickness < THIN:
        found.append(
            f"An end-grain board only {shop_text(board.thickness, shop)} thick breaks "
            "easily: 19 mm (3/4 in) or more is usual."
        )
    woods = {species_or_plain(name).name for name in board.pattern.species}
    if board.end and woods & OPEN_PORED:
        found.append(
            f"The pores of {' and '.join(sorted(woods & OPEN_PORED)).lower()} are open "
            "from end to end: an end-grain board of it drinks what is cut on it. A "
            "closed-pored wood, like maple or cherry, keeps clean."
        )
    if board.end and board.glued_width > shop.widest_planed:
        found.append(
            f"The first panel is {shop_text(board.glued_width, shop)} wide, more than "
            "the planer takes: glue it up in halves, plane those, and join them."
        )
    if board.end and board.slices > 1 and board.cut.kerf * 3 > board.thickness:
        found.append(
            "The kerfs between the slices turn more than a quarter of the first panel "
            "to dust. A thinner blade saves wood."
        )
    if inputs.finish in ("oil varnish", "waterborne varnish", "shellac"):
        found.append(
            f"A film of {inputs.finish} chips under a knife. On a board that is cut "
            "on, an oil that soaks in is usual, and its label says whether food may "
            "meet it."
        )
    return tuple(found)
