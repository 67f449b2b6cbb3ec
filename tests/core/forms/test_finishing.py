"""The coats of a finish, as steps at the bench."""

from __future__ import annotations

import pytest

from app.core.figures import row
from app.core.finishes import FINISHES as KNOWN
from app.core.finishes import finish
from app.core.forms._bench import finishing
from app.core.forms._common import FINISHES, Common
from app.core.safety import cautions
from app.core.step import Until


def test_a_form_offers_these_finishes_and_bare_wood() -> None:
    """Their names are kept with designs: never renamed."""
    assert (
        *("oil varnish", "waterborne varnish", "penetrating oil", "shellac", "wax"),
        "none",
    ) == FINISHES
    assert finish("none") is None


@pytest.mark.parametrize("kind", KNOWN, ids=lambda kind: kind.name)
def test_every_finish_has_figures_and_cautions_of_the_tables(kind: object) -> None:
    assert kind in KNOWN
    known = finish(getattr(kind, "name", ""))
    assert known
    assert row("finishing", known.coverage)["unit"] == "m2/L"
    assert known.use_minutes >= known.recoat_minutes > 0
    assert len(cautions(known.cautions)) == len(known.cautions) > 0


# Waits from the table of finishing: hours between coats, hours until use.
@pytest.mark.parametrize(
    ("name", "recoat", "use"),
    [
        ("oil varnish", 24, 24),
        ("waterborne varnish", 2, 24),
        ("penetrating oil", 24, 72),
        ("shellac", 1, 72),
        ("wax", 24, 24),
    ],
)
def test_each_coat_waits_for_the_next_and_the_last_for_use(
    name: str, recoat: int, use: int
) -> None:
    steps = finishing(Common(finish=name, coats=3), "the outside", 15)
    assert [step.key for step in steps] == ["finish-1", "finish-2", "finish-3"]
    waits = [(step.waits[0].until, step.waits[0].minutes) for step in steps]
    between = (Until.RECOAT, recoat * 60)
    assert waits == [between, between, (Until.USE, use * 60)]
    assert all(step.supplies[0].name == name for step in steps)


def test_a_film_is_scuffed_between_its_coats() -> None:
    for name, scuffed in (("oil varnish", True), ("wax", False)):
        first, second = finishing(Common(finish=name), "the outside", 15)
        used = [one.name for one in second.supplies]
        assert ("P320 abrasive" in used) is scuffed is ("P320" in second.detail)
        assert "P320 abrasive" not in [one.name for one in first.supplies]


def test_insides_are_finished_before_assembly_and_bare_wood_is_not() -> None:
    first, second = finishing(
        Common(coats=2), "the inside", 15, inside=True, first="Tape the bevels."
    )
    assert (first.key, second.key) == ("finish-inside", "finish-inside-2")
    assert first.detail.startswith("Tape the bevels. ")
    assert "Tape" not in second.detail
    assert {step.waits[0].until for step in (first, second)} == {Until.RECOAT}
    assert finishing(Common(finish="none"), "the outside", 15) == []


def test_a_finish_whose_rags_catch_fire_says_so() -> None:
    for name in ("oil varnish", "penetrating oil"):
        steps = finishing(Common(finish=name), "the outside", 15)
        assert all("brush-or-cloth.oily-rags" in step.cautions for step in steps)


def test_ten_coats_are_ten_steps() -> None:
    steps = finishing(Common(coats=10), "the lid", 5)
    assert steps[-1].name == "Tenth coat of oil varnish on the lid"
    assert len({step.key for step in steps}) == 10
