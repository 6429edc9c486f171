"""Islands are matched with parts wherever and however turned they lie; heights are taken in every way that may be."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from planner.gcode.matching.islands import Island
from planner.gcode.matching.match import Match, Matching, Pose, matching, ways_of
from tests.gcode.plate import EXPECTED

FIRST_MM = 0.25


def _island(bottom_mm: float, top_mm: float) -> Island:
    """Return an island between two heights."""
    return Island(cells=np.zeros((1, 1), dtype=np.bool_), slabs=(0,), bottom_mm=bottom_mm, top_mm=top_mm)


def _match(part: str, alike: float, island: Island) -> Match:
    """Return a match that is so much alike."""
    return Match(island=island, part=part, across_share=1.0, upward_share=1.0, mirrored=False, alike_share=alike)


def test_heights_are_those_of_the_part_by_scale_and_lift() -> None:
    """Twice as high and lifted by 1 mm: 5 mm above the bed are (5 - 1) / 2 = 2 mm of the part."""
    pose = Pose(matrix=np.eye(2), offset_mm=np.zeros(2), mirrored=False, z_share=2.0, z_offset_mm=1.0, alike_share=1.0)

    assert pose.part_z_mm(np.array([5.0])) == pytest.approx([2.0])


@pytest.mark.parametrize(
    ("bottom_mm", "top_mm", "ways"),
    [
        (FIRST_MM, 10.0, [(1.0, 0.0)]),  # as planned
        (FIRST_MM, 20.0, [(1.0, 0.0), (2.0, 0.0)]),  # twice as high: as it is, or scaled
        (3.25, 13.0, [(1.0, 0.0), (1.0, 3.0), (1.3, 0.0)]),  # in mid-air: cut off below, lifted whole, or scaled
    ],
)
def test_heights_are_tried_as_they_are_lifted_and_scaled(
    bottom_mm: float, top_mm: float, ways: list[tuple[float, float]]
) -> None:
    """A part 10 mm high, the first layer at 0.25 mm."""
    found = ways_of(_island(bottom_mm, top_mm), 10.0, FIRST_MM)

    assert [(way.scale, way.offset_mm) for way in found] == [pytest.approx(way) for way in ways]


def test_each_copy_is_one_island_and_what_is_left_is_missing_or_extra() -> None:
    """A plate and two hands are meant; three islands come: a plate, a hand, and what is like neither.

    The best assignment of all together counts (0.9 + 0.8), and nothing under 0.65 is a match.
    """
    islands = [_island(FIRST_MM, top) for top in (4.0, 5.0, 6.0)]
    likeness = {id(islands[0]): (0.9, 0.7), id(islands[1]): (0.85, 0.8), id(islands[2]): (0.1, 0.2)}
    matcher: Any = type(
        "Table",
        (),
        {
            "compared_with_all": lambda _, island, parts: [
                _match(part.name, alike, island) for part, alike in zip(parts, likeness[id(island)], strict=True)
            ]
        },
    )()
    found = matching(islands, EXPECTED.parts, matcher, lambda match: match.alike_share)

    assert [(match.part, match.alike_share) for match in found.matches] == [("plate", 0.9), ("hand", 0.8)]
    assert found.missing == (("hand", 1),)
    assert found.extra == (islands[2],)
    assert found.alike_share == pytest.approx((0.9 + 0.8) / 3)
    assert replace(found, missing=(), extra=()).alike_share == pytest.approx(0.85)
    assert Matching(matches=(), missing=(), extra=()).alike_share == 0.0
