"""What each finish asks for: waits, spread and cautions, from the figures.

Times and spread differ widely by product: the label on the can rules.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.core import figures

BRUSH = "brush-or-cloth."
RAGS, VAPOUR = f"{BRUSH}oily-rags", f"{BRUSH}vapour"


@dataclass(frozen=True, slots=True)
class Finish:
    """One kind of finish.

    ``recoat``, ``use`` and ``coverage`` are keys of the table of finishing;
    ``cautions`` keys of the safety data. ``film``: it lies on the wood, and too fine
    a grit under it lets it peel. ``first`` and ``later`` say how a coat goes on,
    common practice, no source.
    """

    name: str
    recoat: str
    use: str
    coverage: str
    cautions: tuple[str, ...]
    film: bool
    first: str
    later: str

    @property
    def recoat_minutes(self) -> int:
        """Until the next coat."""
        return figures.minutes(self.recoat)

    @property
    def use_minutes(self) -> int:
        """From the last coat until it is used gently."""
        return figures.minutes(self.use)


SCUFF = "Scuff lightly with P320 first, and wipe off the dust."
WIPE = "wait 15 minutes, and wipe off all that the wood has not taken."
FINISHES = (
    Finish(
        "oil varnish",
        "varnish.recoat-oil-varnish-or-oil-polyurethane",
        "varnish.light-use-after-last-coat",
        "varnish.coverage-per-coat",
        (RAGS, VAPOUR, "oil-varnish.rags"),
        True,
        "Thin, along the grain.",
        SCUFF,
    ),
    Finish(
        "waterborne varnish",
        "waterborne.recoat",
        "waterborne.light-use",
        "waterborne.coverage-per-coat",
        (VAPOUR,),
        True,
        "Wet the wood first, let it dry and cut the raised grain with P320. Then thin, "
        "along the grain; finish and room above 10 °C (50 °F).",
        SCUFF,
    ),
    Finish(
        "penetrating oil",
        "oil.recoat-boiled-linseed-oil",
        "oil.light-use",
        "oil.coverage-penetrating-oil-on-planed-hardwood-first-coat",
        (RAGS, VAPOUR, "drying-oil.rags", "metal-driers.heavy-metals-before-cure"),
        False,
        f"Flood it on, {WIPE}",
        f"Thinner than the first: rub it in, {WIPE}",
    ),
    Finish(
        "shellac",
        "shellac.recoat-time-first-coats-warm-dry-room",
        "shellac.hard-enough-to-rub-out",
        "shellac.coverage-per-coat",
        (
            VAPOUR,
            "shellac.flammable-liquid",
            "denatured-alcohol.flammable-poisonous",
        ),
        True,
        "Quickly, thin, each stroke once: it dries under the brush.",
        f"{SCUFF} Each coat melts into the last and needs longer: press a nail in "
        "where nobody looks.",
    ),
    Finish(
        "wax",
        "wax.recoat",
        "wax.light-use",
        "wax.coverage",
        (VAPOUR, "wax-finish.fire"),
        False,
        "Rub on a thin film, wait 15 minutes until it hazes, and buff it.",
        "Thin again, once the solvent of the last has left; then buff.",
    ),
)


def finish(name: str) -> Finish | None:
    """The finish of this name; None for bare wood."""
    return next((one for one in FINISHES if one.name == name), None)
