"""Scale and side of a job."""

from __future__ import annotations

import pytest

from planner.job import Size


@pytest.mark.parametrize(
    ("side", "drawn_for", "mirrored"),
    [("left", "right", True), ("left", "left", False), ("left", None, False), (None, "right", False)],
)
def test_parts_are_mirrored_only_where_both_sides_are_known_and_differ(
    side: str | None, drawn_for: str | None, mirrored: bool
) -> None:
    """A side that nobody stated mirrors nothing."""
    assert Size(side=side, drawn_for=drawn_for).mirrored == mirrored  # type: ignore[arg-type]
