"""Questions to a plan, answered in words from numbers; nothing of it is kept."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from time import monotonic

from app.core.cutting import proof, questions
from app.core.cutting.alternatives import solve
from app.core.cutting.job import Job
from app.core.cutting.plan import Plan
from app.core.cutting.questions import Other, Sums
from app.core.cutting.totals import extent, offcut_worth, size
from app.core.cutting.written import read_plan
from app.core.errors import NotFound, WorkshopError
from app.core.length import Length
from app.core.money import Money
from app.core.shop import Shop
from app.services import episodes, settings
from app.services.plan_proof import face
from app.store import plans as store
from app.store.workspace import Workspace

# An answer comes at once: so much work, and never more seconds than this.
QUICK_WORK = 400_000
QUICK_SECONDS = 2.0
ONE_BOARD = 40_000
MOST_TOLD = 3  # boards that would also have done, the nearest in size
UNFIT = {
    "small": "too short or too narrow for one of them",
    "kind": "of another wood or thickness",
}


@dataclass(frozen=True, slots=True)
class Answer:
    """A question as a heading, and what is to be said to it."""

    question: str
    lines: tuple[str, ...]


def why(workspace: Workspace, slug: str, number: int, at: int) -> Answer:
    """Why the layout at place ``at`` (from 0) is cut from its board.

    Raises WorkshopError where the plan has no such layout.
    """
    plan, shop = _plan(workspace, slug, number)
    layout = questions.layout_at(plan, at)
    own = next(one for one in plan.job.stock if one.id == layout.stock)
    alone = questions.others(plan, at, partial(_quick, work=ONE_BOARD))
    blanks = sum(extent(piece.area) for piece in layout.pieces)
    left = offcut_worth(_only(plan, at)) // layout.copies
    much = len(layout.pieces)
    share = round(100 * blanks / size(own))
    takes = f"{much} blanks take" if much > 1 else "1 blank takes"
    words = [f"{takes} {share} % of its face. {_worth(left, shop)}"]
    pins = [pin for pin in plan.job.pins if pin.stock == layout.stock]
    words += ["You wished blanks to come out of it."] if pins else []
    fit = [one for one in alone if not one.why]
    words += [_instead(one, own.cost or 0, left, shop) for one in fit[:MOST_TOLD]]
    if more := len(fit[MOST_TOLD:]):
        also = "1 board more" if more == 1 else f"{more} boards more"
        words.append(f"So would {also}.")
    if not fit:
        words.append("No other board takes these blanks together.")
    return Answer(f"Why {own.name or own.id}", (*words, *_unfit(alone)))


def without_offcuts(workspace: Workspace, slug: str, number: int) -> Answer:
    """What would have to be bought if no offcut lay on the rack."""
    plan, shop = _plan(workspace, slug, number)
    job = questions.without_offcuts(plan.job)
    question = "Without the offcuts"
    if job == plan.job:
        return Answer(question, ("There is no offcut on the rack for this job.",))
    return Answer(question, _difference(plan, _quick(job), shop))


def what_if(
    workspace: Workspace, slug: str, number: int, typed: Mapping[str, str]
) -> Answer:
    """What would be otherwise with one thing changed; ``typed`` says which.

    Raises WorkshopError naming the field where that cannot be understood.
    """
    plan, shop = _plan(workspace, slug, number)
    kind, _, what = typed.get("change", "").partition(":")
    changes = {
        "part": questions.one_more,
        "without": questions.without,
        "board": questions.one_more_board,
    }
    if kind == "kerf":
        kerf = Length.read(typed.get("kerf", ""), shop.unit, input="kerf")
        if not kerf:
            raise WorkshopError(
                "A kerf is wider than nothing. Type it like 3/32 or 2.4 mm.",
                input="kerf",
            )
        job = questions.other_kerf(plan.job, kerf)
    elif kind in changes:
        job = changes[kind](plan.job, what)
    else:
        raise WorkshopError("Choose what to change from the list.", input="change")
    after = _quick(job)
    if kind == "board" and Sums.of(after).rank > Sums.of(plan).rank:
        after = plan  # nobody has to use the board
    return Answer(_asked(kind, what, plan), _difference(plan, after, shop))


def choices(plan: Plan) -> tuple[tuple[str, str], ...]:
    """What may be changed: the value to send and the words for it."""
    boards = [one for one in plan.job.stock if one.cost is None]
    return (
        *((f"part:{x.id}", f"one more {x.name or x.id}") for x in plan.job.blanks),
        ("kerf:", "another kerf, typed beside"),
        *((f"without:{x.id}", f"without {x.name or x.id}") for x in boards),
        *((f"board:{x.id}", f"one more like {x.name or x.id}") for x in boards),
    )


def _asked(kind: str, what: str, plan: Plan) -> str:
    if kind == "kerf":
        return "With that kerf"
    words = next(w for key, w in choices(plan) if key == f"{kind}:{what}")
    return words[0].upper() + words[1:]


def _plan(workspace: Workspace, slug: str, number: int) -> tuple[Plan, Shop]:
    with workspace.read() as work:
        row = store.latest(work, episodes.within(work, slug, number).id)
        if row is None:
            raise NotFound("There is no plan of this episode's cuts yet.")
        return read_plan(row.job, row.answer), settings.within(work).shop


def _quick(job: Job, work: int = QUICK_WORK) -> Plan:
    end = monotonic() + QUICK_SECONDS
    return solve(job, work=work, left=lambda: end - monotonic())


def _only(plan: Plan, at: int) -> Plan:
    return Plan(plan.job, (plan.layouts[at],))


def _difference(before: Plan, after: Plan, shop: Shop) -> tuple[str, ...]:
    """Money, boards, offcuts and what is known of the gap, in words."""
    then, now = Sums.of(before), Sums.of(after)
    lines = []
    if now.homeless:
        s = "" if now.homeless == 1 else "s"
        lines.append(f"{now.homeless} blank{s} would find no place.")
    more = now.cost - then.cost
    paid = Money(abs(more), shop.currency)
    if more:
        lines.append(f"It would cost {paid} {'more' if more > 0 else 'less'}.")
    else:
        lines.append("It would cost the same.")
    lines.append(
        f"{now.boards} board{'' if now.boards == 1 else 's'} would be cut instead of "
        f"{then.boards}."
        if now.boards != then.boards
        else f"As many boards would be cut: {now.boards}."
    )
    if now.worth != then.worth:
        lines.append(
            f"Offcuts would be worth {face(now.worth, shop)} instead of "
            f"{face(then.worth, shop)}."
        )
    lines.append(f"How good that plan is: {proof.in_words(after)}")
    return tuple(lines)


def _instead(one: Other, cost: int, left: int, shop: Shop) -> str:
    name = one.stock.name or one.stock.id
    more = (one.stock.cost or 0) - cost
    paid = Money(abs(more), shop.currency)
    words = [f"{name} would have taken them too"]
    if more:
        words.append(f", for {paid} {'more' if more > 0 else 'less'}")
    if one.worth != left:
        words.append(
            f"; it would have left offcuts worth {face(one.worth, shop)}"
            f" instead of {face(left, shop)}"
        )
    if one.busy:
        words.append("; this plan cuts it up for other blanks")
    return "".join(words) + "."


def _worth(left: int, shop: Shop) -> str:
    if not left:
        return "Nothing worth keeping is left."
    return f"What is left is worth {face(left, shop)} of full offcuts."


def _unfit(alone: tuple[Other, ...]) -> list[str]:
    count = Counter(one.why for one in alone if one.why)
    lines = []
    if rooms := [one.stock.name or one.stock.id for one in alone if one.why == "room"]:
        names = ", ".join(rooms[:4]) + (" and others" if len(rooms) > 4 else "")
        lines.append(f"Each of them fits on {names}, but not all at once.")
    for key, words in UNFIT.items():
        if number := count[key]:
            boards = "1 other board is" if number == 1 else f"{number} other boards are"
            lines.append(f"{boards} {words}.")
    return lines
