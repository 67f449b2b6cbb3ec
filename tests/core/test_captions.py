"""Reading captions: what has no published file, and what must always hold."""

import codecs

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.core.captions import LARGEST, read_captions
from app.core.errors import WorkshopError

FIRST = "1\n00:00:01,000 --> 00:00:02,000"
SECOND = "2\n00:00:03,000 --> 00:00:04,000"

# The tolerant reading of SubRip is the project's own; the cases are common practice.
SUBRIP = [
    ("no hours", "1\n00:01,500 --> 00:02,000\nTilt.", [(1500, 2000, "Tilt.")]),
    ("no thousandths", "1\n00:00:01 --> 00:00:02\nTilt.", [(1000, 2000, "Tilt.")]),
    ("one digit", "1\n0:0:1,5 --> 0:0:2,25\nTilt.", [(1500, 2250, "Tilt.")]),
    (
        "no blank lines",
        f"{FIRST}\nTilt.\n{SECOND}\nRip.",
        [(1000, 2000, "Tilt."), (3000, 4000, "Rip.")],
    ),
    (
        "tags of two kinds",
        f"{FIRST}\n{{\\an8}}<i>Rip</i> <font color='red'>it</font> <B>now</B> 2 < 3",
        [(1000, 2000, "Rip it now 2 < 3")],
    ),
    ("no tag", f"{FIRST}\n{{ \\an8}} <em>", [(1000, 2000, "{ \\an8} <em>")]),
    ("coordinates", f"{FIRST} X1:10 X2:20 Y1:30\nRip.", [(1000, 2000, "Rip.")]),
    ("an arrow", f"{FIRST}\nglue --> clamp", [(1000, 2000, "glue --> clamp")]),
    (
        "a number in the text",
        f"{FIRST}\nsides:\n12\n\n{SECOND}\nRip.",
        [(1000, 2000, "sides:\n12"), (3000, 4000, "Rip.")],
    ),
]


@pytest.mark.parametrize(("what", "text", "cues"), SUBRIP)
def test_subrip_is_read_tolerantly(what: str, text: str, cues: list):
    found = read_captions(text.encode(), "cut.srt")
    assert [(c.start_ms, c.end_ms, c.text) for c in found.cues] == cues, what
    assert found.skipped == ()


GOOD = "1\n00:00:01,000 --> 00:00:02,000\nRip.\n\n"


@pytest.mark.parametrize(
    ("text", "line", "kind"),
    [
        (GOOD + "2\n-00:00:04,000 --> 00:00:05,000\nGlue.", 6, "negative time"),
        (GOOD + "2\n00:00:04,000 --> 00:00:05,000\n<i></i>\n", 6, "empty cue"),
        (GOOD + "2\n00:00:04,000 -->\nGlue.", 6, "malformed timing line"),
        (GOOD + "Glue it.", 5, "block without timing"),
        (GOOD + "2\n", 5, "unfinished block"),
    ],
)
def test_what_is_left_out_is_told_with_its_line(text: str, line: int, kind: str):
    found = read_captions(text.encode(), "cut.srt")
    assert [cue.text for cue in found.cues] == ["Rip."]
    assert [(told.line, told.kind) for told in found.skipped] == [(line, kind)]


@pytest.mark.parametrize(
    ("encoded", "what"),
    [
        (GOOD.replace("Rip", "Höger½").encode("utf-8"), "UTF-8"),
        (codecs.BOM_UTF8 + GOOD.replace("Rip", "Höger½").encode("utf-8"), "its mark"),
        (GOOD.replace("Rip", "Höger½").encode("cp1252"), "Windows-1252"),
        (codecs.BOM_UTF16_BE + GOOD.replace("Rip", "Höger½").encode("utf-16-be"), "16"),
        (GOOD.replace("Rip", "Höger½").replace("\n", "\r").encode(), "CR"),
    ],
)
def test_letters_are_read_whatever_they_are_kept_in(encoded: bytes, what: str):
    assert read_captions(encoded, "x.srt").cues[0].text == "Höger½.", what


@pytest.mark.parametrize(
    ("data", "name", "says"),
    [
        (b"", "cut.vtt", "empty"),
        (b"\n \n", "cut.srt", "empty"),
        (b"WEBVTTx\n\n00:01.000 --> 00:02.000\nRip.", "cut.vtt", "first line"),
        ("WEBVTT\n".encode("utf-16"), "cut.vtt", "UTF-8"),
        (b"\xff\xd8\xff\xe0 JFIF", "cut.srt", "no caption"),
        (b"a" * (LARGEST + 1), "cut.srt", "film itself"),
    ],
)
def test_what_is_no_caption_file_is_refused_in_words(data: bytes, name: str, says: str):
    with pytest.raises(WorkshopError, match=says) as refusal:
        read_captions(data, name)
    assert refusal.value.input == "captions"


def test_a_damaged_letter_of_webvtt_is_told():
    found = read_captions(b"WEBVTT\n\n00:01.000 --> 00:02.000\nH\xf6ger", "cut.vtt")
    assert found.cues[0].text == "H\N{REPLACEMENT CHARACTER}ger"
    assert [told.kind for told in found.warnings] == ["not UTF-8"]


def test_a_webvtt_file_by_another_name_is_still_webvtt():
    found = read_captions(b"WEBVTT\n\n00:01.000 --> 00:02.000\nRip.", "cut.srt")
    assert found.format == "WebVTT"


pieces = st.lists(
    st.sampled_from(
        [
            *("WEBVTT", "\n", "\r", "\0", "00:01.000", " --> ", "-->", "1", "é"),
            *("<i", ">", "&amp", "{\\", "9" * 5000 + ":00:00.000", "NOTE", "-"),
        ]
    ),
    max_size=30,
).map(lambda found: "".join(found).encode())


@given(st.one_of(st.binary(max_size=200), pieces), st.sampled_from(["a.srt", "a.vtt"]))
def test_any_bytes_are_captions_or_a_clear_refusal(data: bytes, name: str):
    try:
        found = read_captions(data, name)
    except WorkshopError:
        return
    assert all(cue.start_ms >= 0 and cue.end_ms >= 0 for cue in found.cues)
    count = data.count(b"\n") + data.count(b"\r") + 1
    assert all(1 <= told.line <= count for told in found.skipped + found.warnings)
