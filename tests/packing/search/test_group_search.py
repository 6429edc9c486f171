"""The search over one group: when it is entered, and on whose time it is compiled."""

from __future__ import annotations

import time
from typing import Never

import pytest
import shapely

from planner.packing import NO_RULES, Item
from planner.packing.layout.group_packer import GroupPacker
from planner.packing.search import group_search
from planner.packing.search.effort import SearchClock
from tests.packing.part_sets import BED, item_of
from tests.packing.thrown import Case


def _never() -> Never:
    """Fail where something is compiled."""
    raise AssertionError("compiled")


def _packed_n(items: list[Item], budget_s: float) -> int:
    """Return how many plates a group takes."""
    return len(GroupPacker(items, items[0].group, BED, 4.0, 1, NO_RULES).packed(budget_s, SearchClock()))


@pytest.mark.parametrize(("copies", "plates_n"), [(4, 1), (6, 2)])
def test_nothing_is_compiled_where_areas_say_that_there_cannot_be_fewer(
    copies: int, plates_n: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Plates of 95 x 95 mm squares, four a bed: one plate, or two where one cannot be, stand at once."""
    monkeypatch.setattr(group_search, "compiled", _never)
    begin = time.process_time()

    assert _packed_n([item_of("square", shapely.box(0, 0, 95, 95), copies)], 60.0) == plates_n
    assert time.process_time() - begin < 2.0


def test_boxes_are_not_searched_for_fuller_plates_where_there_cannot_be_fewer(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nine squares, four a bed: three plates stand at once, though three are enough for a longer search."""
    monkeypatch.setattr(group_search, "compiled", _never)

    assert _packed_n([item_of("square", shapely.box(0, 0, 95, 95), 9)], 60.0) == 3


def test_compiling_takes_nothing_of_the_searchs_time(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where compiling takes a second, a search of half a second still has its half."""
    monkeypatch.setattr(group_search, "compiled", lambda: time.sleep(1.0))
    case, clock = Case(101, 40), SearchClock()
    plates = case.search.first()
    begin, until = time.monotonic(), clock() + 0.5
    found = case.search.better(plates, until, clock)

    assert clock.stood_s >= 1.0
    assert time.monotonic() - begin >= 1.5
    assert case.wrong(found) == ()
    assert case.search.worth(found) <= case.search.worth(plates)
