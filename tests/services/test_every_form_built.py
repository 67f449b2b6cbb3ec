"""Every form's example from the rack to the built parts: the wood balances."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from app.core import registry
from app.core.movement import PieceKind
from app.services import building, files
from app.store import balance, rack
from app.store.workspace import Workspace
from tests.services.any_form import CLOCK, cut, glue_up, seen

FORMS = [form for form in registry.forms() if hasattr(registry.form(form), "example")]
WITH_SPARES = [
    form
    for form in FORMS
    if "spares" in registry.form(form).Inputs.__dataclass_fields__
]


@pytest.mark.parametrize("form", FORMS)
def test_the_example_is_cut_glued_up_and_built_and_the_wood_balances(
    workspace: Workspace, form: str
) -> None:
    episode_id = cut(workspace, form)
    glue_up(workspace, episode_id)
    assert seen(workspace, episode_id).missing == ()
    building.finish(workspace, "porch", 1, {}, CLOCK)
    view = seen(workspace, episode_id)
    assert view.built
    assert view.wood.exact
    assert view.wood.parts == sum(part.volume * part.quantity for part in view.parts)
    with workspace.read() as work:
        assert balance.verify(work) is None
        assert not [pile for pile in rack.on_hand(work) if pile.part_key]


@pytest.mark.parametrize("said", ["scrap", "keep"])
@pytest.mark.parametrize("form", WITH_SPARES)
def test_spares_are_no_part_of_what_is_built(
    workspace: Workspace, form: str, said: str
) -> None:
    """Their wood is scrap, or lies on the rack as offcuts that carry their cost."""
    episode_id = cut(workspace, form, spares="1")
    glue_up(workspace, episode_id)
    before = seen(workspace, episode_id)
    kept_before = kept(workspace)
    building.finish(workspace, "porch", 1, {"spares": said}, CLOCK)
    view = seen(workspace, episode_id)
    assert view.spares
    assert view.built
    assert view.wood.parts == sum(part.volume * part.quantity for part in view.parts)
    wood = sum(part.volume * part.quantity for part in view.spares)
    more = kept(workspace) - kept_before
    if said == "scrap":
        assert not more
        assert view.wood.scrap - before.wood.scrap >= wood
    else:
        assert more == Counter({part.name: part.quantity for part in view.spares})
    with workspace.read() as work:
        assert balance.verify(work) is None
        assert not [pile for pile in rack.on_hand(work) if pile.part_key]


def kept(workspace: Workspace) -> Counter[str]:
    """The offcuts on the rack by name."""
    found = Counter[str]()
    with workspace.read() as work:
        for pile in rack.on_hand(work):
            if pile.piece.kind == PieceKind.OFFCUT:
                found[pile.name] += pile.quantity
    return found


def test_a_build_that_kept_its_spares_is_taken_back_whole(
    workspace: Workspace, tmp_path: Path
) -> None:
    episode_id = cut(workspace, "segmented_ring", spares="2")
    glue_up(workspace, episode_id)
    with workspace.read() as work:
        before = rack.on_hand(work)
    building.finish(workspace, "porch", 1, {"spares": "keep"}, CLOCK)
    made = seen(workspace, episode_id).records[-1]
    first = files.export_series(workspace, "porch", tmp_path / "out")
    assert first.exists()
    building.undo(workspace, "porch", 1, made.id, "too soon", CLOCK)
    assert not seen(workspace, episode_id).built
    with workspace.read() as work:
        assert rack.on_hand(work) == before
        assert balance.verify(work) is None
