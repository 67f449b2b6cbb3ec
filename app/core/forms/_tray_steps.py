"""The tray's steps in bench order.

Times at the bench, the order and the know-how are common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

from app.core.forms import _bench as bench
from app.core.forms._bench import shop_text
from app.core.forms._spline_steps import spline_steps
from app.core.forms._tray import Tray
from app.core.forms._tray_inputs import Inputs
from app.core.forms._tray_parts import PANEL, panel_blank
from app.core.part import Dimensions
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.step import Step, Supply

KEY = PANEL.replace("_", "-")


def steps(
    tray: Tray, inputs: Inputs, set_ups: tuple[SetUp, ...], shop: Shop
) -> tuple[Step, ...]:
    """Every operation, from rough boards to the last coat."""
    known = {one.key: one for one in set_ups}
    found = [
        *_moulding(tray, shop),
        *_mitres(tray, known, shop),
        *_panel(tray, known, shop),
        *_together(tray, inputs),
        *(spline_steps(tray.splines, shop) if tray.splines else []),
        bench.sand(
            "sand-outside",
            "Sand the outside and ease the edges",
            10 + 3 * tray.sides,
            "Keep the corners crisp. Across a joint, stop short of it from both sides.",
        ),
        *bench.finishing(inputs, "the outside", 10 + tray.sides),
        # Glass goes in last: neither sander nor finish touches it.
        *(_fix_panel(tray) if tray.material == "glass" else []),
    ]
    return tuple(_with_set_up(step, known) for step in found)


def _with_set_up(step: Step, known: dict[str, SetUp]) -> Step:
    """A step carries the machine and the cautions of its set-up to the bench."""
    if step.set_up not in known:
        return replace(step, set_up="")
    keys = (*step.cautions, *known[step.set_up].cautions)
    return replace(
        step, tool=known[step.set_up].machine, cautions=tuple(dict.fromkeys(keys))
    )


def _moulding(tray: Tray, shop: Shop) -> list[Step]:
    wide, thick = (op(tray.rail_width, tray.rail_height) for op in (max, min))
    size = Dimensions(tray.moulding, wide, thick)
    over = tray.allowances.of("long_rail" if tray.oblong else "rail").thickness
    rough = shop_text(thick + over, shop)
    section = f"{shop_text(wide, shop)} by {shop_text(thick, shop)}"
    found = [
        bench.joint_stock(
            15,
            "Straight stock only: a rail that bows opens its mitres. Without a "
            "jointer, buy it surfaced, or plane one face and one edge by hand.",
        ),
        bench.plane_stock(
            10, f"Leave it at {rough}, over size by {shop_text(over, shop)}."
        ),
        Step(
            key="rip-rails",
            name="Rip the moulding stock",
            tool="table saw",
            detail=f"Then joint the sawn edge; the moulding is {section} when it is "
            "planed. Make a hand's length more for test cuts.",
            set_up="rip-rails",
            bench_minutes=15,
        ),
        bench.planed("plane-rails", "moulding", size, shop),
    ]
    if tray.has_panel:
        found.append(_groove(tray))
    return found


def _groove(tray: Tray) -> Step:
    fit = {
        "solid wood": "Keep an offcut with it: the panel is planed to that.",
        "glass": "Ask the dealer how thick his glass is, and leave it a hair.",
    }.get(
        tray.material,
        "Try the panel itself, not a rule: sheets are thinner than their name.",
    )
    plane = "plough" if tray.housing == "groove" else "rebate"
    return Step(
        key="groove",
        name=f"Cut the {tray.housing} for the panel",
        tool="table saw",
        detail="In the whole length, while there is enough to hold. Mark the outer "
        f"face: from here on it always lies on the gauge's fence. {fit} By hand: a "
        f"{plane} plane.",
        set_up="groove",
        bench_minutes=20,
    )


def _mitres(tray: Tray, known: dict[str, SetUp], shop: Shop) -> list[Step]:
    over = shop_text(tray.allowances.of("rail").length, shop)
    pairs = (
        "Opposite rails from one moulding, and in the order they come off it, so that "
        "the grain runs on round the corners. "
        if tray.four
        else "In the order they come off the moulding, so that the grain runs on round "
        "the corners. "
    )
    found = [
        Step(
            key="rough-cut",
            name="Cut the mouldings to rough lengths",
            tool="hand saw",
            detail=f"{pairs}Each about {over} longer than its rail, as the table of "
            "the mouldings lays them out. Number them.",
            bench_minutes=5 + 2 * tray.sides,
            cautions=("hand-saw.start-slip", "hand-saw.work-slips"),
        )
    ]
    found += [_mitre(tray, made) for key, made in known.items() if key[:6] == "mitre-"]
    return [*found, _dry_fit(tray, shop)]


def _mitre(tray: Tray, made: SetUp) -> Step:
    what = made.key.removeprefix("mitre-").replace("-", " ")
    if what == "first ends":
        name = f"Mitre the first end of every rail at {tray.gauge}"
        detail = "On scrap first: close the scraps before any rail is cut."
    else:
        name = f"Mitre the {what} to length"
        equal = "equal lengths matter more than the right length"
        detail = (
            f"One stick for all of them: {equal}. Trim them on a shooting board at the "
            "same angle until the points meet."
            if made.machine == "hand saw"
            else f"One stop for all of them: {equal}. Without a saw for it: a mitre "
            "box, and a shooting board at the same angle until the points meet."
        )
        if what == "long rails":
            detail += " The long ones first: a spoiled one still makes a short one."
    minutes = 10 + 3 * tray.sides
    return Step(made.key, name, "mitre gauge", detail, made.key, bench_minutes=minutes)


def _dry_fit(tray: Tray, shop: Shop) -> Step:
    proof = (
        f"Measure both diagonals outside: equal, {shop_text(tray.diagonal, shop)}."
        if tray.four
        else "Compare the distances across, from every side: they are equal."
    )
    return Step(
        key="dry-fit",
        name="Close the rails dry",
        tool="clamps",
        detail=f"A strap round all of them on a flat table. {proof} Shave the mitre "
        "that gapes on a shooting board, its opposite by as much.",
        bench_minutes=15,
        cautions=("clamps.strap-under-load",),
    )


def _panel(tray: Tray, known: dict[str, SetUp], shop: Shop) -> list[Step]:
    if not tray.has_panel:
        return []
    if tray.material == "glass":
        return [_glass(tray, shop)]
    found = []
    long, wide = (shop_text(one, shop) for one in tray.panel_size)
    size = replace(panel_blank(tray), thickness=tray.panel_thickness)
    if tray.strips > 1:
        order = "Heart side up and down in turn, the grain running one way."
        found += bench.glued_panel(KEY, "tray panel", tray.strips, order, shop, size)
    elif tray.solid_panel:
        found.append(bench.planed("plane-panel", "panel", size, shop))
    keys = [key for key in ("rip-panel", "cut-panel") if key in known]
    names = {
        "rip-panel": f"Rip the panel {wide} wide",
        "cut-panel": f"Cut the panel {long} long"
        if tray.four
        else f"Cut the panel to {tray.sides} sides",
    }
    details = {
        "rip-panel": "Measure the dry fit first and cut to it, not to the drawing.",
        "cut-panel": "Try it in its place dry: it must not hold a mitre open.",
    }
    found += [
        Step(key, names[key], "table saw", details[key], key, bench_minutes=10)
        for key in keys
    ]
    return found


def _glass(tray: Tray, shop: Shop) -> Step:
    long, wide = (shop_text(one, shop) for one in tray.panel_size)
    return Step(
        key="order-glass",
        name="Have the glass cut",
        tool="try square",
        detail=f"By the dealer, edges ground: {long} by {wide}, to the dry fit. A card "
        "template of the opening says more than two numbers.",
        bench_minutes=15,
        cautions=("glass.cut-edges",),
        supplies=(Supply("glass, cut to size"),),
    )


def _together(tray: Tray, inputs: Inputs) -> list[Step]:
    wood_panel = tray.has_panel and tray.material != "glass"
    inside = "the inner faces and the panel" if wood_panel else "the inner faces"
    edges = "Finish a solid panel to its very edge: what shrinks out is not bare. "
    return [
        bench.sand(
            "sand-inside", f"Sand {inside}", 10 + 2 * tray.sides, "Not the mitres."
        ),
        *bench.finishing(
            inputs,
            inside,
            10 + tray.sides,
            inside=True,
            first=(edges if tray.solid_panel else "")
            + f"Tape the mitres{_bare(tray)}: glue does not hold on finish.",
        ),
        _assemble(tray),
        *(_fix_panel(tray) if tray.material != "glass" else []),
    ]


def _bare(tray: Tray) -> str:
    """Where else glue goes after the finish."""
    glued = tray.housing == "rebate" and tray.material in ("plywood", "mdf")
    return ", the rebate and the panel's rim" if glued else ""


def _assemble(tray: Tray) -> Step:
    housed = tray.housing == "groove"
    loose = {
        True: "No glue in the groove: the panel must stay free to move. ",
        False: "A spot of glue in the groove is enough. ",
    }[tray.solid_panel or tray.material == "glass"]
    proof = (
        "measure both diagonals and press along the longer one until they are equal"
        if tray.four
        else "compare the distances across and press where one is longer"
    )
    return Step(
        key="assemble",
        name="Glue the rails together" + (" round the panel" if housed else ""),
        tool="clamps",
        detail="Brush thin glue on every mitre, wait until the end grain has drunk it, "
        "then glue again. "
        + (f"Slide the panel in before the last rails. {loose}" if housed else "")
        + f"Tighten the strap little by little; {proof}. On a flat table, paper under "
        "every corner.",
        bench_minutes=20 + 2 * tray.sides,
        waits=(bench.UNCLAMP, bench.BEFORE_PLANING),
        cautions=(*bench.GLUE_CAUTIONS, "clamps.strap-under-load"),
        supplies=(bench.GLUE, bench.TAPE),
    )


def _fixing_cautions(material: str) -> tuple[str, ...]:
    if material in ("plywood", "mdf"):
        return bench.GLUE_CAUTIONS
    return ("glass.cut-edges",) if material == "glass" else ()


def _fix_panel(tray: Tray) -> list[Step]:
    if tray.housing != "rebate":
        return []
    how = {
        "solid wood": "With turn buttons or screws in slots across the grain, so that "
        "it can move; no glue.",
        "glass": "With glazier's points or a thin bead, when the last coat is hard.",
    }.get(tray.material, "Glue it to the shoulder of the rebate all round.")
    glued = tray.material in ("plywood", "mdf")
    return [
        Step(
            key="fix-panel",
            name="Fix the panel in its rebate",
            tool="clamps",
            detail=how,
            bench_minutes=15,
            waits=(bench.UNCLAMP,) if glued else (),
            cautions=_fixing_cautions(tray.material),
            supplies=(bench.GLUE,)
            if glued
            else (Supply("small screws or points", f"about {2 * tray.sides}"),),
        )
    ]
