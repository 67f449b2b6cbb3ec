"""What several forms ask for alike; a form's ``Inputs`` inherits what it needs.

They are keyword-only, so that a form's own inputs may stand before them.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.core import finishes
from app.core.allowance import LIKE
from app.core.inputs import Ask, ask
from app.core.length import Length, mm

FINISHES = (*(one.name for one in finishes.FINISHES), "none")
# Groups of the page, for a form's GROUPS.
WOOD_GROUP = ("sawn", "spares", "over_size")
FINISH_GROUP = ("finish", "coats")
CLOSING_GROUP = ("widest_gap", "width_spread")


@dataclass(frozen=True, kw_only=True)
class Common:
    """How the boards are sawn, what is cut to spare, and the finish."""

    sawn: str = ask(
        "Boards are sawn",
        Ask.CHOICE,
        default="flat",
        choices=("flat", "quarter"),
        help="Flat: growth rings lie along the face. Quarter: they stand upright in "
        "the end, and the board moves less.",
    )
    spares: int = ask(
        "Spares for test cuts",
        Ask.COUNT,
        default=0,
        least=0,
        most=5,
        help="So many more of what is cut at an angle, in the blanks and in the "
        "materials.",
    )
    over_size: str | None = ask(
        "Over size by, part by part",
        Ask.TEXT,
        default=None,
        help=f"The shop's where left empty. A line a part, like {LIKE}",
    )
    finish: str = ask(
        "Finish",
        Ask.CHOICE,
        default="oil varnish",
        choices=FINISHES,
        help="What coats the wood: it settles the steps, the waits and the "
        "amounts. None leaves it bare.",
    )
    coats: int = ask(
        "Coats",
        Ask.COUNT,
        default=2,
        least=1,
        most=10,
        help="On every face that takes the finish.",
    )


@dataclass(frozen=True, kw_only=True)
class Closing:
    """For builds whose mitres close on themselves."""

    widest_gap: Length = ask(
        "Widest gap that will do",
        Ask.LENGTH,
        default=mm("0.1"),
        most=mm(5),
        help="At the last joint. It gives how true the angle must be.",
    )
    width_spread: Length = ask(
        "Spread of the pieces' lengths",
        Ask.LENGTH,
        default=mm("0.1"),
        least=Length(0),
        most=mm(5),
        help="The longest less the shortest, as they come off the saw.",
    )
