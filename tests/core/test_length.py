"""What makers type is read exactly, and the display says what it rounded."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from app.core.length import (
    NM_PER_INCH,
    NM_PER_MM,
    Display,
    Length,
    NotALength,
    Unit,
    inches,
    mm,
    show,
)

# An inch is 25.4 mm exactly: NIST SP 811 (2008), appendix B.8.
SIXTY_FOURTH = 396_875

# Ways of writing a size: common practice, no source.
ACCEPTED = [
    ("1 7/8", 120 * SIXTY_FOURTH),
    ('1-7/8"', 120 * SIXTY_FOURTH),
    ("1⅞ in", 120 * SIXTY_FOURTH),
    ("1-⅞", 120 * SIXTY_FOURTH),
    ("1 ⅞″", 120 * SIXTY_FOURTH),
    ("1 7⁄8 inches", 120 * SIXTY_FOURTH),
    ("15/8", 120 * SIXTY_FOURTH),
    ("1.875 in.", 120 * SIXTY_FOURTH),
    ("  1   7/8  IN ", 120 * SIXTY_FOURTH),
    ("1\u00a07/8", 120 * SIXTY_FOURTH),
    ("1' 3 1/2\"", 31 * 32 * SIXTY_FOURTH),
    ("1'-3 1/2\"", 31 * 32 * SIXTY_FOURTH),
    ("1’ 3½”", 31 * 32 * SIXTY_FOURTH),
    ("1 ft 3-1/2 in", 31 * 32 * SIXTY_FOURTH),
    ("1 foot 3.5 inches", 31 * 32 * SIXTY_FOURTH),
    ("2 ft.", 24 * NM_PER_INCH),
    ("1' 3", 15 * NM_PER_INCH),
    ("3''", 3 * NM_PER_INCH),
    ("0.1875", 12 * SIXTY_FOURTH),
    (".5", 32 * SIXTY_FOURTH),
    ("0", 0),
    ("47.6 mm", 47_600_000),
    ("47.6mm", 47_600_000),
    ("4.76 cm", 47_600_000),
    ("2.4 m", 2_400_000_000),
    ("½ cm", 5_000_000),
    # A decimal digit has one value in every script.
    ("１ ７/８", 120 * SIXTY_FOURTH),
    ("４７．６ｍｍ", 47_600_000),
    ("١٢", 12 * NM_PER_INCH),
    ("१ ७/८", 120 * SIXTY_FOURTH),
]

REFUSED = [
    ("", "nothing is there"),
    ("   ", "nothing is there"),
    ("-1", "negative"),
    ("−1/2", "negative"),
    ("two", "no number"),
    ("½ furlong", "“furlong” is no unit"),
    ("1e3", "“e” is no unit"),
    ("nan", "no number"),
    ("inf", "no number"),
    ("1/0", "divided by zero"),
    ("3 1/0", "divided by zero"),
    ("1 9/8", "not a proper fraction"),
    ("1 8/8", "not a proper fraction"),
    ("47,6 mm", "comma"),
    ("1,200", "comma"),
    ("3/4 x 5", "more than one size"),
    ('5"x3"', "more than one size"),
    ("2 by 4", "more than one size"),
    ("10 mm 2 cm", "do not fit together"),
    ("1 2 3", "do not fit together"),
    ("1//2", "do not fit together"),
    ("1 7/8/2", "do not fit together"),
    ("1.2.3", "do not fit together"),
    ("½½", "do not fit together"),
    ("1' 14\"", "a foot or more"),
    ("5²", "“²” is no unit"),
    ("²", "no number"),
    ("⑤", "no number"),
    ("Ⅷ", "no number"),
    ("卌", "no number"),
    ("101 m", "longer than 100 m"),
    ("99999999999999999999", "longer than 100 m"),
    ("9" * 41, "too long"),
    ("1" * 100_000, "too long"),
    ("5; drop table", "“drop” is no unit"),
    ("\x00", "no number"),
]


@pytest.mark.parametrize(("typed", "nm"), ACCEPTED)
def test_a_size_is_read_exactly_as_makers_write_it(typed: str, nm: int) -> None:
    assert Length.read(typed).nm == nm


@pytest.mark.parametrize(("typed", "fault"), REFUSED)
def test_anything_else_is_refused_with_its_fault_and_with_examples(
    typed: str, fault: str
) -> None:
    with pytest.raises(NotALength) as refusal:
        Length.read(typed, input="wall")
    sentence = str(refusal.value)
    assert fault in sentence
    assert '1 7/8, 1-7/8"' in sentence
    assert refusal.value.input == "wall"
    assert len(sentence) < 250


def test_a_bare_number_is_in_the_workspaces_unit_and_a_unit_wins_over_it() -> None:
    assert Length.read("19", Unit.MILLIMETRE) == mm(19)
    assert Length.read("19") == inches("19")
    assert Length.read('3/4"', Unit.MILLIMETRE) == inches("3/4")
    assert Length.read("19 mm", Unit.INCH) == mm(19)


def outcome(typed: str) -> Length | str:
    """The length, or the sentence that refuses it; any other end is a fault."""
    try:
        return Length.read(typed)
    except NotALength as refusal:
        return str(refusal)


# The second alphabet makes near misses: plain text almost never gets that far.
@given(st.text(max_size=60) | st.text("0123456789 /-.'\"½⅞mcinft,x²٣", max_size=14))
@example("1⅟8")
@example("0 ↉")
@example("१/०")
def test_no_text_gives_anything_but_a_length_or_a_clear_refusal(typed: str) -> None:
    got = outcome(typed)
    if isinstance(got, Length):
        assert got.nm >= 0
    else:
        assert "is not a length: " in got
        assert got.endswith("4.76 cm.")


TAPES = [Display(denominator=lines) for lines in (8, 16, 32, 64)]
RULES = [Display(decimal=True), Display(unit=Unit.MILLIMETRE)]
BOTH = [
    Display(both=True),
    Display(both=True, decimal=True),
    Display(Unit.MILLIMETRE, both=True, denominator=64),
]
# Up to 99 m: what is rounded up must stay below the longest that is read.
lengths = st.integers(0, 99_000 * NM_PER_MM).map(Length)


@given(lengths, st.sampled_from(TAPES + RULES))
def test_what_is_shown_reads_back_as_the_shown_size(
    length: Length, display: Display
) -> None:
    shown = show(length, display)
    assert Length.read(shown.text) == length - shown.hidden
    assert Length.read(shown.figure, display.unit) == length - shown.hidden


@given(lengths, st.sampled_from(TAPES + RULES + BOTH))
def test_showing_what_was_shown_hides_nothing_more(
    length: Length, display: Display
) -> None:
    once = show(length, display)
    again = show(length - once.hidden, display)
    assert again.figure == once.figure
    assert not again.hidden


@given(lengths, st.sampled_from(BOTH))
def test_both_systems_are_each_rounded_from_the_true_size(
    length: Length, display: Display
) -> None:
    shown = show(length, display)
    alone = show(length, Display(display.unit, display.denominator, display.decimal))
    other = Unit.INCH if display.unit is Unit.MILLIMETRE else Unit.MILLIMETRE
    beside = show(length, Display(other, display.denominator, display.decimal))
    assert shown.text == f"{alone.text} ({beside.text})"
    assert Length.read(shown.other) == length - beside.hidden


@given(lengths, st.sampled_from(TAPES))
def test_a_tape_hides_at_most_half_its_finest_line(
    length: Length, display: Display
) -> None:
    half_line = Fraction(NM_PER_INCH, 2 * display.denominator)
    assert abs(show(length, display).hidden.nm) <= half_line


# The first row's wording is the project's law of exact lengths.
@pytest.mark.parametrize(
    ("length", "display", "text"),
    [
        (inches("1.869"), Display(denominator=8), "1 7/8 in (true size 0.006 less)"),
        (inches("1.881"), Display(denominator=8), "1 7/8 in (true size 0.006 more)"),
        (inches("1 7/8"), Display(denominator=64), "1 7/8 in"),
        (inches("3/64"), Display(denominator=64), "3/64 in"),
        (inches("3/64"), Display(denominator=8), "0 in (true size 0.047 more)"),
        (inches("12"), Display(), "12 in"),
        (inches("63/64"), Display(denominator=8), "1 in (true size 0.016 less)"),
        (inches("3/4"), Display(decimal=True), "0.75 in"),
        (mm("19.05"), Display(Unit.MILLIMETRE), "19 mm (true size 0.050 more)"),
        (mm(19), Display(Unit.MILLIMETRE), "19 mm"),
        (inches("3/4"), Display(both=True), "3/4 in (19 mm)"),
        (mm(19), Display(Unit.MILLIMETRE, both=True, denominator=64), "19 mm (3/4 in)"),
        (Length(1), Display(), "0 in (true size under 0.001 more)"),
        (-inches("1 1/2"), Display(), "-1 1/2 in"),
        (-inches("1/2"), Display(), "-1/2 in"),
    ],
)
def test_the_display_rounds_once_and_says_what_it_hid(
    length: Length, display: Display, text: str
) -> None:
    assert str(show(length, display)) == text


def test_a_length_holds_only_whole_nanometres() -> None:
    with pytest.raises(TypeError):
        Length(0.5)  # type: ignore[arg-type]
    with pytest.raises(TypeError):
        Length(True)
