"""How the walls lie on their board, and how they lie for the tape."""

from __future__ import annotations

import math
from collections.abc import Iterable

from app.core.drawing import PAGE_MM, Drawing, Label, Shape
from app.core.forms._tapered import Tapered
from app.core.forms._tapered_page import XY, Sheet, face_rows, half_at
from app.core.forms._tapered_sizes import way_of_cutting
from app.core.length import Length
from app.core.pattern import Panel
from app.core.shop import Shop


def board(vessel: Tapered, shop: Shop) -> Drawing:
    """The walls along one panel or board, with the saw's kerfs and the trim."""
    panel = vessel.panels[0]
    walls = panel.each if vessel.glued else vessel.sides + vessel.spares
    over = vessel.allowed.of("wall").length
    whole = vessel.run(walls) + over
    sheet = Sheet(vessel, shop, max(whole.nm / 112, vessel.across.nm / 60))
    left, top = 4.0, 8.0
    floor = top + sheet.mm(vessel.across.nm)
    step = sheet.mm((vessel.pitch + vessel.along_kerf).nm)
    first = left + sheet.mm(vessel.face_long.nm) / 2
    middles = [first + step * i for i in range(walls)]
    trim = left + sheet.mm(vessel.run(walls).nm)
    lie = [_turned_over(vessel, panel, i) for i in range(walls)]
    shapes = [
        shape
        for i, x in enumerate(middles)
        for shape in _lying(sheet, panel, x, floor, lie[i])
    ]
    if over and trim < left + sheet.mm(whole.nm) - 1:
        box = sheet.box(trim, top, left + sheet.mm(whole.nm) - trim, floor - top)
        shapes.append(sheet.shape(box, title="Trim", scrap=True))
    ends = (left, floor), (trim, floor)
    rows = _board_rows(vessel, sheet, panel, walls)
    labels, end = sheet.rows(floor + 16, rows)
    return Drawing(
        key="board",
        title="The walls on their panel" if vessel.glued else "The walls on a board",
        description=" ".join(rows),
        shapes=tuple(shapes),
        measures=(sheet.measure(*ends, sheet.show(vessel.run(walls)), -7),),
        labels=(*_numbers(sheet, panel, middles, top - 2), *labels),
        width=sheet.width,
        height=sheet.offset(end),
    )


def _board_rows(vessel: Tapered, sheet: Sheet, panel: Panel, walls: int) -> list[str]:
    show = sheet.show
    named = f"Panel {panel.letter}: " if len(vessel.panels) > 1 else ""
    rows = [
        (
            f"{named}{walls} walls {way_of_cutting(vessel)}, "
            f"{show(vessel.across)} wide over all, a kerf of {show(vessel.kerf)} "
            "between."
        )
    ]
    if vessel.head_to_tail:
        rows.append("Rolled over for every cut: every second wall lies inside up.")
    elif vessel.gauge.degrees:
        rows.append("Outer faces up; the slanted ends are sawn when they are apart.")
    if panel.quantity > 1 and vessel.glued:
        rows.append(f"{panel.quantity} panels like this.")
    return rows


def _numbers(
    sheet: Sheet, panel: Panel, middles: list[float], y: float
) -> Iterable[Label]:
    """The walls' numbers in the order cut; a spare has none."""
    apart = middles[1] - middles[0] if len(middles) > 1 else PAGE_MM
    every = next((n for n in (1, 2, 5) if apart * n > 6), 10)
    for i in range(every - 1, min(len(middles), len(panel.sides)), every):
        yield sheet.label(middles[i], y, str(panel.sides[i] + 1), quiet=True)


def _turned_over(vessel: Tapered, panel: Panel, place: int) -> bool:
    """Whether a wall lies upside down: rolled over, or for its strips' sake."""
    if vessel.head_to_tail:
        return place % 2 == 1
    return place < len(panel.sides) and panel.sides[place] in panel.turned


def _lying(
    sheet: Sheet, panel: Panel, x: float, floor: float, down: bool
) -> Iterable[Shape]:
    """One wall as it is sawn."""
    vessel = sheet.vessel
    whole = float(vessel.across.nm)
    column = panel.column
    rise = 0.0
    for name, width in zip(column, vessel.row_widths, strict=True):
        low, high = rise, rise + width.nm
        rise = high
        points = []
        for up, sign in ((low, -1), (low, 1), (high, 1), (high, -1)):
            at = up * vessel.slant.nm / whole
            half = half_at(vessel, vessel.slant.nm - at if down else at)
            points.append((x + sign * sheet.mm(half), floor - sheet.mm(up)))
        yield sheet.thin(points, name, name)


def fan(vessel: Tapered, shop: Shop) -> Drawing:
    """The walls outside up, tip to tip, as the tape holds them before they close."""
    faces = [_placed(vessel, i) for i in range(vessel.sides)]
    points = [p for rows in faces for _, row in rows for p in row]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    first, last, low, high = min(xs), max(xs), min(ys), max(ys)
    sheet = Sheet(vessel, shop, max((last - first) / 108, (high - low) / 90))
    left, top = (PAGE_MM - sheet.mm(last - first)) / 2, 4.0

    def at(point: XY) -> XY:
        return left + sheet.mm(point[0] - first), top + sheet.mm(high - point[1])

    shapes = []
    for i, rows in enumerate(faces):
        shapes += [sheet.thin(map(at, row), name, name) for name, row in rows]
        outline = [rows[0][1][0], rows[0][1][1], rows[-1][1][2], rows[-1][1][3]]
        shapes.append(sheet.shape(map(at, outline), title=f"Wall {i + 1}"))
    end = top + sheet.mm(high - low)
    told = _fan_rows(vessel, sheet)
    labels, end = sheet.rows(end + 7, told)
    return Drawing(
        key="fan",
        title="The walls laid out for the tape",
        description=" ".join(told),
        shapes=tuple(shapes),
        labels=tuple(labels),
        width=sheet.width,
        height=sheet.offset(end),
    )


def _fan_rows(vessel: Tapered, sheet: Sheet) -> list[str]:
    lies = "in a fan" if vessel.gauge.degrees else "in a row"
    long = "upper" if vessel.out else "lower"
    return [
        (
            f"{vessel.sides} walls outside up, {lies}, wall 1 at the left, the {long} "
            "edges at the top; tape over every joint, turn over, glue, and roll closed."
        ),
        f"Corners {sheet.show(_corner(vessel))} long.",
    ]


def _corner(vessel: Tapered) -> Length:
    return Length.nearest(vessel.slant.nm / math.cos(vessel.gauge.radians))


def _placed(vessel: Tapered, wall: int) -> list[tuple[str, list[XY]]]:
    """A wall's rows where it lies in the fan, nm, y up; the longer edge on top."""
    column = vessel.pattern.column(wall)
    place = wall - (vessel.sides - 1) / 2
    found = []
    for name, (low, high) in zip(column, face_rows(vessel), strict=True):
        if high - low < 1:
            continue
        row = [
            (sign * half_at(vessel, up), up if vessel.out else -up)
            for up, sign in ((low, -1), (low, 1), (high, 1), (high, -1))
        ]
        found.append((name, [_turned(vessel, at, place) for at in row]))
    return found


def _turned(vessel: Tapered, at: XY, place: float) -> XY:
    """Round the point in which all corners would meet, below the fan."""
    if not vessel.gauge.degrees:
        return at[0] + place * vessel.face_long.nm, at[1]
    turn = 2 * vessel.gauge.radians * place
    short = min(vessel.face_bottom, vessel.face_top).nm
    # From that point up to the shorter edge; leaning in, that edge lies below too.
    below = short / 2 / math.tan(vessel.gauge.radians)
    low = 0.0 if vessel.out else -float(vessel.slant.nm)
    y = at[1] - low + below
    return (
        at[0] * math.cos(turn) + y * math.sin(turn),
        y * math.cos(turn) - at[0] * math.sin(turn),
    )
