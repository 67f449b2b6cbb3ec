"""What holds for every check there is, also for the next one."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.checking import checks, findings
from app.core.finding import Finding
from app.core.story import PLACES, Other, Story, Told
from tests.core.checks.stories import whole

few = st.integers(0, 40)
others = st.builds(
    Other, few, st.sampled_from(["", "https://films.example/1"]), st.just("")
)
told = st.lists(st.builds(Told, st.text(max_size=9), others), max_size=3).map(tuple)
stories = st.builds(
    Story,
    title=st.text(max_size=120),
    opening=st.text(max_size=9),
    video_url=st.sampled_from(["", "https://films.example/2"]),
    designed=st.booleans(),
    wood=few,
    wood_planned=few,
    unplaced=few,
    steps=few,
    steps_done=few,
    photos=few,
    photos_wordless=few,
    cover=st.booleans(),
    captions=st.booleans(),
    chapter_starts_ms=st.lists(st.integers(0, 10**7), max_size=6).map(tuple),
    length_ms=st.none() | st.integers(0, 10**7),
    description=st.text(max_size=30) | st.just("d" * 6000),
    disclosure=st.text(max_size=9),
    given=st.lists(st.text(min_size=1, max_size=9), max_size=3).map(tuple),
    neighbours=st.lists(others, max_size=3).map(tuple),
    promises_open=told,
    promises_linked=told,
)
EVERY = pytest.mark.parametrize("check", checks())


def is_one_to_read(finding: Finding) -> bool:
    """Whether a finding has a place on the page and two sentences."""
    sentences = (finding.what, finding.fix)
    return finding.where in PLACES and all(
        text[0] == text[0].upper() and text.endswith(".") for text in sentences
    )


@EVERY
def test_every_check_has_a_title_of_its_own(check: str) -> None:
    titles = [module.TITLE for module in checks().values()]
    assert titles.count(checks()[check].TITLE) == 1


@EVERY
def test_every_check_has_a_table_of_what_it_tells(check: str) -> None:
    assert (Path(__file__).parent / f"checks/test_{check}.py").is_file()


@EVERY
@given(story=stories)
def test_every_check_tells_any_story_in_sentences_and_twice_the_same(
    check: str, story: Story
) -> None:
    found = checks()[check].find(story)
    assert all(is_one_to_read(finding) for finding in found)
    assert checks()[check].find(story) == found


@given(stories)
def test_findings_stand_in_the_order_of_the_page_and_none_is_lost(
    story: Story,
) -> None:
    found = findings(story)
    places = [PLACES.index(finding.where) for finding in found]
    assert places == sorted(places)
    single = [one for check in checks().values() for one in check.find(story)]
    assert sorted(map(str, found)) == sorted(map(str, single))


def test_a_part_that_lacks_nothing_has_no_findings() -> None:
    assert findings(whole()) == ()


def test_an_empty_part_is_told_everything_it_lacks_down_the_page() -> None:
    assert [finding.what for finding in findings(Story())] == [
        "No opening sentence written yet.",
        "No address of the video yet.",
        "No design yet, so no sizes and no parts.",
        "No wood taken from the rack and none planned yet.",
        "No cover photo chosen yet.",
        "No steps yet, so the cautions may be too few.",
        "No captions of the final cut yet.",
        "No chapters yet.",
        "No disclosure yet: say what you were given.",
    ]
