"""An episode with steps, for the tests of the log and the film."""

from io import BytesIO

from PIL import Image

from app.store.schema import DesignRow, Episode, Series, SetUpRow, StepRow
from app.store.workspace import Workspace

SLUG = "planters"


def build(workspace: Workspace) -> list[int]:
    """Part 1 of a series with two steps from a design; gives the steps' ids."""
    with workspace.write() as work:
        series = Series(slug=SLUG, title="Planters")
        episode = Episode(series=series, number=1, slug="small", title="A small one")
        other = Episode(series=series, number=2, slug="tall", title="A tall one")
        work.add_all([series, episode, other])
        work.flush()
        design = DesignRow(episode_id=episode.id, form="straight_vessel", inputs={})
        design.set_ups = [
            SetUpRow(
                position=0,
                key="bevel",
                machine="table saw",
                cuts="both long edges of every wall",
                tilt_microdegrees=22_500_000,
                fence_nm=101_600_000,
                check="cut two scraps and close the joint on a square",
                cautions=["table-saw.kickback"],
            )
        ]
        steps = [
            StepRow(
                episode_id=episode.id,
                position=0,
                key="bevel",
                name="Bevel the walls",
                tool="table saw",
                set_up="bevel",
                bench_minutes=30,
                cautions=["table-saw.kickback"],
            ),
            StepRow(
                episode_id=episode.id,
                position=1,
                key="glue",
                name="Glue the ring",
                tool="clamps",
                waits=[{"until": "unclamp", "minutes": 45}],
                supplies=[{"name": "PVA glue", "quantity": "30 ml"}],
            ),
        ]
        work.add_all([design, *steps])
        work.flush()
        return [step.id for step in steps]


def jpeg(grey: int = 120, width: int = 60, height: int = 40, **kept: object) -> bytes:
    """A small photo; another ``grey`` is another photo."""
    out = BytesIO()
    Image.new("RGB", (width, height), (grey, grey, grey)).save(out, "JPEG", **kept)
    return out.getvalue()
