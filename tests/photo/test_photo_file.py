"""Photos are read as a viewer shows them; what is no photo is one sentence."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from planner.errors import PhotoError
from planner.photo import read_photo, without_place


def test_a_turned_photo_is_read_as_a_viewer_shows_it_with_its_lens(tmp_path: Path) -> None:
    """Exif says: turned by a quarter, and a lens like 26 mm on film."""
    grey = np.zeros((300, 400), np.uint8)
    grey[0, :40] = 255
    picture, told = Image.fromarray(grey), Image.Exif()
    told[0x0112] = 6
    told.get_ifd(0x8769)[0xA405] = 26
    picture.save(tmp_path / "arm.png", exif=told)
    found = read_photo(tmp_path / "arm.png")

    assert found.grey.shape == (400, 300)
    assert found.grey[:40, -1].min() == 255
    assert found.focal_35_mm == 26.0


@pytest.mark.parametrize(
    ("name", "data"), [("none.jpg", None), ("text.jpg", b"no picture"), ("cut.png", b"\x89PNG\r\n\x1a\n" + b"\0" * 30)]
)
def test_what_is_no_photo_is_refused_in_one_sentence(tmp_path: Path, name: str, data: bytes | None) -> None:
    """Missing, text, cut off."""
    if data is not None:
        (tmp_path / name).write_bytes(data)
    with pytest.raises(PhotoError, match=name):
        read_photo(tmp_path / name)


def test_a_tiny_picture_is_refused(tmp_path: Path) -> None:
    """No card would be found in it."""
    Image.fromarray(np.zeros((20, 20), np.uint8)).save(tmp_path / "tiny.png")
    with pytest.raises(PhotoError, match="20 x 20"):
        read_photo(tmp_path / "tiny.png")


def test_a_kept_photo_says_of_its_camera_only_what_its_lens_is(tmp_path: Path) -> None:
    """Place (Exif 0x8825), day and owner go; size upright and lens stay."""
    told = Image.Exif()
    told[0x0112], told[0x013B], told[0x0132] = 6, "an owner", "2026:12:01 10:00:00"
    told.get_ifd(0x8769)[0xA405] = 26
    told.get_ifd(0x8825)[1] = "N"
    Image.fromarray(np.zeros((300, 400), np.uint8)).save(tmp_path / "arm.jpg", exif=told)
    kept = tmp_path / "kept.jpg"
    kept.write_bytes(without_place((tmp_path / "arm.jpg").read_bytes(), "arm.jpg"))

    with Image.open(kept) as opened:
        said = opened.getexif()
        assert opened.size == (300, 400)
        assert dict(said.get_ifd(0x8825)) == {}
        assert set(said) <= {0x8769}
    assert read_photo(kept).focal_35_mm == 26.0
