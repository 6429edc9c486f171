"""The proof of a calendar: what holds is passed, and every fault that is planted is told in its own sentence."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.schedule.calendar.schedule_records import PrintRun, Shop, Task
from planner.schedule.calendar.schedule_terms import ScheduleTerms
from planner.schedule.solver.calendar_proof import proved

SHOP = Shop(change_min={"a": 10, "b": 10}, attended=((0, 600), (1000, 1600)), quiet=((700, 710),))
TASKS = [
    Task(plate=1, takes_min={"a": 100, "b": 100}, stay="pair"),
    Task(plate=2, takes_min={"a": 200}, after=(1,), stay="pair"),
]


def _run(plate: int, start_min: int, long_min: int, printer: str = "a") -> PrintRun:
    """Return a run whose bed is cleared as it ends."""
    end_min = start_min + long_min
    return PrintRun(
        plate=plate, printer=printer, start_min=start_min, end_min=end_min, clear_min=end_min, free_min=end_min + 10
    )


GOOD = (_run(1, 0, 100), _run(2, 110, 200))


def test_a_calendar_that_keeps_every_rule_is_passed() -> None:
    """Two plates one after the other on one printer while somebody is there."""
    assert proved(GOOD, TASKS, SHOP) == ()


@pytest.mark.parametrize(
    ("told", "runs", "tasks"),
    [
        ("plate 2 has no time", GOOD[:1], TASKS),
        ("takes another time on a", (_run(1, 0, 90), GOOD[1]), TASKS),
        ("starts before its job begins", GOOD, [replace(TASKS[0], not_before_min=5), TASKS[1]]),
        ("plate 2 is cleared too late", GOOD, [TASKS[0], replace(TASKS[1], cleared_by_min=315)]),
        ("starts before plate 1 is looked at", (GOOD[0], _run(2, 105, 200)), TASKS),
        ("are on a at once", (GOOD[0], _run(2, 50, 200)), TASKS),
        ("starts while nobody is there", (GOOD[0], _run(2, 720, 200)), TASKS),
        ("runs unattended", (GOOD[0], _run(2, 450, 200)), TASKS),
        ("runs in quiet hours", (GOOD[0], _run(2, 550, 200)), TASKS),
        ("is not cleared after it", (replace(GOOD[0], free_min=105), GOOD[1]), TASKS),
        ("is cleared while nobody is there", (GOOD[0], replace(_run(2, 110, 200), clear_min=800, free_min=810)), TASKS),
        ("are on two printers", (_run(1, 0, 100, "b"), GOOD[1]), TASKS),
    ],
)
def test_every_planted_fault_is_told(told: str, runs: tuple[PrintRun, ...], tasks: list[Task]) -> None:
    """Each fault of a plate's own rules, of the place and between plates has its sentence."""
    assert any(told in line for line in proved(runs, tasks, SHOP))


def test_printers_that_are_not_free_first_articles_and_hands_are_proved() -> None:
    """A printer that is busy until later, a plate beside the first article, and two beds for one person."""
    busy = replace(SHOP, free_from_min={"a": 1})
    apart = [replace(TASKS[0], stay=""), Task(plate=2, takes_min={"b": 100})]
    both = (_run(1, 0, 100), _run(2, 0, 100, "b"))
    first = proved(both, apart, SHOP, [ScheduleTerms(first_article=True)])

    assert "plate 1 starts before a is free" in proved(GOOD, TASKS, busy)
    assert "plate 2 starts before plate 1 is looked at" in first
    assert any("than there are people" in line for line in first)
    assert proved(both, apart, replace(SHOP, people_n=2)) == ()
