"""The search over one group: when it is entered, and that only counted work ends it."""

from __future__ import annotations

import os

import pytest
import shapely

from planner.packing import NO_RULES, Item
from planner.packing.layout.group_packer import GroupPacker
from planner.packing.search.effort import Effort
from tests.packing.part_sets import BED, item_of
from tests.packing.thrown import Case


def _packed_n(items: list[Item], effort: Effort) -> int:
    """Return how many plates a group takes."""
    return len(GroupPacker(items, items[0].group, BED, 4.0, 1, NO_RULES).packed(effort))


@pytest.mark.parametrize(("copies", "plates_n"), [(4, 1), (6, 2), (9, 3)])
def test_nothing_is_searched_where_areas_say_that_there_cannot_be_fewer(copies: int, plates_n: int) -> None:
    """Squares of 95 x 95 mm, four a bed: the plates stand at once, boxes are not searched for fuller ones either."""
    effort = Effort(60.0)

    assert _packed_n([item_of("square", shapely.box(0, 0, 95, 95), copies)], effort) == plates_n
    assert effort.spent_s == 0.0


def test_the_same_effort_gives_the_same_plates_under_any_load() -> None:
    """On one core beside threads that take turns with it, and on all cores: layouts are the same to the last bit."""
    found, cores = [], os.sched_getaffinity(0) if hasattr(os, "sched_getaffinity") else set()
    for alone in (True, False):
        case = Case(101, 24)
        try:
            if cores and alone:
                os.sched_setaffinity(0, {min(cores)})
            found.append(case.search.better(case.search.first(), Effort(0.6)))
        finally:
            if cores:
                os.sched_setaffinity(0, cores)

        assert case.wrong(found[-1]) == ()
        assert case.search.worth(found[-1]) <= case.search.worth(case.search.first())
    assert found[0] == found[1]
