"""The episode as one page that needs nothing else but its photos."""

from functools import cache

from jinja2 import Environment, StrictUndefined, Template
from markupsafe import Markup

from app.publish import typeset, wording
from app.publish.exporters import episode_jsonld
from app.publish.sheet import Picture, Sheet

TITLE = "Page"
FILE = "episode.html"


def render(sheet: Sheet) -> bytes:
    """Every text of the maker's is escaped; drawings are drawn by Stockthread."""
    facts = {
        "sheet": sheet,
        "words": wording,
        "drawn": _drawn,
        "texts": {line.key: line.text for line in sheet.cautions},
        "linked": Markup(episode_jsonld.render(sheet).decode()),  # noqa: S704  escaped there
    }
    return _template().render(facts).encode()


def _drawn(picture: Picture) -> Markup:
    return Markup(picture.svg)  # noqa: S704  made by app.publish.svg, texts escaped


@cache
def _template() -> Template:
    environment = Environment(
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    return environment.from_string(typeset.text("episode.html"))
