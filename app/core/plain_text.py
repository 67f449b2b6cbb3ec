"""What no typed text may hold, whatever field it stands in."""

from __future__ import annotations

import unicodedata

from app.core.errors import WorkshopError

# Some forty pages of print; a longer text is a file pasted by mistake.
LONGEST = 100_000
_LINES = "\t\n\r"
_UNSEEN = ("Cf", "Zs", "Zl", "Zp")


def check_text(text: str, *, input: str = "") -> None:
    """Refuse text with marks that nobody sees, and text without end.

    Control characters would end up in files, tables and file names that cannot
    hold them; marks for right-to-left writing and joined emoji are welcome.
    Raises WorkshopError.
    """
    if len(text) > LONGEST:
        raise WorkshopError(
            f"That is {len(text):,} characters; {LONGEST:,} is the most that any "
            "field takes. Was a whole file pasted?",
            input=input,
        )
    if (at := first_unprintable(text)) is not None:
        raise WorkshopError(
            f"There is an invisible control mark (U+{ord(text[at]):04X}) "
            f"{_where(text[:at])}. Take it out; what is typed by hand has none.",
            input=input,
        )


def check_length(
    text: str, most: int, what: str, *, input: str = "", hint: str = ""
) -> None:
    """Refuse text with more than ``most`` characters, by its name and its count.

    Raises WorkshopError.
    """
    if len(text) > most:
        message = f"{what} has {len(text)} characters; {most} is the most. {hint}"
        raise WorkshopError(message.strip(), input=input)


def first_unprintable(text: str) -> int | None:
    """Where the first control mark, lone surrogate or non-character stands."""
    marks = enumerate(text)
    return next((at for at, mark in marks if _is_unprintable(mark)), None)


def is_blank(text: str) -> bool:
    """Whether nobody would see anything: spaces, and marks that only steer others."""
    return all(unicodedata.category(mark) in _UNSEEN or mark.isspace() for mark in text)


def _is_unprintable(mark: str) -> bool:
    if mark in _LINES:
        return False
    # The last two of each plane, and one block, are no characters (Unicode 23.7).
    none = ord(mark) & 0xFFFE == 0xFFFE or "\ufdd0" <= mark <= "\ufdef"
    return none or unicodedata.category(mark) in ("Cc", "Cs")


def _where(before: str) -> str:
    words = " ".join(before[-30:].split())
    return f"after “{words}”" if words else "at the very beginning"
