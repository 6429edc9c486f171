"""Line breaks: no line ends between a number and its unit."""

from __future__ import annotations

from planner.output.paper_files.line_breaks import NO_BREAK, with_fixed_spaces


def test_numbers_keep_their_units() -> None:
    """SI Brochure, 9th edition, 5.4.3: a space between number and unit, and no line may end there."""
    assert with_fixed_spaces("60 s, 5 mm, 3 × 4 mm²") == "60_s, 5_mm, 3_×_4_mm²".replace("_", NO_BREAK)
    assert with_fixed_spaces("2 most, 4 handles, 5 minutes") == "2 most, 4 handles, 5 minutes"
