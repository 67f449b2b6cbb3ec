"""Boxes held against solids made from their parts' sizes and set-ups alone.

A general solid-geometry library saws every wall as the instructions say: its outline
extruded, ends bevelled by the tilt, rebates, grooves and dados cut out of it. Stood
together they must fill what plane geometry says, and none may reach into another.
"""

from __future__ import annotations

from collections.abc import Callable

import manifold3d
import pytest

from tests.core.forms.grids import each
from tests.outside.sawn_boxes import MM, Bench, Solid

# A micrometre in the millimetres that the library reckons in.
THIN = 1e-3


def ring_less_its_cuts(bench: Bench) -> float:
    """The walls together by plane geometry: a frame less grooves and dados, mm³."""
    long, wide = bench.long - 2 * bench.wall, bench.wide - 2 * bench.wall
    volume = (bench.long * bench.wide - long * wide) * bench.high
    deep = bench.deep
    frame = (long + 2 * deep) * (wide + 2 * deep) - long * wide
    grooves = grooves_of(bench)
    for low, high in grooves.values():
        volume -= frame * (high - low)
        volume -= beyond_the_frame(bench) * (high - low)
    if "lid" in grooves:
        volume -= open_end(bench, *grooves["lid"])
    return volume - dadoes(bench, grooves)


def grooves_of(bench: Bench) -> dict[str, tuple[float, float]]:
    found = {}
    if bench.inputs["base"] != "under":
        up = bench.asked("groove_up") if bench.inputs["base"] == "groove" else 0.0
        found["base"] = (up, up + bench.thick("base"))
    if bench.inputs["lid"] == "sliding":
        high = bench.high - bench.asked("lid_down")
        found["lid"] = (high - bench.thick("lid"), high)
    return found


def beyond_the_frame(bench: Bench) -> float:
    """Grooves run out at the ends of what sits in deeper corner rebates."""
    if bench.inputs["joint"] != "rebate":
        return 0.0
    return 4 * bench.deep * max(bench.size("rebate_depth") - bench.deep, 0.0)


def open_end(bench: Bench, low: float, high: float) -> float:
    """What the lid's way out takes from the right ends of both sides."""
    across = 2 * (bench.wall - bench.deep)
    if bench.inputs["joint"] == "finger":
        own = 0.0
        each_high = bench.high / bench.count
        for i in range(0, bench.count, 2):
            start, end = i * each_high, (i + 1) * each_high
            own += max(0.0, min(end, high) - max(start, low))
        return across * bench.deep * own
    if bench.inputs["joint"] == "rebate" and bench.inputs["rebate_on"] == "sides":
        reach = max(bench.deep - bench.size("rebate_depth"), 0.0)
        return across * reach * (high - low)
    return 0.0


def dadoes(bench: Bench, grooves: dict[str, tuple[float, float]]) -> float:
    if bench.inputs["dividers_held"] != "dados":
        return 0.0
    deep = bench.asked("dado_depth")
    shared = min(deep, bench.deep)
    total = 0.0
    for number in range(4):
        count = int(bench.inputs[f"dividers_{'along' if number % 2 else 'across'}"])
        high, met = bench.high, [b - a for a, b in grooves.values()]
        if number == 1 and "lid" in grooves:
            high, met = grooves["lid"][0], met[:-1]
        total += count * bench.divider * (deep * high - shared * sum(met))
    return total


def every_box(check: Callable[[Bench], None], step: int = 1) -> None:
    for typed, design in each("box", step):
        try:
            check(Bench(typed, design))
        except AssertionError as wrong:
            raise AssertionError(f"{wrong}: {typed}") from wrong


def room_for(solids: list[Solid]) -> float:
    return THIN * sum(solid.surface_area() for solid in solids)


def splines_out(bench: Bench) -> float:
    """Half a slot of plane geometry at each end of each wall, a whole at a corner."""
    if "spline_slot_depth" not in {size.key for size in bench.design.sizes}:
        return 0.0
    face = bench.size("spline_slot_depth") ** 2
    return 4 * int(bench.inputs["splines_per_corner"]) * face * bench.asked(
        "spline_thickness"
    )  # fmt: skip


def test_walls_cut_as_told_fill_the_frame_less_its_grooves_and_dados() -> None:
    def check(bench: Bench) -> None:
        walls = bench.walls()
        room = room_for(walls)
        alone = sum(wall.volume() for wall in walls)
        whole = Solid.batch_boolean(walls, manifold3d.OpType.Add).volume()
        assert abs(alone - whole) <= room, f"overlap of {alone - whole}"
        assert abs(whole - ring_less_its_cuts(bench)) <= room, (
            f"{whole - ring_less_its_cuts(bench)} off"
        )

    every_box(check)


def test_the_parts_say_the_volume_of_what_was_cut() -> None:
    def check(bench: Bench) -> None:
        said = sum(
            part.volume * part.quantity
            for key, part in bench.parts.items()
            if key.startswith(("side", "end", "lowered", "lid_strip"))
        )
        walls = bench.walls()
        cut = sum(wall.volume() for wall in walls) - splines_out(bench)
        assert abs(said / MM**3 - cut) <= room_for(walls), f"{said / MM**3} and {cut}"

    every_box(check)


def test_base_lid_and_dividers_stand_in_the_walls_without_touching_wood() -> None:
    def check(bench: Bench) -> None:
        pieces = [*bench.walls(), bench.bottom(), *bench.lid(), *bench.dividers()]
        alone = sum(piece.volume() for piece in pieces)
        whole = Solid.batch_boolean(pieces, manifold3d.OpType.Add).volume()
        assert abs(alone - whole) <= room_for(pieces), f"overlap of {alone - whole}"
        said = sum(
            part.volume * part.quantity
            for key, part in bench.parts.items()
            if key.startswith(("base", "lid", "batten", "divider"))
            and key != "lid_strip"
        )
        inner = [bench.bottom(), *bench.lid(), *bench.dividers()]
        made = sum(piece.volume() for piece in inner)
        assert abs(said / MM**3 - made) <= room_for(inner), f"{said / MM**3} {made}"

    every_box(check)


def test_a_sliding_lid_leaves_with_its_strip_and_meets_nothing_on_the_way() -> None:
    def check(bench: Bench) -> None:
        if bench.inputs["lid"] != "sliding":
            return
        front, lowered, strip, *others = bench.walls()
        moving = [strip, *bench.lid()]
        still = [front, lowered, *others, bench.bottom(), *bench.dividers()]
        fixed = Solid.batch_boolean(still, manifold3d.OpType.Add)
        for part in (0.01, 0.3, 0.98):
            for piece in moving:
                met = (piece.translate((bench.long * part, 0, 0)) ^ fixed).volume()
                assert met <= room_for([piece]), f"meets {met} at {part}"

    every_box(check, 2)


def test_a_wall_cut_a_tenth_too_deep_is_found() -> None:
    typed, design = each("box")[0]
    bench = Bench(typed, design)
    bench.deep += 0.1
    walls = bench.walls()
    whole = Solid.batch_boolean(walls, manifold3d.OpType.Add).volume()
    bench.deep -= 0.1
    with pytest.raises(AssertionError):
        assert abs(whole - ring_less_its_cuts(bench)) <= room_for(walls)
