"""An episode's design: choosing a form, trying inputs, keeping one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from sqlalchemy.orm import Session

from app.core import registry
from app.core.design import Design
from app.core.errors import StaleEdit, WorkshopError
from app.core.inputs import Input, listed, typed
from app.core.isometric import isometric
from app.core.shop import Shop, as_designed, design_facts
from app.core.shop import changed as shop_changed
from app.publish.sheet import Picture
from app.publish.svg import svg
from app.publish.wording import in_order
from app.services import settings
from app.services.design_view import DesignView, view
from app.store import designs as store
from app.store import steps
from app.store.edits import check_version, get
from app.store.schema import DesignRow, Episode
from app.store.workspace import Workspace

GONE = "There is no design here any more"


# Groups that few touch, by the input that opens each; the rest is always in sight.
FEW_TOUCH = frozenset(
    {
        *("lid", "bottom", "splines_per_corner", "dividers_across", "profile"),
        *("juice_groove", "loose_shelves", "sawn", "kerf", "finish", "widest_gap"),
    }
)


@dataclass(frozen=True, slots=True)
class FormView:
    """A form to choose and to fill in: its inputs in groups, ``one_of`` apart.

    ``start`` is what its fields hold at first.
    """

    key: str
    title: str
    summary: str
    groups: tuple[tuple[str, tuple[Input, ...]], ...]
    one_of: frozenset[str]
    start: dict[str, str]

    def few_touch(self, inputs: tuple[Input, ...]) -> bool:
        """Whether a group is one that few touch."""
        return inputs[0].key in FEW_TOUCH

    def folds(self, inputs: tuple[Input, ...], values: Mapping[str, str]) -> bool:
        """Whether a group may stay folded: few touch it, and nothing is filled in."""
        return self.few_touch(inputs) and all(
            values.get(item.key, "").strip() in ("", item.default, self.start[item.key])
            for item in inputs
        )


@dataclass(frozen=True, slots=True)
class Choice:
    """A form to choose, with a picture of what it opens on."""

    key: str
    title: str
    summary: str
    picture: Picture | None


def choices(shop: Shop) -> tuple[Choice, ...]:
    """Every form, for choosing."""
    return tuple(
        Choice(key, module.TITLE, module.SUMMARY, _example(key, shop))
        for key, module in registry.forms().items()
    )


# A glimpse is worked out in any shop: nobody's limits refuse it.
_PLAIN = Shop()


def _example(key: str, shop: Shop) -> Picture | None:
    """A form's example as it will stand, or its first drawing, without any sizes."""
    made = registry.work_out(key, registry.form(key).example(shop.unit), _PLAIN)
    pieces = made.assembly
    for one in (isometric(pieces, _PLAIN),) if pieces else made.drawings:
        bare = replace(one, labels=(), measures=())
        return Picture.of(bare, svg(bare))
    return None


def form(key: str, shop: Shop) -> FormView:
    """One form for filling in; ``start`` is what its fields hold at first."""
    module = registry.form(key)
    inputs = {
        item.key: _with_shops_own(item, shop)
        for item in listed(module.Inputs, shop.unit)
    }
    groups: dict[str, tuple[str, ...]] = getattr(module, "GROUPS", {})
    named = {name for keys in groups.values() for name in keys}
    rest = tuple(name for name in inputs if name not in named)
    if rest:
        groups = {**groups, "More" if groups else "Sizes": rest}
    one_of = getattr(module, "ONE_OF", {})
    start = {name: item.default for name, item in inputs.items()}
    return FormView(
        key,
        module.TITLE,
        module.SUMMARY,
        tuple((name, tuple(inputs[k] for k in keys)) for name, keys in groups.items()),
        frozenset(name for keys in one_of.values() for name in keys),
        start | (module.example(shop.unit) if hasattr(module, "example") else {}),
    )


def _with_shops_own(item: Input, shop: Shop) -> Input:
    """An input that is the shop's where it is left empty, with what that is."""
    if item.default or item.key not in ("kerf", "over_size"):
        return item
    if item.key == "kerf":
        own = typed(shop.kerf, shop.unit)
        return replace(item, help=f"Left empty: the shop’s, {own}.")
    over = (shop.over_length, shop.over_width, shop.over_thickness)
    long, wide, thick = (typed(one, shop.unit) for one in over)
    own = f"Left empty: the shop’s, {long} long, {wide} wide, {thick} thick. "
    return replace(item, help=own + item.help.partition(". ")[2])


def show(workspace: Workspace, episode_id: int, shop: Shop) -> DesignView | None:
    """The episode's stored design, worked out; None where there is none."""
    with workspace.read() as work:
        row = store.of_episode(work, episode_id)
        return None if row is None else _stored(row, shop)


def _stored(row: DesignRow, shop: Shop) -> DesignView:
    then = as_designed(shop, row.shop)
    try:
        return replace(
            attempt(row.form, row.inputs, then),
            version=row.version,
            changed=_changed(row, then, shop),
        )
    except WorkshopError as fault:
        title = getattr(registry.forms().get(row.form), "TITLE", row.form)
        return DesignView(
            row.version, row.form, title, dict(row.inputs), None, str(fault)
        )


def _changed(row: DesignRow, then: Shop, now: Shop) -> str:
    """What the shop's settings changed since, and whether it still works out."""
    words = shop_changed(then, now)
    if not words:
        return ""
    told = (
        f"The shop’s {in_order(list(words))} changed after this design was saved; it "
        "stands as it was."
    )
    try:
        registry.work_out(row.form, row.inputs, now)
    except WorkshopError as fault:
        return f"{told} It cannot be worked out with what they are now: {fault}"
    return told


def attempt(key: str, inputs: dict[str, str], shop: Shop) -> DesignView:
    """Work inputs out for reading; nothing is kept.

    Raises WorkshopError, naming the input, for what cannot be built.
    """
    design = registry.work_out(key, inputs, shop)
    return view(registry.form(key).TITLE, inputs, design, shop)


def within(work: Session, episode_id: int, *, both: bool = False) -> Design | None:
    """The episode's design, inside a transaction that is open already.

    None where there is none, or where it can no longer be worked out. ``both``: its
    texts in both systems, for viewers.
    """
    row = store.of_episode(work, episode_id)
    if row is None:
        return None
    then = as_designed(settings.within(work).shop, row.shop)
    if both:
        then = replace(then, display=replace(then.display, both=True))
    try:
        return registry.work_out(row.form, row.inputs, then)
    except WorkshopError:
        return None


def save(
    workspace: Workspace,
    episode_id: int,
    key: str,
    inputs: dict[str, str],
    version: int,
) -> None:
    """Keep a design with its parts, glue-ups, set-ups and steps.

    ``version`` is that of the design the inputs started from, 0 for none.
    Raises WorkshopError for what cannot be built, StaleEdit where the design
    was saved in between; either way nothing changes.
    """
    with workspace.write() as work:
        get(work, Episode, episode_id, "Episode")
        shop = settings.within(work).shop
        design = registry.work_out(key, inputs, shop)
        row = _row(work, episode_id, version, key)
        row.form, row.inputs = key, _kept(key, inputs, design)
        row.shop = design_facts(shop)
        store.fill(work, row, design)
        steps.sync(work, episode_id, design.steps)


def _row(work: Session, episode_id: int, version: int, key: str) -> DesignRow:
    row = store.of_episode(work, episode_id)
    if row is not None:
        check_version(row, version, "The design", {"form": row.form, **row.inputs})
        return row
    if version:
        raise StaleEdit(GONE, {"version": "0"})
    row = DesignRow(episode_id=episode_id, form=key, inputs={})
    work.add(row)
    return row


def _kept(key: str, inputs: dict[str, str], design: Design) -> dict[str, str]:
    """Inputs to store: those given, with their unit written out.

    A bare number is in the unit the shop has today; tomorrow it may have another.
    """
    settled = getattr(registry.form(key), "SETTLED", ())
    given = {name for name, text in inputs.items() if text.strip()} | set(settled)
    return {name: text for name, text in design.inputs.items() if name in given}
