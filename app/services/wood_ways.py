"""What a shop and a design allow a plan to do: glue parts up, resaw thick boards."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from sqlalchemy.orm import Session

from app.core.cutting.job import Blank, Resaw
from app.core.shop import Shop
from app.services import designs

# A column of a parts list, however it is headed, and what it says of a part.
COLUMNS = ("glue up", "glue-up", "glued up", "glue")
NEVER = ("no", "never", "none")


def resaw(shop: Shop) -> Resaw | None:
    """How the shop resaws; None where it does not."""
    if not shop.resaw_height:
        return None
    return Resaw(shop.resaw_kerf, shop.resaw_height, shop.resaw_allowance)


def allowed(
    work: Session,
    episode_id: int,
    blanks: Iterable[Blank],
    strips: Iterable[str],
    shop: Shop,
) -> tuple[Blank, ...]:
    """The blanks, with how narrow the strips may be that they are glued up from.

    ``strips`` are the ids of blanks that go into a panel of the design: those the
    design has glued up already.
    """
    if not shop.glue_narrowest:
        return tuple(blanks)
    fixed = set(strips) | _in_one_piece(work, episode_id)
    return tuple(
        one
        if one.id in fixed or one.may_turn
        else replace(one, narrowest=shop.glue_narrowest, joint=shop.over_width)
        for one in blanks
    )


def _in_one_piece(work: Session, episode_id: int) -> set[str]:
    """Parts that their list wants out of one board."""
    design = designs.within(work, episode_id)
    return {
        part.key
        for part in (design.parts if design else ())
        for heading, words in part.more
        if heading.lower() in COLUMNS and words.strip().lower() in NEVER
    }
