"""Decoding one picture in a process of its own, with little time and memory.

A picture file is the most dangerous thing that comes in: decoders are large
programs in C. Run as ``python -m app.publish.picture_worker`` with the file on
standard input; answers one line of JSON, then the bytes of the web copy and of
the thumbnail. A file that cannot be used is answered by its reason.
"""

from __future__ import annotations

import json
import re
import sys
import warnings
from contextlib import suppress
from datetime import datetime
from io import BytesIO

import pillow_heif
from PIL import Image, ImageCms, ImageFile, ImageOps, UnidentifiedImageError

MAX_PIXELS = 60_000_000
MAX_MEMORY = 2 * 1024**3  # bytes of address space: 60 megapixels, twice, and room
MAX_SECONDS = 30  # of the processor
WEB_SIDE = 1600
THUMB_SIDE = 400
ALLOWED = ("JPEG", "PNG", "WEBP", "HEIF")
SUB_IFD = 0x8769  # EXIF 2.32, 4.6.3: pointer to the block of exposure facts
DATE_TIME_ORIGINAL = 0x9003
OFFSET_TIME_ORIGINAL = 0x9011
DATE = re.compile(r"(\d{4}):(\d\d):(\d\d) (\d\d):(\d\d):(\d\d)", re.ASCII)
OFFSET = re.compile(r"([+-])(\d\d):(\d\d)", re.ASCII)


class Refused(Exception):
    """Why the file cannot be used, as a word that ``pictures`` puts in a sentence."""


def main() -> None:
    """Read standard input, answer on standard output."""
    _limit()
    try:
        head, web, thumb = work(sys.stdin.buffer.read())
    except Refused as reason:
        head, web, thumb = {"refused": str(reason)}, b"", b""
    except MemoryError:
        head, web, thumb = {"refused": "memory"}, b"", b""
    head |= {"web": len(web), "thumb": len(thumb)}
    sys.stdout.buffer.write(json.dumps(head).encode() + b"\n" + web + thumb)


def work(data: bytes) -> tuple[dict[str, object], bytes, bytes]:
    """The facts of the picture, its web copy and its thumbnail, both JPEG."""
    Image.MAX_IMAGE_PIXELS = MAX_PIXELS
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    pillow_heif.register_heif_opener(thumbnails=False)
    with warnings.catch_warnings():
        # Others tell of odd metadata, which is not needed; this one of a bomb.
        warnings.simplefilter("ignore")
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        image = _opened(data)
        taken_at, taken_offset = _taken(image)
        upright = _upright(image)
        web = _small(_plain(upright), WEB_SIDE)
        thumb = _small(web, THUMB_SIDE)
    head: dict[str, object] = {
        # A multi-picture file is a JPEG with more behind it.
        "format": "JPEG" if image.format == "MPO" else image.format,
        "width": upright.width,
        "height": upright.height,
        "taken_at": taken_at,
        "taken_offset": taken_offset,
    }
    return head, _jpeg(web), _jpeg(thumb)


def _opened(data: bytes) -> Image.Image:
    """The picture, decoded whole."""
    try:
        image = Image.open(BytesIO(data), formats=ALLOWED)
    except UnidentifiedImageError as error:
        raise Refused("unknown") from error
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise Refused("pixels") from error
    except (OSError, ValueError, SyntaxError) as error:
        raise Refused("unpacks" if "too large" in str(error) else "damaged") from error
    if image.width * image.height > MAX_PIXELS:
        raise Refused("pixels")
    try:
        image.load()
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise Refused("pixels") from error
    except (OSError, ValueError, SyntaxError) as error:
        raise Refused("damaged") from error
    return image


def _taken(image: Image.Image) -> tuple[str, int | None]:
    """The camera's clock as ``YYYY-MM-DDTHH:MM:SS`` and its offset in minutes.

    What is missing or junk is missing: no zone and no date is ever guessed.
    """
    try:
        facts = image.getexif().get_ifd(SUB_IFD)
        date = DATE.fullmatch(_text(facts.get(DATE_TIME_ORIGINAL)))
        offset = OFFSET.fullmatch(_text(facts.get(OFFSET_TIME_ORIGINAL)))
    except Exception:  # metadata of any shape must not lose a good picture
        return "", None
    if date is None or not _is_a_moment([int(part) for part in date.groups()]):
        return "", None
    taken = "{}-{}-{}T{}:{}:{}".format(*date.groups())
    if offset is None or int(offset[2]) > 14 or int(offset[3]) > 59:
        return taken, None
    minutes = int(offset[2]) * 60 + int(offset[3])
    return taken, -minutes if offset[1] == "-" else minutes


def _text(value: object) -> str:
    if isinstance(value, bytes):
        value = value.decode("ascii", errors="replace")
    return value.strip("\0 ") if isinstance(value, str) else ""


def _is_a_moment(parts: list[int]) -> bool:
    try:
        datetime(*parts, tzinfo=None)  # type: ignore[arg-type, misc]  # noqa: DTZ001
    except ValueError:
        return False
    return True


def _upright(image: Image.Image) -> Image.Image:
    # The HEIF decoder has turned the picture already; its tag says so no more.
    if image.format == "HEIF":
        return image
    try:
        return ImageOps.exif_transpose(image)
    except Exception:  # an unreadable tag turns nothing
        return image


def _plain(image: Image.Image) -> Image.Image:
    """The picture in sRGB on white, without anything but its pixels."""
    if image.mode.startswith("I"):  # 16 bits of grey
        image = image.convert("I").point(lambda level: level / 256).convert("L")
    if image.has_transparency_data:
        seen = image.convert("RGBA")
        ground = Image.new("RGBA", seen.size, "white")
        seen = Image.alpha_composite(ground, seen).convert("RGB")
    else:
        seen = _in_srgb(image)
    # A new picture: `info` would carry comments and profiles into the next save.
    clean = Image.new("RGB", seen.size)
    clean.paste(seen)
    return clean


def _in_srgb(image: Image.Image) -> Image.Image:
    profile = image.info.get("icc_profile")
    if profile and image.mode in {"RGB", "CMYK", "L"}:
        with suppress(ImageCms.PyCMSError, OSError, ValueError, TypeError):
            turned = ImageCms.profileToProfile(
                image,
                BytesIO(profile),
                ImageCms.createProfile("sRGB"),
                outputMode="RGB",
            )
            if turned is not None:
                return turned
    return image.convert("RGB")


def _small(image: Image.Image, side: int) -> Image.Image:
    small = image.copy()
    small.thumbnail((side, side), Image.Resampling.LANCZOS)
    return small


def _jpeg(image: Image.Image) -> bytes:
    out = BytesIO()
    image.save(out, "JPEG", quality=85, optimize=True, progressive=True)
    return out.getvalue()


def _limit() -> None:
    try:
        import resource  # noqa: PLC0415  not on every system
    except ImportError:
        return
    for what, most in (
        (resource.RLIMIT_AS, MAX_MEMORY),
        (resource.RLIMIT_CPU, MAX_SECONDS),
    ):
        # Some systems know the limit and refuse to set it; the clock still runs.
        with suppress(ValueError, OSError):
            resource.setrlimit(what, (most, most))


if __name__ == "__main__":
    main()
