"""The build log: steps, notes and photos, whole or not at all."""

from datetime import timedelta
from io import BytesIO

import pytest
from PIL import Image

from app.core.errors import NotFound, StaleEdit, WorkshopError
from app.services import episodes, log, notes, photos
from app.services.notes import NoteTyped
from app.store import files
from tests.conftest import NOON
from tests.services.bench import SLUG, build, jpeg

LATER = NOON + timedelta(hours=1)


@pytest.fixture
def steps(workspace) -> list[int]:
    return build(workspace)


def shown(workspace) -> log.LogView:
    return log.show(workspace, episodes.find(workspace, SLUG, 1).id)


def test_the_log_shows_the_steps_in_order_with_their_set_up(workspace, steps):
    bevel, glue = shown(workspace).steps
    assert [bevel.name, glue.name] == ["Bevel the walls", "Glue the ring"]
    assert str(bevel.set_up.tilt) == "22.5°"
    assert bevel.set_up.fence.nm == 101_600_000
    assert "close the joint" in bevel.set_up.check
    assert "45 min" in glue.waits[0]
    assert glue.supplies[0].name == "PVA glue"


def test_every_step_with_a_machine_carries_its_cautions_in_words(workspace, steps):
    bevel = shown(workspace).steps[0]
    assert [c.key for c in bevel.cautions] == ["table-saw.kickback"]
    assert bevel.cautions[0].text
    own = log.add_step(workspace, SLUG, 1, "Trim", "table saw", "")
    trim = next(step for step in shown(workspace).steps if step.id == own)
    assert "table-saw.kickback" in [c.key for c in trim.cautions]
    assert "manual" in shown(workspace).standing


def test_a_step_is_ticked_once_and_the_tick_can_be_undone(workspace, steps):
    log.tick(workspace, SLUG, 1, steps[0], True, NOON)
    log.tick(workspace, SLUG, 1, steps[0], True, LATER)
    assert shown(workspace).steps[0].done_at == NOON
    assert shown(workspace).left == 1
    log.tick(workspace, SLUG, 1, steps[0], False, LATER)
    assert shown(workspace).steps[0].done_at is None


def test_an_own_step_comes_last_and_can_be_taken_out(workspace, steps):
    own = log.add_step(workspace, SLUG, 1, " Sand  to 180 ", "hand", "along the grain")
    assert [step.name for step in shown(workspace).steps][-1] == "Sand to 180"
    note = notes.add(workspace, SLUG, 1, NoteTyped("Dusty.", str(own)), NOON)
    log.remove_step(workspace, SLUG, 1, own)
    assert [found.id for found in shown(workspace).notes] == [note]
    with pytest.raises(WorkshopError, match="comes from the design"):
        log.remove_step(workspace, SLUG, 1, steps[0])


def test_a_step_without_a_name_is_refused(workspace, steps):
    with pytest.raises(WorkshopError, match="no name") as refusal:
        log.add_step(workspace, SLUG, 1, "  ", "", "")
    assert refusal.value.input == "name"


def test_a_step_of_another_part_is_out_of_reach(workspace, steps):
    with pytest.raises(NotFound):
        log.tick(workspace, SLUG, 2, steps[0], True, NOON)
    with pytest.raises(NotFound):
        notes.add(workspace, SLUG, 2, NoteTyped("x", str(steps[0])), NOON)
    assert shown(workspace).steps[0].done_at is None


def test_a_note_is_dated_and_tied_to_its_step(workspace, steps):
    notes.add(workspace, SLUG, 1, NoteTyped("Gap of *0.2 mm*", str(steps[1])), NOON)
    notes.add(workspace, SLUG, 1, NoteTyped("Ordered glue", "", "1:02:05"), LATER)
    found = shown(workspace)
    assert [note.text for note in found.steps[1].notes] == ["Gap of *0.2 mm*"]
    assert found.steps[1].notes[0].noted_at == NOON
    assert (found.notes[0].video_ms, found.notes[0].at) == (3_725_000, "1:02:05")


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        (NoteTyped("   "), "text"),
        (NoteTyped("x" * 20_001), "text"),
        (NoteTyped("Fine", "", "half past two"), "at"),
    ],
)
def test_a_note_that_cannot_be_kept_names_its_field(workspace, steps, typed, field):
    with pytest.raises(WorkshopError) as refusal:
        notes.add(workspace, SLUG, 1, typed, NOON)
    assert refusal.value.input == field
    assert shown(workspace).notes == ()


def test_a_stale_edit_of_a_note_loses_neither_version(workspace, steps):
    note = notes.add(workspace, SLUG, 1, NoteTyped("First", "", "0:10"), NOON)
    notes.save(workspace, SLUG, 1, note, 1, NoteTyped("From the phone", "", "0:20"))
    with pytest.raises(StaleEdit) as conflict:
        notes.save(workspace, SLUG, 1, note, 1, NoteTyped("From the laptop"))
    assert conflict.value.stored["text"] == "From the phone"
    assert conflict.value.stored["at"] == "0:20"
    with pytest.raises(StaleEdit):
        notes.remove(workspace, SLUG, 1, note, 1)
    assert [found.text for found in shown(workspace).notes] == ["From the phone"]
    notes.save(workspace, SLUG, 1, note, 2, NoteTyped("From the laptop"))
    notes.remove(workspace, SLUG, 1, note, 3)
    assert shown(workspace).notes == ()


def test_photos_are_kept_upright_with_small_copies(workspace, steps):
    turned = Image.Exif()
    turned[0x0112] = 6  # EXIF 2.32, 4.6.4: turn a quarter clockwise
    original = jpeg(exif=turned.tobytes())
    sent = [("DCIM/a.jpg", original)]
    taken = photos.take(workspace, SLUG, 1, sent, str(steps[0]), NOON)
    assert (taken.kept, taken.refusals) == (1, ())
    (photo,) = shown(workspace).steps[0].photos
    assert (photo.name, photo.width, photo.height) == ("a.jpg", 40, 60)
    assert photos.file(workspace, photo.id, "original").data == original
    web = photos.file(workspace, photo.id, "web")
    assert (web.content_type, web.name) == ("image/jpeg", "a.jpg")
    assert Image.open(BytesIO(web.data)).size == (40, 60)


def test_one_bad_file_keeps_no_other_out(workspace, steps):
    sent = [
        ("a.jpg", jpeg(10)),
        ("letter.txt", b"Dear viewer"),
        ("again.jpg", jpeg(10)),
        ("b.jpg", jpeg(20)),
    ]
    taken = photos.take(workspace, SLUG, 1, sent, "", NOON)
    assert taken.kept == 2
    assert "“letter.txt” is not a photo" in taken.refusals[0]
    assert "“again.jpg” is in this log already, as “a.jpg”" in taken.refusals[1]
    assert [photo.name for photo in shown(workspace).photos] == ["a.jpg", "b.jpg"]


def test_a_photo_that_was_refused_leaves_no_file(workspace, steps):
    photos.take(workspace, SLUG, 1, [("half.jpg", jpeg()[:400])], "", NOON)
    with workspace.read() as work:
        assert files.sweep(work, workspace.folder) == ()


def test_the_same_photo_may_stand_in_two_parts(workspace, steps):
    for number in (1, 2):
        taken = photos.take(workspace, SLUG, number, [("a.jpg", jpeg())], "", NOON)
        assert taken.kept == 1


def test_words_and_cover_of_a_photo(workspace, steps):
    sent = [("a.jpg", jpeg(10)), ("b.jpg", jpeg(20))]
    photos.take(workspace, SLUG, 1, sent, "", NOON)
    first, second = shown(workspace).photos
    assert shown(workspace).wordless == (first.id, second.id)
    photos.save(workspace, SLUG, 1, first.id, 1, "Closed", "A ring", str(steps[1]))
    with pytest.raises(StaleEdit) as conflict:
        photos.save(workspace, SLUG, 1, first.id, 1, "Open", "", "")
    assert conflict.value.stored["caption"] == "Closed"
    photos.choose_cover(workspace, SLUG, 1, first.id)
    photos.choose_cover(workspace, SLUG, 1, second.id)
    found = shown(workspace)
    assert found.steps[1].photos[0].caption == "Closed"
    assert [photo.cover for photo in (*found.steps[1].photos, *found.photos)] == [
        False,
        True,
    ]
    assert found.wordless == (second.id,)


def test_a_removed_photo_is_gone_from_the_log(workspace, steps):
    photos.take(workspace, SLUG, 1, [("a.jpg", jpeg())], "", NOON)
    (photo,) = shown(workspace).photos
    photos.remove(workspace, SLUG, 1, photo.id)
    assert shown(workspace).photos == ()
    with pytest.raises(NotFound):
        photos.file(workspace, photo.id, "web")


def test_a_size_that_there_is_not_is_not_found(workspace, steps):
    photos.take(workspace, SLUG, 1, [("a.jpg", jpeg())], "", NOON)
    (photo,) = shown(workspace).photos
    with pytest.raises(NotFound, match="thumb, web and original"):
        photos.file(workspace, photo.id, "huge")


@pytest.mark.parametrize(
    ("offset", "said"),
    [
        ("-05:30", "2026-03-01 09:30 (UTC−5:30)"),
        ("", "2026-03-01 09:30 by the camera’s clock"),
    ],
)
def test_the_camera_s_clock_is_told_without_a_guess(workspace, steps, offset, said):
    facts = Image.Exif()
    sub = facts.get_ifd(0x8769)
    sub[0x9003] = "2026:03:01 09:30:00"
    if offset:
        sub[0x9011] = offset
    sent = [("a.jpg", jpeg(exif=facts.tobytes()))]
    photos.take(workspace, SLUG, 1, sent, "", NOON)
    assert shown(workspace).photos[0].taken == said
