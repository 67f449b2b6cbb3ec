"""Keeping a design: what is stored, and what a later change leaves alone."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.angle import Angle
from app.core.design import Design
from app.core.errors import NotFound, StaleEdit, WorkshopError
from app.core.length import Display, Length, Unit, inches
from app.core.shop import Shop
from app.services import designs, settings
from app.store import steps
from app.store.schema import (
    DesignRow,
    Episode,
    GlueUpRow,
    Note,
    PartRow,
    Series,
    SetUpRow,
    StepRow,
)
from app.store.workspace import Workspace

HEXAGON = {"outside_side": "4", "species": "walnut, maple"}
DAY = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


@pytest.fixture
def episode(workspace: Workspace) -> int:
    with workspace.write() as work:
        series = Series(slug="porch", title="Porch pieces")
        work.add(series)
        work.flush()
        row = Episode(series_id=series.id, number=1, slug="one", title="One")
        work.add(row)
        work.flush()
        return row.id


def save(workspace: Workspace, episode: int, version: int, **more: str) -> None:
    designs.save(workspace, episode, "straight_vessel", HEXAGON | more, version)


def test_what_a_design_comes_to_is_stored_to_the_nanometre(
    workspace: Workspace, episode: int
) -> None:
    save(workspace, episode, 0)
    shown = designs.show(workspace, episode, Shop())
    assert shown is not None
    assert shown.design is not None
    with workspace.read() as work:
        parts = list(work.scalars(select(PartRow).order_by(PartRow.position)))
        for row, part in zip(parts, shown.design.parts, strict=True):
            assert (row.key, row.quantity, row.volume) == (
                part.key,
                part.quantity,
                part.volume,
            )
            assert Length(row.blank_width_nm) == part.blank.width
        panel = work.scalars(select(GlueUpRow)).first()
        assert panel is not None
        width = sum(s["finished_width_nm"] * s["quantity"] for s in panel.strips)
        assert width == panel.width_nm
        bevel = work.scalar(select(SetUpRow).where(SetUpRow.key == "bevel"))
        assert bevel is not None
        assert bevel.tilt_microdegrees == 30_000_000


def test_a_refused_design_leaves_the_kept_one_alone(
    workspace: Workspace, episode: int
) -> None:
    save(workspace, episode, 0)
    with pytest.raises(WorkshopError):
        save(workspace, episode, 1, sides="17")
    shown = designs.show(workspace, episode, Shop())
    assert shown is not None
    assert shown.version == 1


def test_two_windows_that_both_make_the_first_design(
    workspace: Workspace, episode: int
) -> None:
    save(workspace, episode, 0)
    with pytest.raises(StaleEdit) as stale:
        save(workspace, episode, 0, sides="8")
    assert stale.value.stored["outside_side"] == "4 in"
    assert stale.value.stored["version"] == "1"


def test_no_episode_no_design(workspace: Workspace) -> None:
    with pytest.raises(NotFound):
        save(workspace, 99, 0)


def test_changing_the_shop_to_millimetres_changes_no_size(
    workspace: Workspace, episode: int
) -> None:
    save(workspace, episode, 0, wall="5/8", height="7 1/3")
    metric = Shop(unit=Unit.MILLIMETRE, display=Display(unit=Unit.MILLIMETRE))
    before = designs.show(workspace, episode, Shop())
    after = designs.show(workspace, episode, metric)
    assert before is not None
    assert after is not None
    assert before.design is not None
    assert after.design is not None
    assert after.design.parts[0].finished == before.design.parts[0].finished


def test_a_design_stands_as_the_shop_was_when_it_was_saved(
    workspace: Workspace, episode: int
) -> None:
    save(workspace, episode, 0, splines_per_corner="1")
    changed_settings(workspace, kerf="1/4", over_length="1", over_thickness="1/8")
    with workspace.read() as work:
        design = designs.within(work, episode)
        assert design is not None
        assert stored(work) == worked_out(design)
    view = designs.show(workspace, episode, settings.load(workspace).shop)
    assert view is not None
    assert view.changed == (
        "The shop’s kerf, allowance in length and allowance in thickness changed "
        "after this design was saved; it stands as it was."
    )


def test_saving_a_design_again_takes_the_new_settings(
    workspace: Workspace, episode: int
) -> None:
    save(workspace, episode, 0)
    before = panel_length(workspace)
    changed_settings(workspace, kerf="1/4")
    assert panel_length(workspace) == before
    save(workspace, episode, 1)
    # Six walls have five kerfs between them, each 1/8 in wider than it was.
    assert panel_length(workspace) - before == 5 * inches("1/8").nm
    view = designs.show(workspace, episode, settings.load(workspace).shop)
    assert view is not None
    assert view.changed == ""
    with workspace.read() as work:
        design = designs.within(work, episode)
        assert design is not None
        assert stored(work) == worked_out(design)


def test_a_kerf_typed_into_the_design_is_the_makers_own(
    workspace: Workspace, episode: int
) -> None:
    save(workspace, episode, 0, kerf="3/32")
    before = panel_length(workspace)
    changed_settings(workspace, kerf="1/4")
    save(workspace, episode, 1, kerf="3/32")
    assert panel_length(workspace) == before


def changed_settings(workspace: Workspace, **typed: str) -> None:
    now = settings.load(workspace)
    settings.save(workspace, settings.typed(now) | typed, now.version)


def panel_length(workspace: Workspace) -> int:
    with workspace.read() as work:
        panel = work.scalars(select(GlueUpRow)).first()
        assert panel is not None
        return panel.length_nm


Rough = dict[str, tuple[int, int, int]]


def stored(work: Session) -> Rough:
    """Rough sizes in the rows that planning reads."""
    parts = {
        row.key: (row.blank_length_nm, row.blank_width_nm, row.blank_thickness_nm)
        for row in work.scalars(select(PartRow))
    }
    panels = {
        row.key: (row.length_nm, row.width_nm, row.thickness_nm)
        for row in work.scalars(select(GlueUpRow))
    }
    return parts | panels


def worked_out(design: Design) -> Rough:
    """The same sizes in the design that is shown and published."""
    boxes = {part.key: part.blank for part in design.parts}
    boxes |= {one.key: one.panel for one in design.glue_ups}
    return {
        key: (box.length.nm, box.width.nm, box.thickness.nm)
        for key, box in boxes.items()
    }


def test_a_design_the_shop_can_no_longer_make_is_told_not_thrown(
    workspace: Workspace, episode: int
) -> None:
    save(workspace, episode, 0, sides="4")
    shown = designs.show(workspace, episode, Shop(most_tilt=Angle.of(20)))
    assert shown is not None
    assert shown.design is not None
    assert "limit of tilt changed" in shown.changed
    assert "More sides" in shown.changed


def test_a_design_kept_without_the_shop_goes_by_todays(
    workspace: Workspace, episode: int
) -> None:
    save(workspace, episode, 0, sides="4")
    with workspace.write() as work:
        row = work.scalars(select(DesignRow)).one()
        row.shop = {}
    shown = designs.show(workspace, episode, Shop(most_tilt=Angle.of(20)))
    assert shown is not None
    assert shown.design is None
    assert "More sides" in shown.trouble


def test_an_episode_without_a_design(workspace: Workspace, episode: int) -> None:
    assert designs.show(workspace, episode, Shop()) is None
    with workspace.read() as work:
        assert designs.within(work, episode) is None


def test_a_step_with_a_note_outlives_the_design_that_had_it(
    workspace: Workspace, episode: int
) -> None:
    save(workspace, episode, 0, splines_per_corner="1")
    with workspace.write() as work:
        slots = work.scalar(select(StepRow).where(StepRow.key == "spline-slots"))
        assert slots is not None
        work.add(Note(episode_id=episode, step_id=slots.id, noted_at=DAY, text="Done."))
    save(workspace, episode, 1)
    assert "spline-slots" in keys(workspace)
    assert "glue-splines" not in keys(workspace)


def test_the_makers_own_step_keeps_its_place(
    workspace: Workspace, episode: int
) -> None:
    save(workspace, episode, 0)
    with workspace.write() as work:
        rows = list(work.scalars(select(StepRow).order_by(StepRow.position)))
        at = [row.key for row in rows].index("bevel")
        for row in rows[at + 1 :]:
            row.position += 1
        work.add(
            StepRow(
                episode_id=episode,
                position=at + 1,
                key="own",
                name="Sweep up",
                tool="brush or cloth",
                from_form=False,
            )
        )
    save(workspace, episode, 1, sides="9", splines_per_corner="1")
    found = keys(workspace)
    assert found[found.index("own") - 1] == "bevel"


def test_syncing_the_same_steps_again_changes_nothing(
    workspace: Workspace, episode: int
) -> None:
    save(workspace, episode, 0)
    before = states(workspace)
    with workspace.write() as work:
        design = designs.within(work, episode)
        assert design is not None
        steps.sync(work, episode, design.steps)
    assert states(workspace) == before


def keys(workspace: Workspace) -> list[str]:
    with workspace.read() as work:
        return list(work.scalars(select(StepRow.key).order_by(StepRow.position)))


def states(workspace: Workspace) -> list[tuple[str, int, int]]:
    with workspace.read() as work:
        query = select(StepRow).order_by(StepRow.position)
        return [(row.key, row.version, row.position) for row in work.scalars(query)]
