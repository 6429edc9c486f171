"""A photo's file: its grey pixels as a viewer shows them, and what it says of its lens. Nothing of it is kept."""

from __future__ import annotations

import io
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageOps, UnidentifiedImageError

from planner.errors import PhotoError

FOCAL_35_TAG, EXIF_ROOM = 0xA405, 0x8769
"""Exif 2.3: the focal length of a lens that would show as much on 35 mm film, and the room of tags it stands in."""
SIDE_LEAST_PX, PIXELS_MOST = 300, 120_000_000
"""Under the one no card is found; over the other a file is no phone's photo, and would fill the memory."""


JPEG_QUALITY = 95
"""A card's corners are found as well in it as in the photo itself."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Photo:
    """A photo, upright as a viewer shows it.

    Parameters
    ----------
    grey
        (rows, columns) of 0 to 255.
    focal_35_mm
        What its lens would be on 35 mm film; None where the file does not say.
    """

    grey: NDArray[np.uint8]
    focal_35_mm: float | None = None


def read_photo(path: Path) -> Photo:
    """Return a photo from its file.

    Raises
    ------
    PhotoError
        Where the file is missing, is no picture, or is far too small or too large.
    """
    try:
        data = path.read_bytes()
    except FileNotFoundError as fault:
        raise PhotoError(where=str(path), wrong="there is no such file", todo="name a photo of the limb") from fault
    except OSError as fault:
        raise PhotoError(where=str(path), wrong="it cannot be read as a picture", todo="use a JPEG or PNG") from fault
    return photo_of(data, str(path))


def photo_of(data: bytes, where: str) -> Photo:
    """Return a photo from a file's bytes; ``where`` is what a refusal calls it.

    Raises
    ------
    PhotoError
        Where it is no picture, or is far too small or too large.
    """
    try:
        with Image.open(io.BytesIO(data)) as opened:
            wide, high = opened.size
            if min(wide, high) < SIDE_LEAST_PX or wide * high > PIXELS_MOST:
                raise PhotoError(
                    where=where,
                    wrong=f"the picture is {wide} x {high} pixels",
                    todo=f"take a photo of {SIDE_LEAST_PX} pixels or more each way, and of at most "
                    f"{PIXELS_MOST / 1e6:.0f} million in all",
                )
            tag = opened.getexif().get_ifd(EXIF_ROOM).get(FOCAL_35_TAG)
            grey = np.asarray(ImageOps.exif_transpose(opened).convert("L"), dtype=np.uint8)
    except (UnidentifiedImageError, OSError, ValueError, SyntaxError, Image.DecompressionBombError) as fault:
        raise PhotoError(where=where, wrong="it cannot be read as a picture", todo="use a JPEG or PNG") from fault
    focal = float(tag) if isinstance(tag, int | float) and tag > 0 else None
    return Photo(grey=grey, focal_35_mm=focal)


def without_place(data: bytes, where: str) -> bytes:
    """Return a photo as a JPEG, upright, that says of its camera only what its lens is: no place, no day, no owner.

    Raises
    ------
    PhotoError
        Where it cannot be read.
    """
    lens = photo_of(data, where).focal_35_mm
    told = Image.Exif()
    if lens:
        told.get_ifd(EXIF_ROOM)[FOCAL_35_TAG] = round(lens)
    kept = io.BytesIO()
    with Image.open(io.BytesIO(data)) as opened:
        ImageOps.exif_transpose(opened).convert("RGB").save(kept, "JPEG", quality=JPEG_QUALITY, exif=told)
    return kept.getvalue()
