"""Photos against published image files made by other people.

Expected: what Pillow 13.0 with pillow-heif 1.8 reads, and beside it ExifTool
12.57 as a second, independent reading of the dates; both noted in the manifest.
That no copy says where it was taken is read off its bytes here, by the marker
segments of a JPEG file (ISO/IEC 10918-1, B.1.1.3), without a picture library.
"""

import json
import struct
from datetime import datetime
from io import BytesIO

import pytest
from PIL import Image

from app.core.errors import WorkshopError
from app.publish.pictures import Picture, read_picture
from tests.conftest import SHARED, shared

HERE = "fixtures/photos"
MANIFEST = SHARED / HERE / "manifest.json"
RECORDS = json.loads(MANIFEST.read_text("utf-8")) if MANIFEST.exists() else []
NAMES = [record["file"] for record in RECORDS] or ["orientation/landscape_1.jpg"]
BY_NAME = {record["file"]: record for record in RECORDS}
GOOD = [r["file"] for r in RECORDS if r["expected"].get("decode") == "ok"]
GOOD = [name for name in GOOD if BY_NAME[name]["expected"]["opens_with_allow_list"]]
BAD = [name for name in NAMES if name not in GOOD]


def data(name: str) -> bytes:
    return (shared(HERE) / name).read_bytes()


def segments(jpeg: bytes) -> list[tuple[int, bytes]]:
    """Marker and content of each segment before the picture's own data."""
    assert jpeg[:2] == b"\xff\xd8"
    found, at = [], 2
    while jpeg[at + 1] != 0xDA:
        marker, length = jpeg[at + 1], struct.unpack(">H", jpeg[at + 2 : at + 4])[0]
        found.append((marker, jpeg[at + 4 : at + 2 + length]))
        at += 2 + length
    return found


def assert_only_pixels(jpeg: bytes) -> None:
    for marker, content in segments(jpeg):
        # APP1 is EXIF and XMP, APP2 profiles, APP13 IPTC, FE a comment.
        application = 0xE0 <= marker <= 0xEF or marker == 0xFE
        assert not application or (marker == 0xE0 and content.startswith(b"JFIF\0"))
    for word in (b"Exif", b"GPS", b"http://ns.adobe", b"8BIM", b"Photoshop", b"ICC_"):
        assert word not in jpeg
    picture = Image.open(BytesIO(jpeg))
    assert not picture.getexif()
    assert set(picture.info) <= {
        *("jfif", "jfif_version", "jfif_unit", "jfif_density"),
        *("progressive", "progression"),
    }


@pytest.fixture(scope="module")
def read() -> dict[str, Picture]:
    return {name: read_picture(data(name), name) for name in GOOD}


def test_every_published_photo_is_tried():
    shared(HERE)
    assert len(RECORDS) == 47
    assert len(GOOD) + len(BAD) == 47


def test_a_photo_has_its_upright_size(read):
    for name, picture in read.items():
        upright = tuple(BY_NAME[name]["expected"]["upright_size"])
        assert (picture.width, picture.height) == upright, name
        assert picture.format == BY_NAME[name]["expected"]["pillow_format"], name


def as_minutes(offset: str | None) -> int | None:
    if offset is None:
        return None
    moment = datetime.fromisoformat(f"2000-01-01T00:00:00{offset}")
    return round(moment.utcoffset().total_seconds() / 60)


def test_the_camera_s_date_and_offset_are_read_and_never_guessed(read):
    for name, picture in read.items():
        expected = BY_NAME[name]["expected"]
        taken = expected.get("datetime_original") or ""
        if taken:
            day, clock = taken.split(" ")
            taken = f"{day.replace(':', '-')}T{clock}"
            # The second reading agrees with the first.
            second = BY_NAME[name]["exiftool"]["DateTimeOriginal"]
            assert second == expected["datetime_original"], name
        assert picture.taken_at == taken, name
        offset = as_minutes(expected.get("offset_time_original"))
        assert picture.taken_offset == offset, name


def test_no_copy_says_where_or_with_which_camera_it_was_taken(read):
    positions = [n for n in read if BY_NAME[n]["expected"].get("gps")]
    assert len(positions) == 2, "of the three files with a position, two decode"
    for picture in read.values():
        assert_only_pixels(picture.web)
        assert_only_pixels(picture.thumb)


def test_copies_are_small_and_keep_the_shape(read):
    for name, picture in read.items():
        web = Image.open(BytesIO(picture.web))
        thumb = Image.open(BytesIO(picture.thumb))
        assert web.mode == thumb.mode == "RGB", name
        assert max(web.size) == min(1600, max(picture.width, picture.height)), name
        assert max(thumb.size) == min(400, max(picture.width, picture.height)), name
        assert abs(web.width * picture.height - web.height * picture.width) <= max(
            picture.width, picture.height
        ), name


def unlike(one: Image.Image, other: Image.Image) -> float:
    """Mean difference of grey levels over a small copy."""
    size = (30, 30)
    pixels = [list(i.convert("L").resize(size).tobytes()) for i in (one, other)]
    return sum(abs(a - b) for a, b in zip(*pixels, strict=True)) / 900


@pytest.mark.parametrize("scene", ["landscape", "portrait"])
def test_all_eight_orientations_show_one_scene(read, scene: str):
    shown = [
        Image.open(BytesIO(read[f"orientation/{scene}_{n}.jpg"].web))
        for n in range(1, 9)
    ]
    for number, picture in enumerate(shown, start=1):
        assert unlike(shown[0], picture) < 4, number
        # The measure does see a picture that stands on its head.
        assert unlike(shown[0], picture.rotate(180)) > 20, number


def test_a_turned_heic_is_not_turned_twice(read):
    # The manifest says: an arrow drawn pointing up. Its tip is a point, its foot
    # a line, in black ink on light paper.
    picture = Image.open(BytesIO(read["heic/arrow.heic"].thumb)).convert("L")
    ink = picture.point(lambda level: 255 if level < 80 else 0)
    left, top, right, bottom = ink.getbbox()
    tip = ink.crop((0, top, ink.width, top + 5)).getbbox()
    foot = ink.crop((0, bottom - 12, ink.width, bottom)).getbbox()
    assert tip[2] - tip[0] < (right - left) / 8
    assert foot[2] - foot[0] > (right - left) / 3


@pytest.mark.parametrize("name", BAD)
def test_what_must_be_refused_is_refused_in_words(name: str):
    with pytest.raises(WorkshopError) as refusal:
        read_picture(data(name), name)
    assert refusal.value.input == "photos"
    assert str(refusal.value).startswith(f"“{name}” ")


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("broken/truncated_jpeg.jpg", "cut short"),
        ("gps/ultrahdr.jpg", "cut short"),
        ("broken/empty.heic", "empty"),
        ("broken/corrupted.heic", "not a photo"),
        ("broken/png_decompression_dos.png", "unpacks"),
        ("broken/decompression_bomb.gif", "GIF"),
    ],
)
def test_each_bad_photo_has_a_sentence_of_its_own(name: str, says: str):
    with pytest.raises(WorkshopError, match=says):
        read_picture(data(name), name)
