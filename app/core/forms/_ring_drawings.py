"""The ring drawn: from above, a segment, its strip, and the stack in section."""

from __future__ import annotations

from app.core.drawing import Drawing, Label, Measure, Shape
from app.core.forms import _turned_drawings as round_about
from app.core.forms._page import XY, Page
from app.core.forms._ring import Kind, Ring, Stack, slanting
from app.core.forms._ring_sizes import told as woods_told
from app.core.forms._turned import trapezoid
from app.core.forms._turned_drawings import Around, Seen, rows
from app.core.length import Length
from app.core.shop import Shop

# More templates than this are a book: then only the lowest and the widest ring's.
MOST_TEMPLATES = 6
SHOWN_SEGMENTS = 7


def drawings(stack: Stack, shop: Shop) -> tuple[Drawing, ...]:
    """Every picture that the ring or the stack is made by."""
    found = [_plan(stack, shop), _front(stack, shop)]
    if stack.shaped or stack.bottom is not None:
        found.append(_section(stack, shop))
    found += [_segment(stack, stack.kinds[0], shop), _strip(stack, shop)]
    for kind in _templates(stack):
        found += _template(stack, kind, shop)
    if stack.bottom is not None:
        found += round_about.bottom_template(stack.bottom, shop)
    return tuple(found)


def _around(stack: Stack, ring: Ring) -> Around:
    both = stack.turning * 2
    return Around(
        ring.segments,
        ring.outside,
        ring.outer_edge,
        ring.inner_edge,
        ring.width,
        ring.outside - both,
        ring.inside + both,
    )


def _plan(stack: Stack, shop: Shop) -> Drawing:
    ring, page = stack.widest, Page(shop, 1)
    around = _around(stack, ring)
    seen = [
        Seen(_seen(stack, ring, i), wood, f"Segment {i + 1}, {wood}")
        for i, wood in enumerate(ring.woods)
    ]
    which = f"Ring {ring.number}, the widest: " if len(stack.rings) > 1 else ""
    flats, corners = page.show(ring.outside), page.show(ring.inside)
    outside, inside = (
        page.show(around.turned_outside),
        page.show(around.turned_inside),
    )
    over = "over its height, " if stack.shaped else ""
    told = [
        f"{which}{ring.segments} segments",
        f"glued: {round_about.on_flats(ring.segments)} {flats}",
        f"glued: inner corners {corners}",
        f"dashed: {over}turned outside {outside}",
        f"dashed: {over}turned inside {inside}",
    ]
    words = (
        f"{which}{ring.segments} segments from above, each "
        f"{page.show(ring.outer_edge)} along its outer edge; across the outer flats "
        f"{flats}, through the inner corners {corners}. Dashed inside them the turned "
        f"circles, {outside} and "
        f"{inside} across. Species round the ring: {woods_told(ring.woods)}."
    )
    return round_about.plan(around, seen, words, told, shop)


def _seen(stack: Stack, ring: Ring, place: int) -> tuple[XY, ...]:
    # A flat stands at the bottom of the page, whichever way the ring is turned.
    turn = 360 / ring.segments * place
    return trapezoid(ring.outer_edge, ring.inner_edge, ring.width, ring.outside, turn)


def _front(stack: Stack, shop: Shop) -> Drawing:
    """The glued blank, like bricks."""
    faces = [
        (left, right, ring.low.nm, ring.high.nm, ring.woods[i])
        for ring in stack.rings
        for i, left, right in round_about.flats(
            ring.segments, ring.outer_edge, stack.turn(ring)
        )
    ]
    if stack.bottom is not None:
        board = stack.bottom
        faces += [
            (left, right, 0, board.thickness.nm, board.species)
            for _, left, right in round_about.flats(8, board.side, 0)
        ]
    high = stack.rings[-1].high
    wide = 2 * max(right for _, right, *_ in faces)
    count = len(stack.rings)
    told = ["glued, before it is turned"]
    if count > 1:
        told.append("each ring turned by half a segment")
    words = (
        f"The glued blank from the front, {Page(shop, 1).show(high)} high: "
        f"{count} ring{'s' if count > 1 else ''} of {stack.segments} segments. From "
        "the bottom up: "
        + "; ".join(woods_told(ring.woods) for ring in stack.rings)
        + "."
    )
    return round_about.front(faces, high, wide, words, told, shop)


def _segment(stack: Stack, kind: Kind, shop: Shop) -> Drawing:
    ring, gauge = kind.first, stack.gauge
    which = f", {kind.name}" if len(stack.rings) > 1 else ""
    told = [
        f"each end leans {gauge} from square (dashed)",
        "thin: the turned circles",
        f"thickness {Page(shop, 1).show(ring.thickness)}, grain along the outer edge",
    ]
    page = Page(shop, 1)
    words = (
        f"One segment{which}: outer edge {page.show(ring.outer_edge)}, inner edge "
        f"{page.show(ring.inner_edge)}, {page.show(ring.width)} between them, both "
        f"ends {gauge} from square, {page.show(ring.thickness)} thick."
    )
    return round_about.piece(
        _around(stack, ring),
        ring.woods[0],
        "segment",
        f"One segment{which}",
        words,
        told,
        shop,
    )


def _templates(stack: Stack) -> tuple[Kind, ...]:
    if len(stack.kinds) <= MOST_TEMPLATES:
        return stack.kinds
    widest = stack.widest
    ends = [one for one in stack.kinds[1:] if one.first.like(widest)]
    return (stack.kinds[0], *ends[:1])


def _template(stack: Stack, kind: Kind, shop: Shop) -> list[Drawing]:
    ring, page = kind.first, Page(shop, 1)
    return round_about.true_size(
        _around(stack, ring),
        f"template-{kind.key}",
        f"Segment, {kind.name}, true size",
        ring.woods[0],
        (
            f"outer edge {page.show(ring.outer_edge)}",
            f"inner edge {page.show(ring.inner_edge)}",
            f"width {page.show(ring.width)}, ends {stack.gauge} from square",
        ),
    )


def _strip(stack: Stack, shop: Shop) -> Drawing:
    """Segments turned end for end along their strip, slanting kerfs between."""
    strips = stack.strips[0]
    ring, count = strips.kind.first, min(strips.each, SHOWN_SEGMENTS)
    whole = count == strips.each
    long = ring.strip(count, stack.kerf).nm
    page = Page(shop, long / 96)
    left, top, high = 10.0, 15.0, page.mm(ring.width.nm)
    cells = [_cell(stack, ring, i) for i in range(count)]
    shapes = [
        page.shape(
            [(left + page.mm(x), top + page.mm(y)) for x, y in cell],
            strips.species,
            f"Segment {i + 1}",
        )
        for i, cell in enumerate(cells)
    ]
    floor = top + high
    # In the middle, where its text has room; every other one has its outer edge below.
    start, end = (left + page.mm(x) for x, _ in cells[count // 4 * 2][:2])
    first = (start, floor), (end, floor)
    measures = [page.measure(*first, page.show(ring.outer_edge), -8)]
    lower = floor + 8
    if whole:
        ends = (left, top), (left + 96, top)
        measures.append(page.measure(*ends, page.show(strips.length), 8))
    told = [
        *_strip_told(stack, shop, whole),
        f"kerf {page.show(stack.kerf)}, cut at {stack.gauge} from square",
    ]
    labels, bottom = rows(page, lower + 12, told)
    return Drawing(
        key="strip",
        title="Segments along their strip",
        description=" ".join(f"{text}." for text in told),
        shapes=tuple(shapes),
        lines=()
        if whole
        else (
            page.line((left + 96, top), (left + 98, top)),
            page.line((left + 96, floor), (left + 98, floor)),
        ),
        measures=tuple(measures),
        labels=tuple(labels),
        width=page.width,
        height=page.offset(bottom),
    )


def _strip_told(stack: Stack, shop: Shop, whole: bool) -> list[str]:
    strips, page = stack.strips[0], Page(shop, 1)
    name = strips.kind.name
    of = f"{strips.each} segments, {strips.species}"
    if len(stack.rings) > 1:
        of += f", {name}"
    shown = "" if whole else f"; the first {SHOWN_SEGMENTS} shown"
    width = page.show(strips.kind.first.width)
    return [
        f"{of}{shown}",
        f"strip {page.show(strips.length)} before trim",
        f"strip {width} wide",
        "the strip is turned over after every cut",
    ]


def _cell(stack: Stack, ring: Ring, place: int) -> list[XY]:
    """A segment along its strip in nm: the strip's width is down the page."""
    outer, inner, width = ring.outer_edge.nm, ring.inner_edge.nm, ring.width.nm
    each = (outer + inner) / 2 + float(slanting(stack.kerf, ring.segments))
    middle = outer / 2 + each * place
    low, high = (outer, inner) if place % 2 == 0 else (inner, outer)
    return [
        (middle - low / 2, width),
        (middle + low / 2, width),
        (middle + high / 2, 0),
        (middle - high / 2, 0),
    ]


def _section(stack: Stack, shop: Shop) -> Drawing:
    """Cut through the middle: the turned profile inside what every ring holds."""
    top_nm, wide = stack.rings[-1].high.nm, max(r.outside.nm for r in stack.rings)
    if stack.bottom is not None:
        wide = max(wide, stack.bottom.across.nm)
    page = Page(shop, max(wide / 64, top_nm / 96))
    middle, top = 43.0, 13.0
    floor = top + page.mm(top_nm)
    profile = stack.profile
    foot, rim = profile.levels[0][1], profile.levels[-1][1]
    right = middle + page.mm(wide / 2)
    rise = floor - page.mm(profile.height.nm)
    measures = [
        _across(page, middle, floor, foot, -8),
        _across(page, middle, min(top, rise), rim, 6),
        page.measure((right, floor), (right, rise), page.show(profile.height), -8),
    ]
    told = [
        f"rings {page.show(stack.thickness)} thick, numbered from the bottom",
        f"wall {page.show(Length(profile.walls.nm // 2))}, turned",
        f"turning allowance {page.show(stack.turning)} on each radius",
        *_levels_told(stack, page),
        "segments, each ring: outer edge, and width of its strip",
        *_rings_told(stack, page),
    ]
    labels, bottom = rows(page, floor + 20, told)
    numbers = [
        _number(page, ring, middle - page.mm(wide / 2) - 3, floor)
        for ring in stack.rings
    ]
    return Drawing(
        key="section",
        title="The stack in section",
        description=_section_words(stack, page),
        shapes=tuple(_section_shapes(stack, page, middle, floor)),
        measures=tuple(measures),
        labels=(*numbers, *labels),
        width=page.width,
        height=page.offset(bottom),
    )


def _levels_told(stack: Stack, page: Page) -> list[str]:
    """Outside diameters at heights, from the top down as they are drawn."""
    if not stack.shaped:
        return []
    return [
        f"{f'at {page.show(at)} up' if at else 'at the bottom'}: "
        f"{page.show(wide)} outside"
        for at, wide in reversed(stack.profile.levels)
    ]


def _rings_told(stack: Stack, page: Page) -> list[str]:
    return [
        f"{ring.number}: {page.show(ring.outer_edge)}, {page.show(ring.width)}"
        for ring in reversed(stack.rings)
    ]


def _across(page: Page, middle: float, y: float, across: Length, off: float) -> Measure:
    half = page.mm(across.nm / 2)
    ends = (middle - half, y), (middle + half, y)
    return page.measure(*ends, page.show(across), off)


def _number(page: Page, ring: Ring, x: float, floor: float) -> Label:
    y = floor - page.mm((ring.low.nm + ring.high.nm) / 2) + 1.1
    return page.label(x, y, str(ring.number), quiet=True)


def _section_shapes(
    stack: Stack, page: Page, middle: float, floor: float
) -> list[Shape]:
    found = []
    for ring in stack.rings:
        out, within = page.mm(ring.outside.nm / 2), page.mm(ring.inside.nm / 2)
        y, high = floor - page.mm(ring.high.nm), page.mm(ring.thickness.nm)
        half = len(ring.woods) // 2
        for x, wood in ((middle - out, half), (middle + within, 0)):
            box = page.box(x, y, out - within, high)
            found.append(page.shape(box, ring.woods[wood], f"Ring {ring.number}"))
    if stack.bottom is not None:
        half_wide, thick = (
            page.mm(stack.bottom.across.nm / 2),
            page.mm(stack.bottom.thickness.nm),
        )
        box = page.box(middle - half_wide, floor - thick, 2 * half_wide, thick)
        found.append(page.shape(box, stack.bottom.species, "Bottom"))
    return [*found, *_profile(stack, page, middle, floor)]


def _profile(stack: Stack, page: Page, middle: float, floor: float) -> list[Shape]:
    """The turned wall on both sides, and the floor."""
    profile, walls = stack.profile, stack.profile.walls.nm
    outside = profile.cut(Length(0), profile.height)
    hollow = profile.cut(profile.floor, profile.height)

    def place(at: Length, across: float, side: int) -> XY:
        return middle + side * page.mm(across / 2), floor - page.mm(at.nm)

    outer = {s: [place(at, float(d), s) for at, d in outside] for s in (-1, 1)}
    inner = {s: [place(at, float(d) - walls, s) for at, d in hollow] for s in (-1, 1)}
    if stack.bottom is not None:
        round_all = [
            *outer[1],
            *reversed(inner[1]),
            *inner[-1],
            *reversed(outer[-1]),
        ]
        return [page.shape(round_all, title="Turned profile")]
    return [
        page.shape([*outer[s], *reversed(inner[s])], title="Turned profile")
        for s in (-1, 1)
    ]


def _section_words(stack: Stack, page: Page) -> str:
    levels = "; ".join(
        f"{page.show(wide)} at {page.show(at)}" for at, wide in stack.profile.levels
    )
    return (
        f"{len(stack.rings)} rings in section with the turned profile inside them, a "
        f"wall of {page.show(Length(stack.profile.walls.nm // 2))}. Outside diameters "
        f"up from the bottom: {levels}. Each ring is drawn from its inner corners to "
        "its outer flats."
    )
