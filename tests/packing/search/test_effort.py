"""The search's clock stands still while something else is done."""

from __future__ import annotations

import time

from planner.packing.search.effort import SearchClock


def test_the_clock_stands_while_it_is_stopped() -> None:
    """A tenth of a second in which it is stopped is not counted; one in which it runs is."""
    clock = SearchClock()
    begin = clock()
    with clock.stopped():
        time.sleep(0.1)
    stood = clock() - begin
    time.sleep(0.1)

    assert stood < 0.05
    assert clock() - begin >= 0.1
