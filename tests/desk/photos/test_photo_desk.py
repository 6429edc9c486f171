"""Photos on the desk: a length is what the command says, nothing of the picture is kept, and refusals are one sentence."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pytest
from PIL import Image

from planner.desk.photos.photo_desk import PHOTOS_MOST, PhotoDesk
from planner.errors import PhotoError
from tests.photo.rendered import photo, shot

ASKED: dict[str, Any] = {
    "points_px": [400.0, 300.0, 800.0, 600.0],
    "click_px": 1.0,
    "above_mm": 5.0,
    "above_off_mm": 10.0,
    "ruler_mm": 100.0,
    "round": False,
}


@pytest.fixture(name="data", scope="module")
def _data() -> bytes:
    """Return a photo of the card."""
    rng = np.random.default_rng(3)
    kept = io.BytesIO()
    Image.fromarray(photo(shot(rng), rng)).save(kept, "PNG")
    return kept.getvalue()


def test_a_hand_that_aims_worse_has_a_wider_range(data: bytes) -> None:
    """The value stays; a mark that may be four pixels off adds to the range what four times one pixel does."""
    photos = PhotoDesk()
    number = str(photos.add(data)["photo"])
    fine, coarse = (photos.length(number, ASKED | {"click_px": px}).length for px in (1.0, 4.0))

    assert fine.value_mm == coarse.value_mm
    assert coarse.parts_mm["points"] == pytest.approx(4.0 * fine.parts_mm["points"])
    assert coarse.high_mm - coarse.low_mm > fine.high_mm - fine.low_mm


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"points_px": [1.0, 2.0]}, "set both marks"),
        ({"points_px": [9e4, 2.0, 3.0, 4.0]}, "outside the photo"),
        ({"points_px": [float("nan")] * 4}, "cannot be"),
        ({"points_px": [10.0, 10.0, 11.0, 11.0]}, "one place"),
        ({"above_mm": None}, "not stated"),
        ({"above_mm": 900.0}, "give -300 to 300"),
        ({"above_off_mm": -1.0}, "give 0 to 100"),
        ({"ruler_mm": True}, "give 80 to 120"),
        ({"click_px": "x"}, "cannot be"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(data: bytes, wrong: dict[str, Any], said: str) -> None:
    """Points outside, on each other or none; a height nobody stated; a ruler that no printer prints."""
    photos = PhotoDesk()
    number = str(photos.add(data)["photo"])
    with pytest.raises(PhotoError, match=said):
        photos.length(number, ASKED | wrong)


def test_a_photo_that_was_taken_away_is_forgotten(data: bytes) -> None:
    """Its camera goes at once, and the oldest camera when many photos are in."""
    photos = PhotoDesk()
    number = str(photos.add(data)["photo"])
    photos.length(number, ASKED)
    photos.forget(number)
    photos.forget(number)
    with pytest.raises(PhotoError, match="drop it in again"):
        photos.length(number, ASKED)
    assert PHOTOS_MOST >= 2
