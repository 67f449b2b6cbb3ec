"""The document of a caption file."""

import pytest

from app.core.errors import WorkshopError
from app.services.captions import captions_document

FILE = b"""WEBVTT

00:01.000 --> 00:02.000
Set the fence to <b>4 &frac12;</b> inches.

00:03.00 --> 00:04.000
Rip.
"""


def test_the_document_counts_cues_and_names_what_was_left_out():
    document = captions_document(FILE, name="cut.vtt")
    assert document["cues"] == 1
    assert [told["line"] for told in document["skipped"]] == [6]
    assert "cue_list" not in document
    assert set(document) >= {"said", "promises", "mentions"}


def test_the_cue_list_holds_what_a_viewer_reads():
    assert captions_document(FILE, cues=True)["cue_list"] == [
        {"start_ms": 1000, "end_ms": 2000, "text": "Set the fence to 4 ½ inches."}
    ]


def test_a_letter_is_no_caption_file():
    with pytest.raises(WorkshopError, match="no caption in the file"):
        captions_document(b"Dear viewer, the fence was wrong.", name="letter.srt")
