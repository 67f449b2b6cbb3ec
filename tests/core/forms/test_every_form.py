"""Laws that every form keeps, on its whole grid of inputs."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from app.core import registry
from app.core.angle import Angle
from app.core.design import Design
from app.core.errors import WorkshopError
from app.core.length import Display, Length, Unit
from app.core.safety import cautions
from app.core.setup import SetUp
from app.core.shop import Shop
from app.services import sizing
from tests.core.forms.grids import Typed, each, forms, grid, made, refused
from tests.drawings import crowded

every_form = pytest.mark.parametrize("form", forms())
SHOP = Shop()
# The words for machines and hand tools that cautions and the bench know.
TOOLS = {
    *("table saw", "mitre gauge", "crosscut sled", "band saw", "jointer"),
    *("thickness planer", "router table", "router", "hand plane", "clamps"),
    *("drill press", "random orbital sander", "hand saw", "lathe", "chisel"),
    *("brush or cloth", "marking knife", "try square"),
}


def wrong(form: str, fault: str, typed: object) -> str:
    return f"{form}: {fault}: {typed}"


@every_form
def test_the_grid_holds_hundreds_of_different_builds(form: str) -> None:
    different = {json.dumps(typed, sort_keys=True) for typed in grid(form)}
    assert len(different) >= 200
    assert len(refused(form)) >= 5


@every_form
def test_inputs_in_another_order_give_the_same_build(form: str) -> None:
    for typed, design in each(form, 7):
        turned = dict(reversed(list(typed.items())))
        assert registry._work_out.__wrapped__(form, tuple(turned.items()), SHOP) == (
            replace(design)
        ), wrong(form, "differs", typed)


@every_form
def test_what_was_understood_gives_the_same_build_again(form: str) -> None:
    for typed, design in each(form, 11):
        one_of = {
            key for keys in getattr(registry.form(form), "ONE_OF", {}).values()
            for key in keys
        }  # fmt: skip
        again = {
            key: text
            for key, text in design.inputs.items()
            if key not in one_of or key in typed
        }
        assert made(form, again).parts == design.parts, wrong(form, "drifts", typed)


@every_form
def test_every_size_says_how_it_came_about(form: str) -> None:
    for typed, design in each(form):
        keys = [size.key for size in design.sizes]
        assert len(keys) == len(set(keys)), wrong(form, "a key twice", typed)
        for size in design.sizes:
            told = (size.formula, size.source, size.text())
            assert all(told), wrong(form, size.key, typed)


@every_form
def test_blanks_hold_their_parts_and_panels_theirs(form: str) -> None:
    for typed, design in each(form):
        panels = {one.key: one for one in design.glue_ups}
        taken = dict.fromkeys(panels, 0)
        for part in design.parts:
            blank, done = part.blank, part.finished
            assert blank.length >= done.length, wrong(form, part.key, typed)
            assert blank.width >= done.width, wrong(form, part.key, typed)
            assert blank.thickness >= done.thickness, wrong(form, part.key, typed)
            assert 0 < part.volume <= done.volume, wrong(form, part.key, typed)
            if part.glue_up:
                taken[part.glue_up] += part.quantity * part.volume
        for key, volume in taken.items():
            whole = panels[key].quantity * panels[key].panel.volume
            assert volume <= whole, wrong(form, f"{key} is too small", typed)


@every_form
def test_part_step_and_set_up_keys_are_each_used_once(form: str) -> None:
    for typed, design in each(form):
        for things in (design.parts, design.steps, design.set_ups, design.glue_ups):
            keys = [thing.key for thing in things]
            assert len(keys) == len(set(keys)), wrong(form, f"{keys}", typed)
        known = {one.key for one in design.set_ups}
        named = {step.set_up for step in design.steps if step.set_up}
        assert named == known, wrong(form, f"{named ^ known} stands alone", typed)


@every_form
def test_what_can_hurt_carries_cautions_that_exist(form: str) -> None:
    powered = {"table saw", "mitre gauge", "crosscut sled", "jointer", "lathe"}
    powered |= {"thickness planer", "router table", "router", "drill press", "band saw"}
    for typed, design in each(form):
        for thing in (*design.set_ups, *design.steps):
            found = cautions(thing.cautions)
            tool = getattr(thing, "machine", "") or getattr(thing, "tool", "")
            assert tool in TOOLS, wrong(form, f"{thing.key}: {tool}", typed)
            assert found or tool not in powered, wrong(form, thing.key, typed)


@every_form
def test_no_set_up_goes_beyond_its_machine(form: str) -> None:
    for typed, design in each(form):
        for one in design.set_ups:
            told = wrong(form, one.key, typed)
            assert one.tilt is None or one.tilt <= SHOP.most_tilt, told
            if one.gauge is not None and one.gauge > SHOP.most_gauge:
                assert one.machine == "crosscut sled", told
                assert "jig" in one.cuts, told
                assert str(Angle(90 - one.gauge.degrees)) in one.cuts, told
            # Fence and gauge together trap the piece between them.
            assert one.fence is None or one.gauge is None, told
            assert one.cuts.endswith("."), told
            assert one.check.endswith("."), told
            if one.machine in ("crosscut sled", "mitre gauge") and one.stop:
                assert one.stop <= SHOP.longest_crosscut, told


def _set_ups(form: str, typed: Typed, shop: Shop) -> tuple[SetUp, ...]:
    """The set-ups in a shop that may be too small; none where it is refused."""
    try:
        return made(form, typed, shop).set_ups
    except WorkshopError as error:
        if not error.input:
            raise
        return ()


@every_form
def test_a_narrower_machine_names_the_jig_or_refuses_in_a_sentence(form: str) -> None:
    small = Shop(
        most_tilt=Angle.of(20),
        most_gauge=Angle.of(15),
        longest_crosscut=Length(100_000_000),
        shortest_planed=Length(900_000_000),
        widest_planed=Length(60_000_000),
        narrowest_rip=Length(40_000_000),
    )
    for typed in grid(form)[::5]:
        for one in _set_ups(form, typed, small):
            told = wrong(form, one.key, typed)
            assert one.tilt is None or one.tilt <= small.most_tilt, told
            if one.gauge is not None and one.gauge > small.most_gauge:
                assert one.machine == "crosscut sled", told


@every_form
def test_what_cannot_be_built_is_refused_naming_input_and_what_would_work(
    form: str,
) -> None:
    for typed, key in refused(form):
        with pytest.raises(WorkshopError) as refusal:
            made(form, typed)
        error = refusal.value
        assert error.input == key, wrong(form, f"{error.input}: {error}", typed)
        assert str(error).endswith((".", "?")), wrong(form, str(error), typed)
        if error.nearest:
            mended = {**typed, key: error.nearest}
            try:
                made(form, mended)
            except WorkshopError as again:
                pytest.fail(wrong(form, f"{error.nearest} fails: {again}", typed))


@every_form
def test_most_refusals_name_a_value_that_works(form: str) -> None:
    named = 0
    for typed, _ in refused(form):
        with pytest.raises(WorkshopError) as refusal:
            made(form, typed)
        named += bool(refusal.value.nearest)
    assert named * 3 >= len(refused(form)) * 2


@every_form
def test_a_spare_is_in_the_blanks_and_not_in_the_build(form: str) -> None:
    for typed, plain in each(form, 17):
        spared = made(form, typed | {"spares": "2"})
        extra = [part for part in spared.parts if part.spare]
        if not extra and "spares" not in plain.inputs:
            continue
        assert extra, wrong(form, "no spare", typed)
        assert all(part.quantity == 2 for part in extra), wrong(form, "two", typed)
        kept = {part.key for part in spared.parts if not part.spare}
        assert kept == {part.key for part in plain.parts if not part.spare}
        standing = {piece.part for piece in spared.assembly}
        assert not standing & {part.key for part in extra}


@every_form
def test_the_document_of_a_build_can_be_read_by_any_program(form: str) -> None:
    for typed in grid(form)[::13]:
        document = sizing.size_document(form, typed, SHOP)
        assert json.loads(json.dumps(document))["form"] == form


def _display(design: Design) -> list[str]:
    return [str(size.text(Display(Unit.MILLIMETRE))) for size in design.sizes]


@every_form
def test_both_systems_show_every_size(form: str) -> None:
    for typed, design in each(form, 29):
        assert all(_display(design)), wrong(form, "an empty text", typed)


@every_form
@pytest.mark.parametrize(
    "display",
    [Display(), Display(Unit.MILLIMETRE), Display(both=True)],
    ids=["inches", "millimetres", "both"],
)
def test_a_drawing_can_be_read(form: str, display: Display) -> None:
    shop = Shop(unit=display.unit, display=display)
    for typed in grid(form)[::13]:
        for drawing in made(form, typed, shop).drawings:
            assert drawing.title, wrong(form, drawing.key, typed)
            assert drawing.description.endswith("."), wrong(form, drawing.key, typed)
            assert not crowded(drawing), wrong(form, f"{crowded(drawing)}", typed)


@every_form
def test_every_build_is_pictured_and_every_drawing_has_its_own_key(form: str) -> None:
    for typed, design in each(form, 13):
        keys = [drawing.key for drawing in design.drawings]
        assert keys[0] == "isometric", wrong(form, f"{keys}", typed)
        assert len(keys) == len(set(keys)), wrong(form, f"{keys}", typed)
