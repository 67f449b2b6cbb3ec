"""Captions against published files that nobody on this project wrote.

WebVTT: the expected cues were read back from a browser's own text tracks
(Chromium 156), over the web-platform-tests file-parsing and cue-text suites and
test files of two media libraries and one player. SubRip has no standard; the
expected cues are the tolerant reading described with the files.
"""

import json
from pathlib import Path

import pytest

from app.core.captions import read_captions
from app.core.errors import WorkshopError
from tests.conftest import SHARED, shared

HERE = "fixtures/captions"
FILES = sorted(
    str(path.relative_to(SHARED / HERE / "expected").with_suffix(""))
    for path in (SHARED / HERE / "expected").rglob("*.json")
)
KNOWN = FILES or ["webvtt_wpt/arrows.vtt"]


def expected(name: str) -> dict:
    return json.loads((shared(HERE) / "expected" / f"{name}.json").read_text("utf-8"))


def data(name: str) -> bytes:
    return (shared(HERE) / name).read_bytes()


@pytest.mark.parametrize("name", KNOWN)
def test_the_cues_of_a_published_file_are_the_expected_ones(name: str):
    should = expected(name)
    if not should["accepted"]:
        with pytest.raises(WorkshopError) as refusal:
            read_captions(data(name), Path(name).name)
        assert refusal.value.input == "captions"
        return
    found = read_captions(data(name), Path(name).name)
    times = [(cue.start_ms, cue.end_ms) for cue in found.cues]
    assert times == [(cue["start_ms"], cue["end_ms"]) for cue in should["cues"]]
    if name.endswith(".vtt"):
        assert [cue.raw for cue in found.cues] == [c["text"] for c in should["cues"]]
        assert [cue.text for cue in found.cues] == [c["plain"] for c in should["cues"]]
    else:
        assert [cue.text for cue in found.cues] == [c["text"] for c in should["cues"]]


@pytest.mark.parametrize("name", KNOWN)
def test_what_must_be_told_is_told(name: str):
    should = expected(name)
    if not should["accepted"]:
        return
    found = read_captions(data(name), Path(name).name)
    told = {remark.kind for remark in found.skipped + found.warnings}
    assert told >= set(should.get("warnings", []))
    if name.endswith(".srt") and "warnings" not in should:
        assert found.skipped == ()
    backwards = [cue for cue in found.cues if cue.end_ms < cue.start_ms]
    assert len(backwards) == sum(
        remark.kind == "ends before it starts" for remark in found.warnings
    )


def test_every_published_file_was_tried():
    listed = json.loads((shared(HERE) / "manifest.json").read_text("utf-8"))
    assert sorted(entry["file"] for entry in listed) == FILES
