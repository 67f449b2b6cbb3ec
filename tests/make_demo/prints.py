"""From a rendered picture to the file a camera would have written."""

from __future__ import annotations

from datetime import datetime
from io import BytesIO

import numpy as np
from PIL import ExifTags, Image

from tests.make_demo.scene import SIZE, Camera, Scene, render

LARGEST = 150_000  # bytes of one photo


def photo(scene: Scene, camera: Camera, taken: datetime) -> bytes:
    """A JPEG of a scene with the camera's clock and no place."""
    picture = render(scene, camera)
    picture = picture * 1.22
    # A print's curve: the brightest parts run out gently.
    picture = 1 - np.exp(-1.45 * picture)
    picture = np.clip(picture, 0, 1) ** (1 / 1.12)
    height, width, _ = picture.shape
    y, x = np.mgrid[-1 : 1 : height * 1j, -1 : 1 : width * 1j]
    picture *= (1 - 0.20 * np.clip(x**2 + y**2 - 0.35, 0, 2))[..., None]
    chance = np.random.default_rng(1)
    picture += chance.normal(0, 0.008, (height, width, 1))
    image = Image.fromarray((np.clip(picture, 0, 1) * 255).astype(np.uint8), "RGB")
    return _packed(image.resize(SIZE, Image.Resampling.LANCZOS), taken)


def _packed(image: Image.Image, taken: datetime) -> bytes:
    exif = Image.Exif()
    offset = taken.strftime("%z")
    exif.get_ifd(ExifTags.IFD.Exif).update(
        {
            ExifTags.Base.DateTimeOriginal: taken.strftime("%Y:%m:%d %H:%M:%S"),
            ExifTags.Base.OffsetTimeOriginal: f"{offset[:3]}:{offset[3:]}",
        }
    )
    for quality in range(88, 40, -4):
        held = BytesIO()
        image.save(held, "JPEG", quality=quality, optimize=True, exif=exif)
        if held.tell() <= LARGEST:
            break
    return held.getvalue()
