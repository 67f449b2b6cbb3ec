"""Photos made here: planted secrets, bombs, and files that are no photos."""

import struct
import subprocess
import sys
import zlib
from io import BytesIO
from typing import Any

import pytest
from PIL import Image
from PIL.PngImagePlugin import PngInfo

from app.core.errors import WorkshopError
from app.publish import picture_worker, pictures
from app.publish.pictures import read_picture

# Tags: EXIF 2.32 (CIPA DC-008-2019), tables 4 to 15.
MAKE, ARTIST, SUB_IFD, GPS_IFD = 0x010F, 0x013B, 0x8769, 0x8825
TAKEN, OFFSET, OWNER, SERIAL = 0x9003, 0x9011, 0xA430, 0xA431
SECRETS = (b"SN-7781-SECRET", b"Owner Of The Shop", b"GPSLatitude", b"59,19.5N")


def jpeg(width: int = 80, height: int = 60, **kept: Any) -> bytes:
    out = BytesIO()
    Image.new("RGB", (width, height), (150, 90, 40)).save(out, "JPEG", **kept)
    return out.getvalue()


def exif(taken: object = "2026:03:01 09:30:00", offset: object = "+01:00") -> bytes:
    facts = Image.Exif()
    facts[MAKE], facts[ARTIST] = "Nobody's", "Owner Of The Shop"
    sub = facts.get_ifd(SUB_IFD)
    sub[SERIAL], sub[OWNER] = "SN-7781-SECRET", "Owner Of The Shop"
    sub[TAKEN], sub[OFFSET] = taken, offset
    place = facts.get_ifd(GPS_IFD)
    place[1], place[2] = "N", (59.0, 19.0, 30.0)
    place[3], place[4] = "E", (18.0, 4.0, 12.0)
    return facts.tobytes()


def png_header(width: int, height: int, depth: int = 1) -> bytes:
    """A whole PNG file, grey, every pixel black, as small as it can be made."""

    def chunk(kind: bytes, content: bytes) -> bytes:
        check = zlib.crc32(kind + content)
        return (
            struct.pack(">I", len(content)) + kind + content + struct.pack(">I", check)
        )

    packed, row = zlib.compressobj(9), bytes(1 + (width * depth + 7) // 8)
    body = b"".join(packed.compress(row) for _ in range(height)) + packed.flush()
    head = struct.pack(">IIBBBBB", width, height, depth, 0, 0, 0, 0)
    start = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head)
    return start + chunk(b"IDAT", body) + chunk(b"IEND", b"")


def test_planted_secrets_are_in_the_original_and_in_no_copy():
    xmp = b'<x:xmpmeta xmlns:x="adobe:ns:meta/" GPSLatitude="59,19.5N"/>'
    original = jpeg(exif=exif(), xmp=xmp, comment=b"Owner Of The Shop")
    assert all(secret in original for secret in SECRETS), "they were planted"
    read = read_picture(original, "bench.jpg")
    for copy in (read.web, read.thumb):
        assert not any(secret in copy for secret in SECRETS)
        assert not Image.open(BytesIO(copy)).getexif()
    assert (read.taken_at, read.taken_offset) == ("2026-03-01T09:30:00", 60)


@pytest.mark.parametrize(
    ("taken", "offset", "kept"),
    [
        ("2026:03:01 09:30:00", "-05:30", ("2026-03-01T09:30:00", -330)),
        ("2026:03:01 09:30:00", "home", ("2026-03-01T09:30:00", None)),
        ("2026:03:01 09:30:00", "+99:00", ("2026-03-01T09:30:00", None)),
        ("2026:02:30 09:30:00", "+01:00", ("", None)),
        ("0000:00:00 00:00:00", "+01:00", ("", None)),
        ("    :  :     :  :  ", "+01:00", ("", None)),
        ("yesterday", "+01:00", ("", None)),
    ],
)
def test_a_junk_date_is_a_missing_date(taken: str, offset: str, kept: tuple):
    read = read_picture(jpeg(exif=exif(taken, offset)), "bench.jpg")
    assert (read.taken_at, read.taken_offset) == kept


def test_a_see_through_picture_stands_on_white():
    out = BytesIO()
    secret = PngInfo()
    secret.add_text("Author", "Owner Of The Shop")
    Image.new("RGBA", (40, 30), (0, 0, 0, 0)).save(out, "PNG", pnginfo=secret)
    read = read_picture(out.getvalue(), "plan.png")
    assert Image.open(BytesIO(read.web)).getpixel((20, 15)) == (255, 255, 255)
    assert b"Owner" not in read.web


def test_sixteen_bits_of_grey_keep_their_grey():
    out = BytesIO()
    Image.new("I;16", (40, 30), 128 * 256).save(out, "PNG")
    read = read_picture(out.getvalue(), "scan.png")
    level = Image.open(BytesIO(read.web)).getpixel((20, 15))[0]
    assert abs(level - 128) <= 2


@pytest.mark.parametrize(
    ("data", "name", "says"),
    [
        (b"", "empty.jpg", "is empty"),
        (b"Dear viewer", "letter.jpg", "not a photo"),
        (b"<?xml version='1.0'?><svg/>", "drawing.svg", "SVG"),
        (b"GIF89a\1\0\1\0\0\0\0", "dance.gif", "GIF"),
        (b"II*\0\x08\0\0\0", "scan.tif", "TIFF"),
        (jpeg(800, 600)[:3000], "half.jpg", "cut short or damaged"),
        (png_header(3000, 3000)[:200], "half.png", "cut short or damaged"),
        (png_header(20_000, 10_000), "bomb.png", "60 million pixels"),
        (png_header(8_000, 8_000), "warned.png", "60 million pixels"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_a_bad_photo_is_refused_with_a_sentence_of_its_own(
    data: bytes, name: str, says: str
):
    with pytest.raises(WorkshopError, match=says) as refusal:
        read_picture(data, name)
    assert str(refusal.value).startswith(f"“{name}” ")


def test_the_two_hundred_megapixel_bomb_is_what_it_says():
    bomb = png_header(20_000, 10_000)
    assert len(bomb) < 100_000
    assert struct.unpack(">II", bomb[16:24]) == (20_000, 10_000)


def test_a_large_photo_inside_the_limit_is_taken():
    read = read_picture(png_header(7_700, 7_700, 8), "large.png")
    assert (read.width, read.height) == (7_700, 7_700)
    assert Image.open(BytesIO(read.web)).size == (1600, 1600)


def test_a_file_too_large_for_a_photo_is_not_even_opened(
    monkeypatch: pytest.MonkeyPatch,
):
    monkeypatch.setattr(pictures, "LARGEST", 10)
    monkeypatch.setattr(pictures, "_worked", None)
    with pytest.raises(WorkshopError, match="may have"):
        read_picture(b"x" * 11, "film.mov")


def test_a_decoder_that_hangs_or_dies_takes_nothing_along(
    monkeypatch: pytest.MonkeyPatch,
):
    def hangs(*_arguments: object, timeout: int, **_more: object) -> None:
        raise subprocess.TimeoutExpired("decoder", timeout)

    monkeypatch.setattr(subprocess, "run", hangs)
    with pytest.raises(WorkshopError, match="too long"):
        read_picture(jpeg(), "slow.jpg")

    def dies(*_arguments: object, **_more: object) -> subprocess.CompletedProcess:
        return subprocess.CompletedProcess("decoder", -9, b"", b"")

    monkeypatch.setattr(subprocess, "run", dies)
    with pytest.raises(WorkshopError, match="gave up"):
        read_picture(jpeg(), "deadly.jpg")


def test_the_decoder_has_little_memory():
    # In a process of its own: the limit cannot be taken back.
    script = (
        "from app.publish import picture_worker as w\n"
        "w._limit()\n"
        "try:\n    bytearray(3 * 1024**3)\nexcept MemoryError:\n    print('refused')\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], check=True, capture_output=True, text=True
    )
    assert done.stdout.strip() == "refused", picture_worker.MAX_MEMORY
