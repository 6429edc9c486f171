"""One plan of a chapter at a time, and whatever happens is told to the page."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

from planner.cli.plan.desk_chapter import chapter_filled
from planner.desk import ChapterWork
from tests.desk.planning.planning_desks import desk_on, planned_there


def test_what_fails_is_told_to_the_page_and_a_second_plan_waits(folder: Path) -> None:
    """While one is made a second is refused; one that ends with an error says which; a desk without work says so."""
    going = [True]

    def slow(_: Path, report: Any) -> Any:
        """Report once, and fail when told to."""
        report("packing", 0.5)
        while going:
            time.sleep(0.01)
        raise ValueError("the bed is too hot")

    desk = desk_on(folder, ChapterWork(plan=slow, fill=chapter_filled))
    desk.post("/planning/ledger")
    assert desk.post("/planning/plan").status_code == 200
    assert "is being planned" in desk.post("/planning/plan").json()["error"]
    going.clear()
    assert "the bed is too hot" in planned_there(desk)["why"]
    assert "run fitwright chapter" in desk_on(folder, None).post("/planning/plan").json()["error"]
