"""A cutting plan laid out for its page."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from app.core.cutting import resawn
from app.core.cutting.care import minded
from app.core.cutting.diagram import diagrams, letters
from app.core.cutting.job import Blank, Stock
from app.core.cutting.key import key
from app.core.cutting.offcut_names import board_names, offcut_names
from app.core.cutting.order import numbered
from app.core.cutting.outcome import balance
from app.core.cutting.plan import Cut, Plan
from app.core.cutting.set_up_list import Prepared, SetUpGroup, by_set_up, prepared
from app.core.cutting.spans import spans
from app.core.length import Length
from app.core.safety import cautions, for_tool
from app.publish.svg import svg
from app.services import buying
from app.store.rack import Pile

TO_BUY = "to buy"


@dataclass(frozen=True, slots=True)
class CutListLine:
    """Equal blanks. ``letter`` stands for them where a drawing is small."""

    letter: str
    name: str
    quantity: int
    species: str
    length: Length
    width: Length | None
    thickness: Length | None
    may_turn: bool


@dataclass(frozen=True, slots=True)
class CareLine:
    """A caution of the plan, and the numbers of its cuts unless it is for all."""

    key: str
    text: str
    cuts: str = ""


@dataclass(frozen=True, slots=True)
class CutLine:
    """One cut: which way, at which setting, on a piece of which size.

    ``number`` is its place in the order of the whole plan.
    """

    number: int
    direction: str
    set_up: str
    of_length: Length
    of_width: Length
    new_set_up: bool


@dataclass(frozen=True, slots=True)
class LayoutView:
    """One layout with its drawing (SVG text) and its order of cuts."""

    number: int
    stock: str
    from_where: str
    copies: int
    drawing: str
    title: str
    cuts: tuple[CutLine, ...]


@dataclass(frozen=True, slots=True)
class LeftLine:
    """Equal leftovers: offcuts where ``keep``, else scrap.

    ``stock`` is an offcut's own name on the diagrams, or the board of scrap.
    """

    quantity: int
    stock: str
    length: Length
    width: Length
    keep: bool


@dataclass(frozen=True, slots=True)
class UnplacedLine:
    """Blanks without a place and the reason."""

    name: str
    quantity: int
    why: str


@dataclass(frozen=True, slots=True)
class BuyLine:
    """Boards to buy; ``cost`` of all of them, minor units."""

    quantity: int
    species: str
    length: Length
    width: Length | None
    thickness: Length | None
    cost: int


@dataclass(frozen=True, slots=True)
class WoodLine:
    """One heap of wood in the plan, nm³."""

    name: str
    volume: int


@dataclass(frozen=True, slots=True)
class PlanView:
    """Everything the page of a plan shows.

    ``stale`` is why it no longer holds, empty while it does. ``to_choose``: it draws
    on random-width boards, of which the real ones are still to be bought.
    ``set_ups`` are the cuts in the order of sawing, setting by setting; ``key`` is
    the drawing (SVG text) that tells how the diagrams are read.
    """

    id: int
    version: int
    made_at: datetime
    cut_on: date | None
    stale: str
    blanks: tuple[CutListLine, ...]
    layouts: tuple[LayoutView, ...]
    leftovers: tuple[LeftLine, ...]
    unplaced: tuple[UnplacedLine, ...]
    to_buy: tuple[BuyLine, ...]
    wood: tuple[WoodLine, ...]
    cautions: tuple[CareLine, ...]
    set_ups: tuple[SetUpGroup, ...] = ()
    prepared: tuple[Prepared, ...] = ()
    key: str = ""
    to_choose: bool = False

    @property
    def buy_cost(self) -> int:
        """What all boards to buy cost, minor units."""
        return sum(line.cost for line in self.to_buy)

    @property
    def can_be_bought(self) -> bool:
        """Whether buying the boards would make it a plan to cut."""
        return bool(self.to_buy) and not (self.cut_on or self.stale or self.unplaced)

    @property
    def can_be_cut(self) -> bool:
        """Whether nothing stands against marking it as cut."""
        done = self.cut_on or self.stale or self.unplaced or self.to_buy
        return bool(self.layouts) and not (done or self.to_choose)

    @property
    def can_be_cut_in_part(self) -> bool:
        """Whether single boards may be marked: some are here, and not all is clear."""
        here = [one for one in self.layouts if one.from_where != TO_BUY]
        one_of_many = len(self.layouts) > 1 or any(one.copies > 1 for one in here)
        return bool(here) and one_of_many and not (self.cut_on or self.stale)


def view(
    plan_id: int,
    version: int,
    made_at: datetime,
    cut_on: date | None,
    stale: str,
    plan: Plan,
    piles: Mapping[str, Pile],
) -> PlanView:
    """The page's facts of one plan; ``piles`` is what the rack holds now."""
    plan = numbered(plan)
    return PlanView(
        id=plan_id,
        version=version,
        made_at=made_at,
        cut_on=cut_on,
        stale=stale,
        blanks=_cut_list(plan.job.blanks),
        layouts=_layouts(plan, piles),
        leftovers=_leftovers(plan),
        unplaced=_unplaced(plan),
        to_buy=_buy(plan),
        wood=tuple(WoodLine(name, volume) for name, volume in balance(plan).items()),
        cautions=_cautions(plan),
        set_ups=by_set_up(plan),
        prepared=prepared(plan),
        key=svg(key(plan)) if plan.layouts else "",
        to_choose=bool(buying.random_lines(plan)),
    )


def _cut_list(blanks: tuple[Blank, ...]) -> tuple[CutListLine, ...]:
    return tuple(
        CutListLine(
            letters(number),
            one.name or one.id,
            one.quantity,
            one.species,
            one.length,
            one.width,
            one.thickness,
            one.may_turn,
        )
        for number, one in enumerate(blanks)
    )


def _layouts(plan: Plan, piles: Mapping[str, Pile]) -> tuple[LayoutView, ...]:
    stock = {one.id: one for one in plan.job.stock}
    drawn = zip(plan.layouts, board_names(plan), diagrams(plan), strict=True)
    return tuple(
        LayoutView(
            number,
            board,
            _from_where(stock[layout.stock], piles.get(layout.stock)),
            layout.copies,
            svg(drawing),
            drawing.title,
            _cuts(layout.cuts),
        )
        for number, (layout, board, drawing) in enumerate(drawn, 1)
    )


def _from_where(stock: Stock, pile: Pile | None) -> str:
    if stock.cost is not None:
        return TO_BUY
    origin = (
        f" left over from part {pile.episode_number}"
        if _has_origin(pile) and pile
        else ""
    )
    place = f", {pile.place}" if pile and pile.place else ""
    return ("offcut" if stock.offcut else "board") + origin + place


def _has_origin(pile: Pile | None) -> bool:
    return pile is not None and pile.episode_number is not None


def _cuts(cuts: tuple[Cut, ...]) -> tuple[CutLine, ...]:
    return tuple(
        CutLine(
            cut.number,
            cut.direction.value,
            cut.set_up,
            cut.of.length,
            cut.of.width,
            not at or cuts[at - 1].set_up != cut.set_up,
        )
        for at, cut in enumerate(cuts)
    )


def _leftovers(plan: Plan) -> tuple[LeftLine, ...]:
    """Offcuts by the names they have on the diagrams, then scrap by its board."""
    names = {one.id: one.name or one.id for one in plan.job.stock}
    found: Counter[tuple[bool, str, Length, Length]] = Counter()
    for layout, named in zip(plan.layouts, offcut_names(plan), strict=True):
        for one, name in zip(layout.leftovers, named, strict=True):
            label = name or names[layout.stock]
            found[one.keep, label, one.area.length, one.area.width] += layout.copies
    lines = [
        LeftLine(count, label, length, width, keep)
        for (keep, label, length, width), count in found.items()
    ]
    return tuple(sorted(lines, key=lambda line: (not line.keep, -line.length.nm)))


def _unplaced(plan: Plan) -> tuple[UnplacedLine, ...]:
    names = {one.id: one.name or one.id for one in plan.job.blanks}
    return tuple(
        UnplacedLine(names[one.blank], one.quantity, one.why) for one in plan.unplaced
    )


def _buy(plan: Plan) -> tuple[BuyLine, ...]:
    stock = {one.id: one for one in plan.job.stock}
    return tuple(
        BuyLine(
            count,
            stock[key].species,
            stock[key].length,
            stock[key].width,
            stock[key].thickness,
            (stock[key].cost or 0) * count,
        )
        for key, count in buying.pieces(plan).items()
    )


def _cautions(plan: Plan) -> tuple[CareLine, ...]:
    """First those of single cuts, which are the ones to act on."""
    cuts = [cut for layout in plan.layouts for cut in layout.cuts]
    ways = {cut.direction.value for cut in cuts}
    keys = [key for way in sorted(ways) for key in for_tool("table saw", way)]
    if resawn.told(plan):
        keys += for_tool("band saw", "resaw")
    which = {one.key: spans(one.cuts) for one in minded(plan)}
    return tuple(
        CareLine(one.key, one.text, which.get(one.key, ""))
        for one in cautions(dict.fromkeys([*which, *keys]))
    )
