"""Parts glued up from narrower strips: the job with strips in place of wide blanks.

A strip's blank has the key of its part with how many of them make one:
``top.of-3``. By that the ledger knows what lies on the rack and what it makes.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from app.core.cutting.job import Blank, Job
from app.core.length import Display, Length, Unit, inches, mm

MOST_STRIPS = 8  # more are a butcher's block, which is designed as one
STRIP = " strip"
_KEY = re.compile(r"(.+)\.of-([1-9]\d?)")


@dataclass(frozen=True, slots=True)
class Glued:
    """One kind of part to glue up: ``quantity`` of them, each of ``strips`` strips.

    ``width`` is each strip's as sawn. ``joints`` is what jointing takes off all of
    them together.
    """

    key: str
    name: str
    quantity: int
    strips: int
    width: Length
    length: Length
    thickness: Length | None
    joints: Length


def strip_key(part_key: str, strips: int) -> str:
    """The key of the strips that make a part, so many of them each."""
    return f"{part_key}.of-{strips}"


def part_and_strips(key: str) -> tuple[str, int] | None:
    """The part's key and how many strips make one; None for any other key."""
    found = _KEY.fullmatch(key)
    return (found[1], int(found[2])) if found else None


def counts(blank: Blank, display: Display) -> tuple[int, ...]:
    """In how many strips a blank may be glued up, the fewest first."""
    if blank.narrowest is None or blank.width is None or blank.may_turn:
        return ()
    return tuple(
        strips
        for strips in range(2, MOST_STRIPS + 1)
        if strip_width(blank.width, strips, blank.joint, display) >= blank.narrowest
    )


def strip_width(width: Length, strips: int, joint: Length, display: Display) -> Length:
    """How wide each strip is sawn, up to the next mark of the tape.

    All of them together are the blank and what each glue line takes for jointing.
    """
    mark = mark_of(display)
    whole = width.nm + (strips - 1) * joint.nm
    marks = -(-whole // (strips * mark.nm))
    return Length(marks * mark.nm)


def mark_of(display: Display) -> Length:
    """The finest mark that a fence is set to."""
    if display.unit is Unit.MILLIMETRE:
        return mm(1)
    # A decimal display shows ten thousandths; nobody rips to those.
    return inches("1") / (64 if display.decimal else display.denominator)


def glued(job: Job, choice: Mapping[str, int]) -> Job:
    """The job with these blanks, by id, as so many strips each.

    Where the job has strips of a blank already, those that are missing of a set, the
    others join them; a blank whose strips would be of another size stays as it is.
    """
    if not choice:
        return job
    there = {blank.id: blank for blank in job.blanks}
    blanks: dict[str, Blank] = {}
    for blank in job.blanks:
        one = _as_chosen(blank, choice, there, job.display)
        known = blanks.get(one.id)
        blanks[one.id] = replace(
            one, quantity=one.quantity + (known.quantity if known else 0)
        )
    return replace(job, blanks=tuple(blanks.values()))


def _as_chosen(
    blank: Blank, choice: Mapping[str, int], there: Mapping[str, Blank], shown: Display
) -> Blank:
    if blank.id not in choice:
        return blank
    strips = _strips(blank, choice[blank.id], shown)
    known = there.get(strips.id)
    if known and (known.length, known.width) != (strips.length, strips.width):
        return blank
    return replace(known, quantity=strips.quantity) if known else strips


def _strips(blank: Blank, strips: int, display: Display) -> Blank:
    assert blank.width is not None
    return replace(
        blank,
        id=strip_key(blank.id, strips),
        name=(blank.name or blank.id) + STRIP,
        width=strip_width(blank.width, strips, blank.joint, display),
        quantity=blank.quantity * strips,
        narrowest=None,
    )


def choice_of(job: Job) -> dict[str, int]:
    """Which blanks this job has as strips, and how many each.

    A part that is wanted whole beside its strips was not glued up.
    """
    whole = {blank.id for blank in job.blanks}
    found = (part_and_strips(blank.id) for blank in job.blanks)
    return dict(one for one in found if one and one[0] not in whole)


def told(job: Job) -> tuple[Glued, ...]:
    """What is to be glued up before it is a blank."""
    found = []
    for blank in job.blanks:
        made = part_and_strips(blank.id)
        if made and blank.width is not None:
            key, strips = made
            found.append(
                Glued(
                    key,
                    blank.name.removesuffix(STRIP),
                    -(-blank.quantity // strips),
                    strips,
                    blank.width,
                    blank.length,
                    blank.thickness,
                    blank.joint * (strips - 1),
                )
            )
    return tuple(found)
