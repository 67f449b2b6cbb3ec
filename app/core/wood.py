"""Species: what moves, what weighs, and how each is drawn."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from zlib import crc32

from app.core.errors import WorkshopError
from app.core.figures import table, words


@dataclass(frozen=True, slots=True)
class Species:
    """One species of the table, with where its figures were read.

    Coefficients are per percent of moisture content; shrinkages are percents
    from green to oven-dry; specific gravity is on the volume at 12 percent;
    ``onset`` is the moisture content below which the wood shrinks, percent.
    ``colour`` (our own, chosen to read apart) and the hatch are for drawings:
    ``hatch_angle`` in degrees, ``hatch_spacing`` in millimetres of the page.
    ``confidence`` is ``read`` only if every figure was seen in its source.
    """

    key: str
    name: str
    also: tuple[str, ...]
    botanical: str
    coefficient_radial: Fraction
    coefficient_tangential: Fraction
    coefficient_basis: str
    shrinkage_radial: Fraction
    shrinkage_tangential: Fraction
    onset: Fraction
    specific_gravity: Fraction
    colour: str
    hatch_angle: int
    hatch_spacing: Fraction
    source: str
    confidence: str
    note: str


@dataclass(frozen=True, slots=True)
class Plain:
    """A wood that the table does not know: it can be drawn, not reckoned with."""

    name: str
    colour: str
    hatch_angle: int
    hatch_spacing: Fraction


class NoSuchSpecies(WorkshopError):
    """A name that no species of the table goes by, or more than one."""


# Our own tones for woods typed as free text; none is a colour of the table.
_PLAIN_TONES = ("#c8b8a0", "#a89078", "#8c7a6a", "#d6cab8", "#b4a48c", "#9a8464")
_PLAIN_HATCHES = ((0, "2.8"), (90, "2.8"), (0, "1.8"), (90, "1.8"))


@cache
def all_species() -> tuple[Species, ...]:
    """Every species of the table, in its order."""
    return tuple(_species(row) for row in table("wood"))


def _species(row: dict[str, str]) -> Species:
    return Species(
        key=row["key"],
        name=row["name"],
        also=words(row["also"]),
        botanical=row["botanical"],
        coefficient_radial=Fraction(row["coefficient_radial"]),
        coefficient_tangential=Fraction(row["coefficient_tangential"]),
        coefficient_basis=row["coefficient_basis"],
        shrinkage_radial=Fraction(row["shrinkage_radial"]),
        shrinkage_tangential=Fraction(row["shrinkage_tangential"]),
        onset=Fraction(row["shrinkage_onset"]),
        specific_gravity=Fraction(row["specific_gravity"]),
        colour=row["colour"],
        hatch_angle=int(row["hatch_angle"]),
        hatch_spacing=Fraction(row["hatch_spacing"]),
        source=row["source"],
        confidence=row["confidence"],
        note=row["note"],
    )


def species(name: str, *, input: str = "") -> Species:
    """The species that makers call ``name``: its key, name or a trade name.

    Raises NoSuchSpecies with the nearest name, or with the choices where a
    name like “oak” means several.
    """
    asked = _plain(name)
    if found := _by_name().get(asked):
        return found
    several = [one.name for one in all_species() if asked in _plain(one.name).split()]
    if several:
        listed = _choices(several)
        message = f"“{name}” is more than one species. Say which: {listed}."
        raise NoSuchSpecies(message, input=input, nearest=several[0])
    raise _unknown(name, asked, input)


def _unknown(name: str, asked: str, input: str) -> NoSuchSpecies:
    near = difflib.get_close_matches(asked, _by_name(), n=1, cutoff=0.75)
    if not near:
        message = (
            f"“{name[:40]}” is not a species in the wood table. "
            "Try a name like black walnut, sugar maple or white oak."
        )
        return NoSuchSpecies(message, input=input)
    nearest = _by_name()[near[0]].name
    message = f"“{name[:40]}” is not a species in the wood table. Nearest: {nearest}."
    return NoSuchSpecies(message, input=input, nearest=nearest)


def species_or_plain(name: str) -> Species | Plain:
    """For drawing and for words: the species, or the name as it was typed."""
    if found := _by_name().get(_plain(name)):
        return found
    # The same name is drawn the same way every time and on every machine.
    mark = crc32(_plain(name).encode())
    angle, spacing = _PLAIN_HATCHES[mark // 7 % len(_PLAIN_HATCHES)]
    tone = _PLAIN_TONES[mark % len(_PLAIN_TONES)]
    return Plain(name.strip(), tone, angle, Fraction(spacing))


@cache
def _by_name() -> dict[str, Species]:
    return {
        _plain(name): one
        for one in all_species()
        for name in (one.key, one.name, *one.also, one.botanical)
        if not name.startswith("Sequoia") or one.key.startswith("old")
    }


def _plain(name: str) -> str:
    """Lower case, single spaces, no hyphens, and “walnut, black” turned round."""
    last, comma, first = name.partition(",")
    turned = f"{first} {last}" if comma else name
    return " ".join(turned.lower().replace("-", " ").split())


def _choices(names: list[str]) -> str:
    return ", ".join(names[:-1]) + " or " + names[-1] if len(names) > 1 else names[0]
