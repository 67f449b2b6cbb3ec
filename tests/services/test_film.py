"""The final cut: captions as they came, chapters from the log."""

import pytest

from app.core.errors import NotFound, StaleEdit, WorkshopError
from app.services import chapters, episodes, film, notes
from app.services.notes import NoteTyped
from app.store import files
from tests.conftest import NOON
from tests.services.bench import SLUG, build

SRT = b"1\n00:00:01,000 --> 00:00:02,000\nTilt the blade.\n\n2\nLost.\n"
VTT = b"WEBVTT\n\n00:01.000 --> 00:02.000\nTilt.\n\n00:03.000 --> 00:04.000\nRip.\n"


@pytest.fixture
def steps(workspace) -> list[int]:
    return build(workspace)


def shown(workspace) -> film.FilmView:
    return film.show(workspace, episodes.find(workspace, SLUG, 1).id)


def test_the_length_is_kept_as_typed_and_guarded(workspace, steps):
    film.save_length(workspace, SLUG, 1, 1, "14:05")
    assert (shown(workspace).length_ms, shown(workspace).length) == (845_000, "14:05")
    with pytest.raises(StaleEdit) as conflict:
        film.save_length(workspace, SLUG, 1, 1, "14:06")
    assert conflict.value.stored["length"] == "14:05"
    with pytest.raises(WorkshopError, match="0:00 has nothing"):
        film.save_length(workspace, SLUG, 1, 2, "0:00")
    film.save_length(workspace, SLUG, 1, 2, "")
    assert shown(workspace).length_ms is None


def test_captions_stay_in_the_format_they_came_in(workspace, steps):
    film.put_captions(workspace, SLUG, 1, "C:\\cut\\final.srt", SRT, NOON)
    found = shown(workspace).captions
    assert (found.name, found.cues, found.format) == ("final.srt", 1, "SubRip")
    assert found.first == "Tilt the blade."
    assert [(told.line, told.kind) for told in found.skipped] == [
        (5, "block without timing")
    ]
    assert film.captions_file(workspace, SLUG, 1) == (SRT, "final.srt")


def test_new_captions_take_the_place_of_the_old_ones(workspace, steps):
    film.put_captions(workspace, SLUG, 1, "final.srt", SRT, NOON)
    film.put_captions(workspace, SLUG, 1, "final.vtt", VTT, NOON)
    found = shown(workspace).captions
    assert (found.name, found.cues, found.version) == ("final.vtt", 2, 2)
    with pytest.raises(StaleEdit):
        film.remove_captions(workspace, SLUG, 1, 1)
    film.remove_captions(workspace, SLUG, 1, 2)
    assert shown(workspace).captions is None
    with pytest.raises(NotFound):
        film.captions_file(workspace, SLUG, 1)


def test_what_is_no_caption_file_changes_nothing(workspace, steps):
    film.put_captions(workspace, SLUG, 1, "final.vtt", VTT, NOON)
    with pytest.raises(WorkshopError) as refusal:
        film.put_captions(workspace, SLUG, 1, "letter.srt", b"Dear viewer", NOON)
    assert refusal.value.input == "captions"
    assert film.captions_file(workspace, SLUG, 1) == (VTT, "final.vtt")
    with workspace.read() as work:
        assert files.sweep(work, workspace.folder) == ()


def test_lost_captions_are_told_and_the_page_stands(workspace, steps):
    film.put_captions(workspace, SLUG, 1, "final.vtt", VTT, NOON)
    files.path(workspace.folder, files.digest(VTT)).unlink()
    assert "missing from the data folder" in shown(workspace).captions.trouble


def test_chapters_stand_in_the_order_of_the_film(workspace, steps):
    chapters.add(workspace, SLUG, 1, "1:10", "Glue")
    chapters.add(workspace, SLUG, 1, "0:00", " The  idea ")
    found = shown(workspace)
    assert [(item.at, item.title) for item in found.chapters] == [
        ("0:00", "The idea"),
        ("1:10", "Glue"),
    ]
    assert len(found.faults) == 1
    chapters.add(workspace, SLUG, 1, "0:45", "Bevels")
    assert shown(workspace).faults == ()


@pytest.mark.parametrize(
    ("at", "title", "field", "says"),
    [
        ("", "Glue", "at", "no time"),
        ("soon", "Glue", "at", "not a time"),
        ("1:00", " ", "title", "no title"),
        ("1:00", "x" * 101, "title", "100"),
        ("0:45", "Glue", "at", "already, “Bevels”"),
    ],
)
def test_a_chapter_that_cannot_be_names_its_field(
    workspace, steps, at, title, field, says
):
    chapters.add(workspace, SLUG, 1, "0:45", "Bevels")
    with pytest.raises(WorkshopError, match=says) as refusal:
        chapters.add(workspace, SLUG, 1, at, title)
    assert refusal.value.input == field
    assert len(shown(workspace).chapters) == 1


def test_a_stale_edit_of_a_chapter_loses_neither_version(workspace, steps):
    chapter = chapters.add(workspace, SLUG, 1, "0:45", "Bevels")
    chapters.save(workspace, SLUG, 1, chapter, 1, "0:50", "All bevels")
    with pytest.raises(StaleEdit) as conflict:
        chapters.save(workspace, SLUG, 1, chapter, 1, "0:45", "Bevel")
    assert conflict.value.stored["at"] == "0:50"
    chapters.save(workspace, SLUG, 1, chapter, 2, "0:50", "Bevels again")
    chapters.remove(workspace, SLUG, 1, chapter)
    assert shown(workspace).chapters == ()


def test_the_log_offers_chapters_where_a_note_has_a_time(workspace, steps):
    assert shown(workspace).suggestions == ()
    for typed in (
        NoteTyped("Held the *square* on it", str(steps[0]), "0:45"),
        NoteTyped("## Finish. Two coats.", "", "2:00"),
        NoteTyped("Nothing to see", str(steps[1]), ""),
    ):
        notes.add(workspace, SLUG, 1, typed, NOON)
    offered = shown(workspace).suggestions
    assert [(item.start_ms, item.title) for item in offered] == [
        (0, "Opening"),
        (45_000, "Bevel the walls"),
        (120_000, "Finish"),
    ]
    keys = [item.key for item in offered]
    assert chapters.take_from_log(workspace, SLUG, 1, keys[:2]) == 2
    assert [item.title for item in shown(workspace).suggestions] == ["Finish"]
    assert chapters.take_from_log(workspace, SLUG, 1, keys) == 1
    assert shown(workspace).faults == ()
    with pytest.raises(WorkshopError, match="None is ticked"):
        chapters.take_from_log(workspace, SLUG, 1, [])
