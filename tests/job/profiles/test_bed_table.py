"""Beds: three shapes, and one sentence for a bed of which nothing is left."""

from __future__ import annotations

import pytest

from planner.errors import ProfileError
from planner.job import Bed, Table
from planner.job.profiles.bed_table import read_bed

BASE: dict[str, object] = {"height_mm": 200.0, "margin_mm": 5.0}


def _bed(**more: object) -> Bed:
    return read_bed(Table({**BASE, **more}, "my.toml bed", ProfileError))


def test_three_shapes_are_read() -> None:
    """A rectangle by two sides, a circle by its diameter, a polygon by its corners and their box."""
    assert _bed(size_mm=[220.0, 200.0]).shape == "rectangle"
    assert _bed(shape="circle", diameter_mm=240.0).size_mm == (240.0, 240.0)
    assert _bed(shape="polygon", outline_mm=[[0, 0], [220, 0], [110, 180]]).size_mm == (220.0, 180.0)


@pytest.mark.parametrize(
    ("more", "word"),
    [
        ({"size_mm": [9.0, 9.0]}, "leaves nothing of the bed"),
        ({"shape": "circle", "size_mm": [200.0, 210.0]}, "one diameter"),
        ({"shape": "polygon", "outline_mm": [[10, 10], [220, 10], [110, 180]]}, "front left corner"),
        ({"size_mm": [220.0, 200.0], "zones_mm": [[[0, 0], [220, 0], [220, 200], [0, 200]]]}, "zones leave nothing"),
    ],
)
def test_a_bed_that_cannot_be_is_refused(more: dict[str, object], word: str) -> None:
    """The sentence says what is wrong with it."""
    with pytest.raises(ProfileError, match=word):
        _bed(**more)
