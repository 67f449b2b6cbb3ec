"""Typed words have a measure, and the refusal says which."""

from __future__ import annotations

import pytest

from app.core.errors import WorkshopError
from app.core.plain_text import check_length


def test_words_of_just_the_length_are_taken() -> None:
    check_length("ash" * 10, 30, "The title")


def test_a_letter_too_many_is_refused_with_both_counts_and_its_field() -> None:
    with pytest.raises(WorkshopError) as refused:
        check_length("ash" * 10, 29, "The note", input="text", hint="Make two of it.")
    assert str(refused.value) == (
        "The note has 30 characters; 29 is the most. Make two of it."
    )
    assert refused.value.input == "text"


def test_a_refusal_without_a_hint_ends_with_its_sentence() -> None:
    with pytest.raises(WorkshopError, match=r"is the most\.$"):
        check_length("oak", 2, "That")
