"""Questions to a plan: why this board, what without the offcuts, what if."""

from __future__ import annotations

import pytest

from app.core.errors import NotFound, WorkshopError
from app.core.movement import PieceKind
from app.services import plan_questions, plans
from app.services.plan_questions import Answer
from app.store.workspace import Workspace
from tests.services.porch_rack import put, walnut
from tests.services.test_plan_parts import apart, at, labels
from tests.services.test_plans import SLUG, make, porch, seen

__all__ = ["porch"]
BOARD = "walnut, 1, 8, 96, 60"


def asked(workspace: Workspace, **typed: str) -> Answer:
    return plan_questions.what_if(workspace, SLUG, 1, typed)


def test_why_a_board_names_what_else_would_have_done(porch: Workspace) -> None:
    put(porch, walnut("60", "8"), walnut("62", "8"))
    make(porch)
    plan = seen(porch).plan
    assert plan
    (used,) = plan.layouts
    (other,) = (label for label in labels(porch) if label != used.stock)
    answer = plan_questions.why(porch, SLUG, 1, 0)
    assert answer.question == f"Why {used.stock}"
    assert "4 blanks take" in answer.lines[0]
    assert any(f"{other} would have taken them too" in line for line in answer.lines)


def test_why_a_board_counts_those_that_do_not_do(porch: Workspace) -> None:
    apart(porch)
    long, _ = labels(porch)
    answer = plan_questions.why(porch, SLUG, 1, at(porch, long))
    assert "No other board takes these blanks together." in answer.lines
    assert "1 other board is too short or too narrow for one of them." in answer.lines


def test_a_board_that_is_not_in_the_plan_has_no_why(porch: Workspace) -> None:
    apart(porch)
    with pytest.raises(WorkshopError, match="not in the plan"):
        plan_questions.why(porch, SLUG, 1, 7)


def test_without_the_offcuts_their_worth_in_money_is_said(porch: Workspace) -> None:
    put(porch, walnut("60", "8", PieceKind.OFFCUT))
    make(porch, sells=BOARD)
    assert seen(porch).plan.buy_cost == 0  # type: ignore[union-attr]
    answer = plan_questions.without_offcuts(porch, SLUG, 1)
    assert "It would cost 60.00 USD more." in answer.lines


def test_without_offcuts_there_is_nothing_to_ask(porch: Workspace) -> None:
    apart(porch)
    answer = plan_questions.without_offcuts(porch, SLUG, 1)
    assert answer.lines == ("There is no offcut on the rack for this job.",)


def test_one_more_of_a_part_takes_more_wood(porch: Workspace) -> None:
    apart(porch)
    answer = asked(porch, change="part:base")
    assert answer.question == "One more Base"
    assert "It would cost the same." in answer.lines


def test_without_a_board_its_blanks_find_no_place(porch: Workspace) -> None:
    apart(porch)
    long, _ = labels(porch)
    answer = asked(porch, change=f"without:{long}")
    assert "3 blanks would find no place." in answer.lines


def test_another_kerf_is_read_as_typed(porch: Workspace) -> None:
    apart(porch)
    answer = asked(porch, change="kerf:", kerf="3/32")
    assert answer.question == "With that kerf"
    assert "It would cost the same." in answer.lines


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"change": ""}, "change"),
        ({"change": "kerf:", "kerf": "0"}, "kerf"),
        ({"change": "kerf:", "kerf": "thin"}, "kerf"),
        ({"change": "part:gone"}, ""),
    ],
)
def test_a_question_that_cannot_be_understood_is_refused(
    porch: Workspace, typed: dict[str, str], field: str
) -> None:
    apart(porch)
    with pytest.raises(WorkshopError) as refused:
        asked(porch, **typed)
    assert refused.value.input == field


def test_one_more_board_never_makes_a_plan_worse(porch: Workspace) -> None:
    apart(porch)
    long, _ = labels(porch)
    assert "It would cost the same." in asked(porch, change=f"board:{long}").lines


def test_asking_changes_nothing(porch: Workspace) -> None:
    apart(porch)
    before = seen(porch)
    asked(porch, change="part:base")
    plan_questions.why(porch, SLUG, 1, 0)
    plan_questions.without_offcuts(porch, SLUG, 1)
    assert seen(porch) == before


def test_without_a_plan_there_is_nothing_to_ask_of(porch: Workspace) -> None:
    with pytest.raises(NotFound):
        plan_questions.without_offcuts(porch, SLUG, 1)


def test_a_plan_says_what_was_weighed(porch: Workspace) -> None:
    make(porch, sells=BOARD)
    proof = plans.show(porch, 1).proof
    assert proof
    assert [line.aim for line in proof.lines] == [
        "Money for new wood",
        "Offcuts worth keeping",
        "Set-ups of fence and stop",
        "Cuts",
        "Boards cut up",
    ]
    assert proof.lines[0].value == "60.00 USD"
    assert proof.words
