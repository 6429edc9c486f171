"""Points on a photo: what is wrong with them is one sentence."""

from __future__ import annotations

import pytest

from planner.errors import PhotoError
from planner.photo import points_px


@pytest.mark.parametrize(
    ("said", "wrong"),
    [
        ("1,2,3", "not four numbers"),
        ("a,b,c,d", "not four numbers"),
        ("1,2,nan,4", "not four numbers"),
        ("1,2,3,1e400", "not four numbers"),
        ("1,2,900,4", "outside the photo"),
        ("-1,2,90,4", "outside the photo"),
        ("10,10,11,11", "one place"),
    ],
)
def test_points_that_cannot_be_are_told(said: str, wrong: str) -> None:
    """Too few, no numbers, outside, on each other."""
    with pytest.raises(PhotoError, match=wrong):
        points_px(said, (800, 600))
