"""A design as a page reads it: sizes by what they are for, set-ups by machine."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise

from app.core import by_hand, safety
from app.core.design import Design
from app.core.length import Length, Unit
from app.core.length import show as length_shown
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.size import Group, Size
from app.core.table import Table
from app.publish.sheet import Picture
from app.publish.svg import svg
from app.services.group_gist import gist
from app.services.viewer_table import ViewerRow, as_text, viewer_rows

TITLES = {
    Group.BUILD: "Sizes",
    Group.SURE: "How sure the last joint is",
    Group.MOVES: "How the wood moves",
    Group.TAKES: "What it takes",
}


@dataclass(frozen=True, slots=True)
class SizeView:
    """A size with how a viewer elsewhere would read it."""

    size: Size
    other: str


@dataclass(frozen=True, slots=True)
class GroupView:
    """Sizes and tables that are read for one purpose.

    ``gist`` is what a folded group tells beside its title.
    """

    key: Group
    title: str
    gist: str
    sizes: tuple[SizeView, ...]
    tables: tuple[Table, ...]


@dataclass(frozen=True, slots=True)
class SetUpView:
    """A machine setting with its cautions in words.

    ``number`` is its place in the order of work.
    """

    number: int
    set_up: SetUp
    cautions: tuple[safety.Caution, ...]


@dataclass(frozen=True, slots=True)
class MachineView:
    """A machine's settings, and how the work goes without it.

    ``without`` is empty for what is a hand tool.
    """

    name: str
    set_ups: tuple[SetUpView, ...]
    without: str


@dataclass(frozen=True, slots=True)
class DesignView:
    """A design for reading: stored, or only tried (``version`` 0).

    A stored design stays as the shop was when it was kept, so that what was cut
    and published does not change with a new blade; ``changed`` says what is
    different now. ``design`` is None and ``trouble`` says why where the stored
    inputs cannot be worked out at all. ``templates`` are the drawings to print at
    full size, by key and title.
    """

    version: int
    form: str
    form_title: str
    inputs: dict[str, str]
    design: Design | None
    trouble: str = ""
    changed: str = ""
    groups: tuple[GroupView, ...] = ()
    machines: tuple[MachineView, ...] = ()
    pictures: tuple[Picture, ...] = ()
    templates: tuple[tuple[str, str], ...] = ()
    viewer: tuple[ViewerRow, ...] = ()

    @property
    def viewer_text(self) -> str:
        """The table for viewers, to paste."""
        return as_text(self.viewer)

    @property
    def order(self) -> tuple[tuple[str, SetUpView], ...]:
        """Every set-up with its machine, in the order of work."""
        found = [(each.name, one) for each in self.machines for one in each.set_ups]
        return tuple(sorted(found, key=lambda pair: pair[1].number))

    @property
    def goes_back(self) -> bool:
        """Whether the work comes back to a machine it has left."""
        runs = [name for name, _ in self.order]
        changes = sum(a != b for a, b in pairwise(runs))
        return changes + 1 > len(self.machines) > 0


def view(
    form_title: str, inputs: dict[str, str], design: Design, shop: Shop
) -> DesignView:
    """What was worked out, drawn and put in order; nothing is kept."""
    return DesignView(
        version=0,
        form=design.form,
        form_title=form_title,
        inputs=dict(inputs),
        design=design,
        groups=tuple(_groups(design, shop)),
        machines=_machines(design.set_ups),
        pictures=tuple(
            Picture.of(one, svg(one)) for one in design.drawings if not one.true_size
        ),
        templates=tuple(
            (one.key, one.title) for one in design.drawings if one.true_size
        ),
        viewer=viewer_rows(design, shop),
    )


def _groups(design: Design, shop: Shop) -> Iterable[GroupView]:
    for group, title in TITLES.items():
        sizes = tuple(
            SizeView(size, other(size, shop))
            for size in design.sizes
            if size.group is group
        )
        tables = tuple(one for one in design.tables if one.group is group)
        if sizes or tables:
            told = gist(group, design, shop)
            yield GroupView(group, title, told, sizes, tables)


def other(size: Size, shop: Shop) -> str:
    """A size in the system the shop does not use, for a viewer who does."""
    if shop.display.both:
        return ""
    metric = shop.display.unit is Unit.INCH
    unit = Unit.MILLIMETRE if metric else Unit.INCH
    if not isinstance(size.value, Length):
        there = size.text(replace(shop.display, unit=unit))
        return "" if there == size.text(shop.display) else there
    shown = length_shown(size.value, replace(shop.display, unit=unit, both=False))
    return f"about {shown.text}" if shown.note else shown.text


def _machines(set_ups: tuple[SetUp, ...]) -> tuple[MachineView, ...]:
    """Set-ups by machine, machines in the order they are first used."""
    found: dict[str, list[SetUpView]] = {}
    for number, one in enumerate(set_ups, 1):
        shown = SetUpView(number, one, safety.cautions(one.cautions))
        found.setdefault(one.machine, []).append(shown)
    return tuple(
        MachineView(machine, tuple(shown), by_hand.without(machine))
        for machine, shown in found.items()
    )
