"""An invented series for a hallway: a bench, pegs and a tray out of one wood."""

from __future__ import annotations

from app.services import designs, episodes, series
from app.store.workspace import Workspace
from tests.services.yard import shop

HEAD = "part,quantity,thickness,width,length,species"
PARTS = (
    (
        "Bench for the hallway",
        (
            "seat,2,3/4,5 1/2,38,walnut\nleg,4,3/4,2 1/2,17,walnut\n"
            "rail,2,3/4,2 1/2,30,walnut"
        ),
    ),
    (
        "Rack of pegs",
        (
            "back,1,3/4,5 1/2,44,walnut\nshelf,1,3/4,4,44,walnut\n"
            "bracket,3,3/4,3 1/2,5,walnut"
        ),
    ),
    (
        "Tray for keys",
        "bottom,1,3/4,5 1/2,14,walnut\nside,2,3/4,2,14,walnut\nend,2,3/4,2,6,walnut",
    ),
)
SELLS = "walnut, 4/4, 6, 96, 48.00\nwalnut, 4/4, 8, 72, 52.00\nwalnut, 4/4, 6, 48, 27"


def entry(workspace: Workspace) -> str:
    """Three parts with a list of parts each, little time to plan; gives the slug."""
    shop(workspace, plan_seconds="1")
    slug = series.create(workspace, "For the hallway", "")
    for number, (title, parts) in enumerate(PARTS, 1):
        episodes.add(workspace, slug, title, "", "")
        episode = episodes.find(workspace, slug, number)
        designs.save(
            workspace, episode.id, "parts_list", {"file": f"{HEAD}\n{parts}"}, 0
        )
    return slug
