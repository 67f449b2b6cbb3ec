"""Any form's example on an invented series: its wood bought, cut and glued up."""

from __future__ import annotations

from app.core import registry
from app.core.inputs import typed
from app.core.length import Length, Unit, inches
from app.services import building, designs, plans, rack_work
from app.services.building import BuildingView
from app.services.rack_work import Clock
from app.store.plans import still_wanted
from app.store.schema import Episode, Series
from app.store.workspace import Workspace
from tests.conftest import NOON

CLOCK = Clock(NOON.date(), NOON)


def cut(workspace: Workspace, form: str, **more: str) -> int:
    """A series with one part of the form's example, its wood bought and cut."""
    with workspace.write() as work:
        series = Series(slug="porch", title="Porch pieces")
        series.episodes.append(Episode(number=1, slug="first", title="First"))
        work.add(series)
        work.flush()
        found = series.episodes[0].id
    chosen = registry.form(form).example(Unit.INCH) | more
    designs.save(workspace, found, form, chosen, 0)
    for board in boards(workspace, found):
        rack_work.buy(workspace, board, CLOCK)
    plans.make(workspace, "porch", 1, 0, "", "either", NOON)
    version = plans.show(workspace, found).version
    plans.mark_cut(workspace, "porch", 1, version, "2026-03-02", NOON)
    return found


def boards(workspace: Workspace, episode_id: int) -> list[dict[str, str]]:
    """Boards of every thickness and species wanted, wide enough and plenty."""
    with workspace.read() as work:
        wants = still_wanted(work, episode_id)
    widest: dict[tuple[str, str], Length] = {}
    for one in wants:
        of = one.species, typed(one.size.thickness, Unit.INCH)
        widest[of] = max(widest.get(of, inches("6")), one.size.width + inches("1"))
    return [
        {
            "species": species,
            "thickness": thickness,
            "width": typed(wide, Unit.INCH),
            "length": "96",
            "quantity": "3",
            "price": "30",
        }
        for (species, thickness), wide in widest.items()
    ]


def seen(workspace: Workspace, episode_id: int) -> BuildingView:
    view = building.show(workspace, episode_id)
    assert view is not None
    return view


def glue_up(workspace: Workspace, episode_id: int) -> None:
    """Every panel of the design from its strips."""
    for panel in seen(workspace, episode_id).panels:
        assert panel.possible == panel.wanted, panel.name
        quantity = {"quantity": str(panel.wanted)}
        building.glue_up(workspace, "porch", 1, panel.key, quantity, CLOCK)
