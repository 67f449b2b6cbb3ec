"""The straight vessel as numbers: what was asked for, resolved and proven."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from app.core import geometry
from app.core.inputs import Ask, ask, refuse, typed
from app.core.length import Length, Unit, inches, mm, show
from app.core.shop import Shop
from app.core.volume import share

ACROSS = (
    "outside_side",
    "outside_inscribed",
    "outside_circumscribed",
    "inside_inscribed",
)
# Above this a board for one base is hard to find: common practice, no source.
WIDEST_STRIP = inches("5")
NONE = Length(0)


@dataclass(frozen=True)
class Inputs:
    """What a straight-sided vessel asks for; one of the four sizes across."""

    sides: int = ask("Sides", Ask.COUNT, default=6, least=3, most=16, help="3 to 16.")
    outside_side: Length | None = ask(
        "Outside side", Ask.LENGTH, default=None, help="One side, corner to corner."
    )
    outside_inscribed: Length | None = ask(
        "Outside, across the flats",
        Ask.LENGTH,
        default=None,
        help="The circle that touches every side.",
    )
    outside_circumscribed: Length | None = ask(
        "Outside, through the corners",
        Ask.LENGTH,
        default=None,
        help="The circle through every corner.",
    )
    inside_inscribed: Length | None = ask(
        "Inside, across the flats",
        Ask.LENGTH,
        default=None,
        help="The largest round thing that goes in.",
    )
    height: Length = ask("Height of the walls", Ask.LENGTH, default=inches("6"))
    wall: Length = ask("Wall thickness", Ask.LENGTH, default=inches("1/2"))
    base: str = ask(
        "Base",
        Ask.CHOICE,
        default="groove",
        choices=("groove", "rebate", "under", "none"),
        help="In a groove, in a rebate at the bottom, under the walls, or none.",
    )
    base_thickness: Length = ask("Base thickness", Ask.LENGTH, default=inches("1/4"))
    groove_depth: Length | None = ask(
        "Groove depth",
        Ask.LENGTH,
        default=None,
        help="Half the wall where left empty. A rebate goes by it too.",
    )
    groove_up: Length = ask(
        "Groove up from the bottom",
        Ask.LENGTH,
        default=inches("1/4"),
        least=NONE,
        help="From the wall's lower edge to the groove's lower side.",
    )
    base_clearance: Length = ask(
        "Room for the base",
        Ask.LENGTH,
        default=inches("1/16"),
        least=NONE,
        help="At each flat, to the groove's bottom, so that the base can swell.",
    )
    base_species: tuple[str, ...] | None = ask(
        "Wood of the base",
        Ask.SPECIES,
        default=None,
        help="One species; the lowest row's where left empty.",
    )
    base_strips: int | None = ask(
        "Strips in the base",
        Ask.COUNT,
        default=None,
        least=1,
        most=30,
        help="Left empty: as many as keep each at 5 in (127 mm) or less.",
    )
    strip_rows: int = ask(
        "Rows of strips",
        Ask.COUNT,
        default=3,
        least=1,
        most=40,
        help="Glued edge to edge; the grain runs round the vessel.",
    )
    species: tuple[str, ...] = ask(
        "Species, bottom to top",
        Ask.SPECIES,
        default=("walnut", "maple"),
        help="One or more, with commas. They repeat from the bottom row up.",
    )
    panels: int = ask(
        "Wall panels",
        Ask.COUNT,
        default=1,
        least=1,
        most=16,
        help="How many panels the walls are cut from, where one would be too long.",
    )
    kerf: Length | None = ask(
        "Kerf", Ask.LENGTH, default=None, most=mm(10), help="The shop's, if empty."
    )
    splines_per_corner: int = ask(
        "Splines at each corner", Ask.COUNT, default=0, least=0, most=20
    )
    spline_thickness: Length = ask(
        "Spline thickness", Ask.LENGTH, default=inches("1/8"), most=mm(25)
    )
    spline_depth_share: Fraction = ask(
        "Spline depth, share of the corner",
        Ask.RATIO,
        default=Fraction(1, 2),
        least=Fraction(1, 20),
        most=Fraction(9, 10),
        help="Of the wood at the corner, measured towards the middle.",
    )
    spline_species: tuple[str, ...] | None = ask(
        "Wood of the splines",
        Ask.SPECIES,
        default=None,
        help="One species; the last of the rows' where left empty.",
    )


@dataclass(frozen=True, slots=True)
class Vessel:
    """A vessel that can be built: every number resolved, none contradicting.

    ``given`` is the size across that was typed; the other three follow from it.
    ``step`` is the mark that rough sizes go up to; ``rows`` are the species bottom to top with each row's finished width.
    """

    given: str
    step: Length
    sides: int
    outside_side: Length
    outside_inscribed: Length
    outside_circumscribed: Length
    inside_inscribed: Length
    inside_side: Length
    height: Length
    wall: Length
    base: str
    base_thickness: Length
    groove_depth: Length
    groove_up: Length
    clearance: Length
    base_inscribed: Length
    base_species: str
    base_strips: int
    rows: tuple[tuple[str, Length], ...]
    panels: int
    kerf: Length
    splines: int
    spline_thickness: Length
    spline_share: Fraction
    spline_species: str

    @property
    def has_base(self) -> bool:
        """Whether there is a bottom to make."""
        return self.base != "none"

    @property
    def housed(self) -> bool:
        """Whether the base sits in wood cut out of the walls."""
        return self.base in ("groove", "rebate")

    @property
    def base_side(self) -> Length:
        """One side of the base."""
        return geometry.side_of_inscribed(self.base_inscribed, self.sides)

    @property
    def strip_width(self) -> Length:
        """One row, finished."""
        return self.height / len(self.rows)

    @property
    def panel_length(self) -> Length:
        """All walls side by side with a kerf between, before trim."""
        return self.outside_side * self.sides + self.kerf * (self.sides - 1)

    @property
    def walls_per_panel(self) -> int:
        """How many walls come from each panel."""
        return -(-self.sides // self.panels)

    @property
    def each_panel_length(self) -> Length:
        """One of the panels, before trim."""
        walls = self.walls_per_panel
        return self.outside_side * walls + self.kerf * (walls - 1)

    @property
    def corner_thickness(self) -> Length:
        """Wood at a corner, from the inner corner to the outer one."""
        return Length.nearest(self.wall.nm / geometry.cos(self.sides))

    @property
    def spline_depth(self) -> Length:
        """How deep a spline's slot goes along the line to the middle."""
        return self.corner_thickness * self.spline_share

    @property
    def spline_visible(self) -> Length:
        """How long a spline shows on each face."""
        return Length.nearest(self.spline_depth.nm / geometry.sin(self.sides))

    @property
    def spline_long(self) -> Length:
        """The inner, longest edge of a finished spline."""
        return Length.nearest(2 * self.spline_depth.nm / geometry.tan(self.sides))

    @property
    def base_reach(self) -> Length:
        """How far the base reaches along or across a side, whichever is more."""
        return max(geometry.extent(geometry.corners(self.sides, self.base_side)))

    @property
    def base_blank(self) -> Length:
        """The square the base is cut from: room to cut every side."""
        room = self.base_reach + inches("1/2")
        return self.rough(max(self.base_inscribed * Fraction(5, 4), room))

    def rough(self, length: Length) -> Length:
        """A rough size: up to the next easy mark on the tape."""
        return Length(-(-length.nm // self.step.nm) * self.step.nm)

    @property
    def base_strip_count(self) -> int:
        """How many strips the base is glued up from; 1 is a plain board."""
        return self.base_strips or -(-self.base_blank.nm // WIDEST_STRIP.nm)

    @property
    def inside_height(self) -> Length:
        """From the top of the base to the top of the walls."""
        if not self.housed:
            return self.height
        return self.height - self.groove_up - self.base_thickness

    @property
    def spline_heights(self) -> tuple[Length, ...]:
        """Each spline's middle, up from the walls' lower edge, clear of the base."""
        low = self.height - self.inside_height
        step = Fraction(1, self.splines + 1)
        heights = range(1, self.splines + 1)
        return tuple(low + self.inside_height * (step * i) for i in heights)

    @property
    def closing_gap(self) -> Length:
        """The last joint's gap with every bevel off by a tenth of a degree."""
        off = math.radians(0.1)
        ratio = math.sin(self.sides * off) / math.sin(math.pi / self.sides - off)
        return Length.nearest(self.outside_side.nm * ratio)


def resolve(inputs: Inputs, shop: Shop) -> Vessel:
    """Inputs to a vessel that can be built, or the refusal that says why not."""
    given, across = _across(inputs, shop)
    sides, wall = inputs.sides, inputs.wall
    outside_side, outside, circumscribed = across
    inside = outside - wall * 2
    if given == "inside_inscribed" and inputs.inside_inscribed:
        inside = inputs.inside_inscribed
    if inside.nm <= 0:
        raise _wall_too_thick(wall, outside, shop)
    depth = inputs.groove_depth or wall / 2
    vessel = Vessel(
        given=given,
        step=inches("1/8") if shop.unit is Unit.INCH else mm(1),
        sides=sides,
        outside_side=outside_side,
        outside_inscribed=outside,
        outside_circumscribed=circumscribed,
        inside_inscribed=inside,
        inside_side=geometry.side_of_inscribed(inside, sides),
        height=inputs.height,
        wall=wall,
        base=inputs.base,
        base_thickness=inputs.base_thickness,
        groove_depth=depth,
        groove_up=inputs.groove_up if inputs.base == "groove" else NONE,
        clearance=inputs.base_clearance,
        base_inscribed=_base_inscribed(inputs, inside, outside, depth),
        base_species=_one("base_species", inputs.base_species, inputs.species[0]),
        base_strips=inputs.base_strips or 0,
        rows=_rows(inputs),
        panels=inputs.panels,
        kerf=inputs.kerf or shop.kerf,
        splines=inputs.splines_per_corner,
        spline_thickness=inputs.spline_thickness,
        spline_share=inputs.spline_depth_share,
        spline_species=_one(
            "spline_species", inputs.spline_species, inputs.species[-1]
        ),
    )
    _prove(vessel, shop)
    return vessel


def _across(inputs: Inputs, shop: Shop) -> tuple[str, tuple[Length, Length, Length]]:
    """Which size across was given; outside side, inscribed, circumscribed."""
    given = [key for key in ACROSS if getattr(inputs, key) is not None]
    if not given:
        near = typed(inches("4") if shop.unit is Unit.INCH else mm(100), shop.unit)
        message = (
            "How wide is the vessel? Give one size across: "
            f"{', '.join(ACROSS[:-1])} or {ACROSS[-1]}."
        )
        raise refuse(ACROSS[0], message, near)
    if len(given) > 1:
        message = (
            f"{' and '.join(given)} are given together, and each settles the "
            f"other. Keep {given[0]} and leave the rest empty."
        )
        raise refuse(given[1], message)
    key, size, sides = given[0], getattr(inputs, given[0]), inputs.sides
    if key == "outside_side":
        around = geometry.circumscribed(size, sides)
        return key, (size, geometry.inscribed(size, sides), around)
    if key == "outside_circumscribed":
        flats = size * geometry.cos(sides)
        return key, (geometry.side_of_circumscribed(size, sides), flats, size)
    flats = size if key == "outside_inscribed" else size + inputs.wall * 2
    around = Length.nearest(flats.nm / geometry.cos(sides))
    return key, (geometry.side_of_inscribed(flats, sides), flats, around)


def _base_inscribed(
    inputs: Inputs, inside: Length, outside: Length, depth: Length
) -> Length:
    if inputs.base in ("under", "none"):
        return outside
    return inside + (depth - inputs.base_clearance) * 2


def _rows(inputs: Inputs) -> tuple[tuple[str, Length], ...]:
    count, names = inputs.strip_rows, inputs.species
    if len(names) > count:
        message = (
            f"{len(names)} species need at least {len(names)} rows of strips; "
            f"there {'is' if count == 1 else 'are'} {count}."
        )
        raise refuse("strip_rows", message, str(len(names)))
    # Shared out so that the rows add up to the height to the last nanometre.
    widths = share(inputs.height.nm, [1] * count)
    return tuple((names[i % len(names)], Length(w)) for i, w in enumerate(widths))


def _one(key: str, names: tuple[str, ...] | None, default: str) -> str:
    """The one species named, or the default."""
    if names and len(names) > 1:
        raise refuse(key, f"Name one species here, not {len(names)}.", names[0])
    return names[0] if names else default


def _wall_too_thick(wall: Length, outside: Length, shop: Shop) -> Exception:
    near = typed(_tidy(outside / 8, shop), shop.unit)
    message = (
        f"Walls {typed(wall, shop.unit)} thick meet in the middle of a vessel that is "
        f"{shop_text(outside, shop)} across the flats. Try {near}, or a wider vessel."
    )
    return refuse("wall", message, near)


def shop_text(length: Length, shop: Shop) -> str:
    """A length as the shop's display shows it, for sentences."""
    return show(length, shop.display).text


def _tidy(length: Length, shop: Shop) -> Length:
    """The nearest length below that a tape shows, at least one line of it."""
    step = inches("1/16").nm if shop.unit is Unit.INCH else mm("0.5").nm
    return Length(max(length.nm // step, 1) * step)


def _prove(vessel: Vessel, shop: Shop) -> None:
    """Refuse what cannot be built, the walls first."""
    if vessel.strip_width < mm(3):
        most = max(1, vessel.height.nm // mm(10).nm)
        message = (
            f"{len(vessel.rows)} rows make strips only "
            f"{shop_text(vessel.strip_width, shop)} wide, too narrow to saw safely. "
            f"Use {most} or fewer."
        )
        raise refuse("strip_rows", message, str(most))
    if vessel.panels > vessel.sides:
        message = f"{vessel.sides} walls cannot come from {vessel.panels} panels."
        raise refuse("panels", message, str(vessel.sides))
    if vessel.housed:
        _prove_groove(vessel, shop)
    if vessel.splines:
        _prove_splines(vessel, shop)


def _prove_groove(vessel: Vessel, shop: Shop) -> None:
    wall, depth, unit = vessel.wall, vessel.groove_depth, shop.unit
    if depth >= wall:
        near = typed(_tidy(wall / 2, shop), unit)
        message = (
            f"A groove {typed(depth, unit)} deep goes through a wall "
            f"{typed(wall, unit)} thick. About half the wall would do: {near}."
        )
        raise refuse("groove_depth", message, near)
    if vessel.clearance >= depth:
        near = typed(_tidy(depth / 8, shop), unit)
        message = (
            f"With {typed(vessel.clearance, unit)} of room at each flat the base does "
            f"not reach into a groove {typed(depth, unit)} deep. Try {near}."
        )
        raise refuse("base_clearance", message, near)
    over = vessel.groove_up + vessel.base_thickness - vessel.height
    if over.nm >= 0:
        raise _base_over_the_top(vessel, shop)


def _base_over_the_top(vessel: Vessel, shop: Shop) -> Exception:
    height, thick, up = vessel.height, vessel.base_thickness, vessel.groove_up
    key = "base_thickness" if thick >= height else "groove_up"
    room = height if key == "base_thickness" else height - thick
    near = typed(_tidy(room / 4, shop), shop.unit)
    message = (
        f"The base does not fit: {typed(up, shop.unit)} up from the bottom and "
        f"{typed(thick, shop.unit)} thick, it stands out of walls only "
        f"{typed(height, shop.unit)} high. Try {near}."
    )
    return refuse(key, message, near)


def _prove_splines(vessel: Vessel, shop: Shop) -> None:
    if vessel.spline_visible * 2 >= vessel.outside_side:
        ratio = Fraction(vessel.outside_side.nm, 2 * vessel.spline_visible.nm)
        near = int(vessel.spline_share * ratio * 90) / Fraction(100)
        message = (
            f"Splines that show {shop_text(vessel.spline_visible, shop)} on each face "
            "run into those of the next corner. Take a smaller share of the corner."
        )
        raise refuse("spline_depth_share", message, str(float(near)))
    if vessel.spline_thickness * vessel.splines * 2 >= vessel.inside_height:
        most = vessel.inside_height.nm // (vessel.spline_thickness.nm * 3)
        message = (
            f"{vessel.splines} splines {typed(vessel.spline_thickness, shop.unit)} "
            f"thick leave too little wood in a corner "
            f"{typed(vessel.height, shop.unit)} high."
        )
        raise refuse("splines_per_corner", message, str(most))
