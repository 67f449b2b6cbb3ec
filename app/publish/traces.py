"""Photos without what a camera writes into them, pixel for pixel the same.

Nothing is decoded and packed again: only the parts that make the picture are
kept, and of the rest the way up and the time it was taken. So the copies made
from a cleaned photo equal those made from the original, and cleaning twice
changes nothing.
"""

from __future__ import annotations

import struct
import zlib
from io import BytesIO

import pillow_heif
from PIL import ExifTags, Image, ImageOps

from app.core.errors import WorkshopError

EXIF = b"Exif\x00\x00"
PNG_START = b"\x89PNG\r\n\x1a\n"
# What makes the picture: ITU-T T.81 (markers), ISO/IEC 15948 (PNG), RFC 9649.
PNG_KEPT = {b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"gAMA", b"cHRM", b"sRGB"}
PNG_KEPT |= {b"iCCP", b"sBIT", b"bKGD", b"pHYs"}
WEBP_DROPPED = {b"EXIF", b"XMP "}
VP8X_EXIF_AND_XMP = 0x0C
_WITHIN_A_SCAN = {0x00, 0xFF, *range(0xD0, 0xD8)}


def cleaned(photo: bytes) -> tuple[bytes, str]:
    """The photo without place, serial numbers and owner, and its file suffix.

    Raises WorkshopError where it is no photo that is kept here.
    """
    try:
        if photo.startswith(b"\xff\xd8"):
            return _jpeg(photo), ".jpg"
        if photo.startswith(PNG_START) and _way_up(photo) == 1:
            return _png(photo), ".png"
        if photo[:4] == b"RIFF" and photo[8:12] == b"WEBP" and _way_up(photo) == 1:
            return _webp(photo), ".webp"
        return _packed_again(photo), ".jpg"
    except (OSError, ValueError, SyntaxError, struct.error, IndexError) as error:
        raise WorkshopError(f"A photo cannot be cleaned: {error}.") from error


def _way_up(photo: bytes) -> int:
    with Image.open(BytesIO(photo)) as picture:
        return int(picture.getexif().get(ExifTags.Base.Orientation, 1))


def _jpeg(photo: bytes) -> bytes:
    kept = [b"\xff\xd8"]
    if exif := _kept_exif(photo):
        kept.append(b"\xff\xe1" + struct.pack(">H", len(exif) + 2) + exif)
    at = 2
    while photo[at : at + 2] != b"\xff\xda":
        if photo[at] != 0xFF:
            raise ValueError("its segments are damaged")
        if photo[at + 1] == 0xFF:  # a fill byte before a marker
            at += 1
            continue
        size = struct.unpack_from(">H", photo, at + 2)[0]
        segment = photo[at : at + 2 + size]
        if _makes_the_picture(segment):
            kept.append(segment)
        at += 2 + size
    kept.append(photo[at : _end_of_picture(photo, at)])
    return b"".join(kept)


def _makes_the_picture(segment: bytes) -> bool:
    marker, content = segment[1], segment[4:]
    if marker == 0xE0:
        return content.startswith(b"JFIF\x00")
    if marker == 0xE2:
        return content.startswith(b"ICC_PROFILE\x00")
    if marker == 0xEE:
        return content.startswith(b"Adobe")
    return not (0xE0 <= marker <= 0xEF or marker == 0xFE)


def _end_of_picture(photo: bytes, at: int) -> int:
    """Just after the end marker: films and second pictures may follow it.

    ``at`` is the first scan. Between scans stand tables, whose bytes may look
    like an end; within one, 0xFF is followed by zero or a restart marker.
    """
    while photo[at + 1] != 0xD9:
        at += 2 + int(struct.unpack_from(">H", photo, at + 2)[0])
        while photo[at] != 0xFF or photo[at + 1] in _WITHIN_A_SCAN:
            at = photo.find(b"\xff", at + 1)
            if at < 0:
                raise ValueError("it ends too early")
    return at + 2


def _kept_exif(photo: bytes) -> bytes:
    with Image.open(BytesIO(photo)) as picture:
        found = picture.getexif()
    within = found.get_ifd(ExifTags.IFD.Exif)
    kept = Image.Exif()
    if (way_up := found.get(ExifTags.Base.Orientation, 1)) in range(2, 9):
        kept[ExifTags.Base.Orientation] = way_up
    tags = (ExifTags.Base.DateTimeOriginal, ExifTags.Base.OffsetTimeOriginal)
    times = {tag: str(within[tag]) for tag in tags if tag in within}
    if times:
        kept.get_ifd(ExifTags.IFD.Exif).update({int(k): v for k, v in times.items()})
    return kept.tobytes() if way_up in range(2, 9) or times else b""


def _png(photo: bytes) -> bytes:
    kept, at = [PNG_START], len(PNG_START)
    while at < len(photo):
        size, kind = struct.unpack_from(">I4s", photo, at)
        chunk = photo[at : at + 12 + size]
        if len(chunk) != 12 + size or struct.unpack_from(">I", chunk, 8 + size)[
            0
        ] != zlib.crc32(chunk[4:-4]):
            raise ValueError("one of its chunks is damaged")
        if kind in PNG_KEPT:
            kept.append(chunk)
        if kind == b"IEND":
            break
        at += 12 + size
    return b"".join(kept)


def _webp(photo: bytes) -> bytes:
    kept, at = [], 12
    end = min(len(photo), 8 + struct.unpack_from("<I", photo, 4)[0])
    while at + 8 <= end:
        kind, size = struct.unpack_from("<4sI", photo, at)
        chunk = photo[at : at + 8 + size + size % 2]
        if kind == b"VP8X":
            flags = chunk[8] & ~VP8X_EXIF_AND_XMP
            chunk = chunk[:8] + bytes([flags]) + chunk[9:]
        if kind not in WEBP_DROPPED:
            kept.append(chunk)
        at += len(chunk)
    body = b"WEBP" + b"".join(kept)
    return b"RIFF" + struct.pack("<I", len(body)) + body


def _packed_again(photo: bytes) -> bytes:
    """A kind of file that cannot be cleaned in place, as a new JPEG, upright."""
    pillow_heif.register_heif_opener()
    with Image.open(BytesIO(photo)) as picture:
        upright = ImageOps.exif_transpose(picture).convert("RGB")
    held = BytesIO()
    upright.save(held, "JPEG", quality=92)
    return held.getvalue()
