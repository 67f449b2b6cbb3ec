"""Cleaned photos: the same picture, without what the camera wrote beside it."""

from __future__ import annotations

import warnings
from io import BytesIO

from PIL import Image

from app.publish.traces import cleaned
from tests.conftest import shared

# Camera makers' and places' tags: EXIF 2.32 (CIPA DC-008), number from memory.
SERIALS = (0xA430, 0xA431, 0xA435, 0xC62F, 0x927C, 0x9286)


def opened(content: bytes) -> Image.Image:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        picture = Image.open(BytesIO(content))
        picture.load()
    return picture


def test_published_photos_keep_their_pixels_and_way_up_and_lose_the_rest() -> None:
    count = 0
    for folder in ("bad_exif", "colour", "dates", "gps", "orientation"):
        for path in sorted(shared(f"fixtures/photos/{folder}").rglob("*.jp*g")):
            before = path.read_bytes()
            try:
                original = opened(before)
            except OSError:
                continue  # no whole picture, so it was never kept
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")
                after, suffix = cleaned(before)
                assert cleaned(after) == (after, ".jpg"), path
            picture = opened(after)
            exif = picture.getexif()
            assert suffix == ".jpg"
            assert picture.tobytes() == original.tobytes(), path
            assert not exif.get_ifd(0x8825), path
            assert not [t for t in SERIALS if t in exif.get_ifd(0x8769)], path
            assert set(exif) <= {0x0112, 0x8769}, path
            assert b"http://ns.adobe.com/xap" not in after, path
            count += 1
    assert count > 15
