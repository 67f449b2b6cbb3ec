"""The build log as a file: every note comes back as it was."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.publish.log_file import BadLog, LoggedNote, read_log, write_log

lines = st.one_of(
    st.sampled_from(["---", "\\---", "\\\\---", "", "time: now", " ---"]),
    st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\r\n")),
)
texts = st.lists(lines, max_size=6).map("\n".join)
moments = st.datetimes(timezones=st.just(timezone(timedelta(hours=-6))))
notes = st.builds(
    LoggedNote,
    moments,
    st.sampled_from(["UTC", "America/Chicago"]),
    texts,
    st.sampled_from(["", "rip", "glue-up-1"]),
    st.none() | st.integers(0, 10**8),
)


@given(st.lists(notes, max_size=4))
def test_every_note_comes_back_as_it_was(written: list[LoggedNote]) -> None:
    assert list(read_log(write_log(written))) == written


def test_a_log_reads_as_plain_markdown_under_front_matter() -> None:
    noted = datetime(2026, 3, 7, 15, 10, tzinfo=timezone.utc)  # noqa: UP017
    note = LoggedNote(noted, "America/Chicago", "Ripped.\n---", "rip", 62_500)
    assert write_log([note]).decode() == (
        "---\ntime: 2026-03-07T15:10:00+00:00\nzone: America/Chicago\nstep: rip\n"
        "video: 1:02.500\n---\nRipped.\n\\---\n"
    )


@pytest.mark.parametrize(
    ("content", "fault"),
    [
        (b"Hello", "every note starts"),
        (b"---\ntime: x\n---\n", "line 2: .* is no date"),
        (b"---\ntime: 2026-03-07T15:10:00\n---\n", "how far from UTC"),
        (b"---\ntimes: 1\n---\n", "line 2, .*is no front matter"),
        (b"---\ntime: 2026-03-07T15:10:00Z\n", "every note starts"),
        (b"---\ntime: 2026-03-07T15:10:00Z\nvideo: 1h\n---\n", "is no film time"),
        (b"\xff", "is not UTF-8"),
    ],
)
def test_a_faulty_log_names_its_line(content: bytes, fault: str) -> None:
    with pytest.raises(BadLog, match=fault):
        read_log(content)
