"""People: hours a week, days away, and who may not test what."""

from __future__ import annotations

from datetime import date, datetime

from planner.job import Attended
from planner.schedule import Helper, JobHands, Step, Wall, hours_given, staffed
from planner.schedule.calendar.weekly_spans import spans_of

MONDAY = datetime(2026, 11, 30, 8)
WALL = Wall(start=MONDAY)
DAILY = spans_of([Attended(days=(0, 1, 2, 3, 4, 5, 6), from_min=8 * 60, to_min=20 * 60)], MONDAY)
DUE = date(2026, 12, 20)


def _builds(hours: float) -> tuple[Step, ...]:
    """Return the work of a device that only has to be assembled."""
    return (Step(name="assemble", takes_min=round(60 * hours)),)


def test_two_helpers_of_four_hours_are_twelve_hours_short_for_six_devices() -> None:
    """By hand: 6 devices of 6 h are 36 h; two people give 2 x 4 h x 3 weeks = 24 h. Four devices are ready, two not."""
    helpers = [Helper(code=f"M-{n}", roles=("maker",), hours_week=4.0) for n in (1, 2)]
    found = staffed({n: JobHands(steps=_builds(6), begin_min=0, deadline=DUE) for n in range(6)}, helpers, DAILY, WALL)
    late_min = sum(run.end_min - run.start_min for run in found.runs if WALL.at(run.start_min).date() > DUE)

    assert hours_given(helpers, "maker", DAILY, WALL, DUE) == 24.0
    assert late_min == 12 * 60
    assert sum(WALL.at(m).date() <= DUE for m in found.ready_min.values() if m is not None) == 4


def test_who_builds_a_device_does_not_test_it() -> None:
    """With one maker who also tests, nobody may test; with a second tester, that one does."""
    steps = (Step(name="assemble", takes_min=60), Step(name="test", takes_min=20, role="tester", after=("assemble",)))
    jobs = {0: JobHands(steps=steps, begin_min=0)}
    both = Helper(code="M-1", roles=("maker", "tester"))
    alone, two = (staffed(jobs, some, DAILY, WALL) for some in ([both], [both, Helper(code="T-1", roles=("tester",))]))

    assert alone.ready_min == {0: None}
    assert "did not build it" in alone.unmet[0]
    assert [(run.person, run.step) for run in two.runs] == [("M-1", "assemble"), ("T-1", "test")]


def test_days_away_and_the_weeks_hours_are_kept() -> None:
    """Away on Monday and Tuesday, 2 h a week: 5 h end in the third week, on its first day, after one hour."""
    helper = Helper(
        code="M-1", roles=("maker",), hours_week=2.0, away=frozenset({date(2026, 11, 30), date(2026, 12, 1)})
    )
    found = staffed({0: JobHands(steps=_builds(5), begin_min=0)}, [helper], DAILY, WALL)

    assert [WALL.at(run.start_min) for run in found.runs] == [
        datetime(2026, 12, 2, 8),
        datetime(2026, 12, 7, 8),
        datetime(2026, 12, 14, 8),
    ]
    assert WALL.at(found.ready_min[0] or 0) == datetime(2026, 12, 14, 9)


def test_nobody_is_in_two_places() -> None:
    """Three devices at once and one helper: one after the other, the one that is due first at the head."""
    jobs = {n: JobHands(steps=_builds(2), begin_min=0, deadline=date(2026, 12, 9 - n)) for n in range(3)}
    found = staffed(jobs, [Helper(code="M-1", roles=("maker",))], DAILY, WALL)

    assert [(run.job, run.start_min, run.end_min) for run in found.runs] == [(2, 0, 120), (1, 120, 240), (0, 240, 360)]


def test_a_role_that_nobody_has_is_done_by_somebody_who_is_not_listed() -> None:
    """The ledger lists a maker alone: the test takes its time after the work, and is nobody's."""
    steps = (Step(name="assemble", takes_min=60), Step(name="test", takes_min=20, role="tester", after=("assemble",)))
    found = staffed({0: JobHands(steps=steps, begin_min=0)}, [Helper(code="M-1", roles=("maker",))], DAILY, WALL)

    assert found.ready_min == {0: 80}
    assert [run.person for run in found.runs] == ["M-1"]
