"""The set-ups of a box's base, lid and dividers; common practice, no source."""

from __future__ import annotations

from dataclasses import replace

from app.core.forms._bench import shop_text
from app.core.forms._box import Box, Dividers, Lid
from app.core.forms._box_work import Work, counted
from app.core.forms._set_ups import (
    CROSSCUT,
    SHEET_DOWN,
    SQUARE,
    crosscut,
    groove,
    rip,
)
from app.core.length import Length
from app.core.setup import SetUp
from app.core.shop import Shop


def dados_works(box: Box, dividers: Dividers, shop: Shop) -> list[Work]:
    found = []
    for key, number, held in (
        ("sides", 0, dividers.across),
        ("ends", 1, dividers.along),
    ):
        if not held.starts:
            continue
        own = (box.outer(number) - box.sawn_length(number)) / 2
        places = [box.wall + start - own for start in held.starts]
        listed = ", ".join(shop_text(place, shop) for place in places)
        wide = shop_text(dividers.thickness, shop)
        deep = shop_text(dividers.dado, shop)
        stop = places[0] if places[0] <= shop.longest_crosscut else None
        set_up = SetUp(
            key=f"dados-{key}",
            machine="crosscut sled",
            cuts=f"Dados across the inside of both {key}, {wide} wide and {deep} deep. "
            f"Their near sides stand {listed} from the piece's left end, on the other "
            "one from its right: cut each pair at one setting of the stop. A narrower "
            "blade takes more passes with the stop moved out.",
            tilt=SQUARE,
            gauge=SQUARE,
            stop=stop,
            face_down="inside face",
            check=f"A divider slides into the dado in scrap by hand; the {key}, laid "
            "edge to edge, show dados that meet.",
            cautions=("table-saw.guard-off", *CROSSCUT[:2]),
        )
        found.append(Work(set_up, f"Cut the dados in the {key}", 15 + 3 * len(places)))
    return found


def _board(
    key: str, name: str, long: Length, wide: Length, shop: Shop, detail: str = ""
) -> list[Work]:
    """One flat piece: ripped to width, then cut to length."""
    size, across = shop_text(long, shop), shop_text(wide, shop)
    return [
        Work(
            rip(f"rip-{key}", f"Rip the {name} to {across}.", wide, shop),
            f"Rip the {name} to {across}",
            5,
            detail,
        ),
        Work(
            crosscut(
                f"cut-{key}",
                f"Square one end of the {name}, then cut it {size} long.",
                long,
                shop,
                face_down="the face that shows",
                check="Both diagonals are the same.",
            ),
            f"Cut the {name} to {size}",
            5,
        ),
    ]


def base_works(box: Box, shop: Shop) -> list[Work]:
    size = box.base_size
    detail = "Measure the dry fit first and cut to it, not to the drawing."
    found = _board("base", "base", size.length, size.width, shop, detail)
    return [_of_a_sheet(one) for one in found] if box.plywood else found


def _of_a_sheet(work: Work) -> Work:
    """A sheet is neither planed nor jointed, and its lower face splinters."""
    made = work.set_up
    down = SHEET_DOWN if made.fence else "the face that shows less"
    return replace(work, set_up=replace(made, face_down=down))


def lid_works(box: Box, lid: Lid, shop: Shop) -> list[Work]:
    found = _board("lid", "lid", lid.size.length, lid.size.width, shop)
    if lid.kind == "rebated":
        rebate = groove(
            "lid-rebate",
            "Rebate",
            "all four edges of the lid's underside, the ends first",
            Length(0),
            box.wall + lid.room,
            lid.lip,
            box.kerf,
            shop,
            face="underside",
            edge="edge",
        )
        plug = " × ".join(shop_text(one, shop) for one in lid.plug)
        rebate = replace(rebate, check=f"What is left in the middle is {plug}.")
        detail = "The edges along the grain last: they clean up what the ends split."
        found.append(Work(rebate, "Rebate the lid all round", 25, detail))
    if lid.kind == "battened":
        batten = lid.batten
        found += _board(
            "battens", "battens, two of them,", batten.length, batten.width, shop
        )
    return found


def dividers_works(box: Box, dividers: Dividers, shop: Shop) -> list[Work]:
    high = shop_text(dividers.height, shop)
    cuts = f"Rip the divider stock to {high}."
    found = [
        Work(
            rip("rip-dividers", cuts, dividers.height, shop),
            f"Rip the dividers to {high}",
            5,
            "Plane the stock until it slides into the test slot first.",
        )
    ]
    for key, held in (("across", dividers.across), ("along", dividers.along)):
        if held.starts:
            size = shop_text(held.length, shop)
            count = len(held.starts)
            found.append(
                Work(
                    crosscut(
                        f"cut-dividers-{key}",
                        f"Square one end, then cut {counted(count, 'divider')} {size} "
                        "long.",
                        held.length,
                        shop,
                        face_down="either face",
                        check="It goes between its walls by hand, and does not rattle.",
                    ),
                    f"Cut {counted(count, 'divider')} {key} to {size}",
                    5 + count,
                )
            )
    if dividers.crossing:
        found += [
            _slots(box, dividers, "across", shop),
            _slots(box, dividers, "along", shop),
        ]
    return found


def slot_places(box: Box, dividers: Dividers, way: str) -> list[Length]:
    """From a divider's end to the near side of each of its slots."""
    held, other, room = dividers.across, dividers.along, box.inside_width
    if way == "along":
        held, other, room = other, held, box.inside_length
    own = (held.length - room) / 2
    return [own + start - dividers.room / 2 for start in other.starts]


def _slots(box: Box, dividers: Dividers, way: str, shop: Shop) -> Work:
    places = slot_places(box, dividers, way)
    listed = ", ".join(shop_text(place, shop) for place in places)
    deep = dividers.slot_down if way == "across" else dividers.slot_up
    edge = "upper" if way == "across" else "lower"
    stop = places[0] if places[0] <= shop.longest_crosscut else None
    set_up = SetUp(
        key=f"slots-{way}",
        machine="crosscut sled",
        cuts=f"Half-lap slots in the {edge} edge of the dividers {way}, "
        f"{shop_text(dividers.slot, shop)} wide and {shop_text(deep, shop)} deep, all "
        f"of them clamped together on edge. The slots' near sides stand {listed} from "
        "the end.",
        tilt=SQUARE,
        gauge=SQUARE,
        stop=stop,
        face_down=f"{edge} edge, the dividers upright against the sled's fence",
        check="Two scraps slotted so slide into each other by hand, edges flush.",
        cautions=("table-saw.guard-off", *CROSSCUT),
    )
    return Work(
        set_up,
        f"Cut the slots in the dividers {way}",
        10 + 3 * len(places),
        "Without the machine: saw both cheeks by hand and chop out between.",
    )
