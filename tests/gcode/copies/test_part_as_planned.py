"""A part as planned: where support may stand under it."""

from __future__ import annotations

import numpy as np

from planner.gcode.copies.part_as_planned import Original
from planner.gcode.matching.match import Pose
from planner.layers import Section
from tests.gcode.plate import SETTINGS
from tests.shapes import Manifold, solid_of

TABLE = solid_of(
    Manifold.cube((4, 4, 10))
    + Manifold.cube((20, 4, 2)).translate((0, 0, 8))
    - Manifold.cube((2, 2, 20)).translate((14, 1, -1))
)
"""A leg at the left end of a top that is 20 mm long, with an opening through the top."""


def _pose(*, mirrored: bool) -> Pose:
    """Return a pose that changes nothing."""
    return Pose(
        matrix=np.eye(2), offset_mm=np.zeros(2), mirrored=mirrored, z_share=1.0, z_offset_mm=0.0, alike_share=1.0
    )


def _holds(section: Section, x: float, y: float) -> bool:
    """Return whether a section holds a place."""
    spot = Section.square((0.2, 0.2), center=True).translate((x, y))
    return not (section ^ spot).is_empty()


def test_support_stands_under_the_top_and_not_under_its_opening() -> None:
    """At half the height: under the overhang yes, under the opening and far beside it no; above the top nowhere within."""
    allowed = Original.of(TABLE, SETTINGS, support=True).allowed(_pose(mirrored=False), 5.0)

    assert _holds(allowed, 8.0, 2.0)
    assert not _holds(allowed, 15.0, 2.0)
    assert not _holds(allowed, 30.0, 2.0)


def test_of_a_mirrored_piece_support_is_mirrored() -> None:
    """The overhang is then on the other side of x = 0."""
    allowed = Original.of(TABLE, SETTINGS, support=True).allowed(_pose(mirrored=True), 5.0)

    assert _holds(allowed, -8.0, 2.0)
    assert not _holds(allowed, 8.0, 2.0)


def test_without_support_none_is_allowed() -> None:
    """A part that stands by itself has none anywhere."""
    assert Original.of(TABLE, SETTINGS, support=False).allowed(_pose(mirrored=False), 5.0).is_empty()
