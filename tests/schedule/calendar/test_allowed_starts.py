"""When a plate may start: watched or not, past quiet hours, done and cleared in time."""

from __future__ import annotations

from planner.schedule.calendar.allowed_starts import clears_of, longest_run_min, starts_of, windows_of
from planner.schedule.calendar.schedule_records import Shop, Task
from planner.schedule.calendar.weekly_spans import HORIZON_MIN

SHOP = Shop(change_min={"a": 10}, attended=((0, 100), (500, 700)), unattended=True)
TASK = Task(plate=1, takes_min={"a": 150})


def test_unattended_a_start_needs_somebody_and_watched_the_whole_run_does() -> None:
    """150 minutes may begin at any minute of both spans; watched they fit the second alone, up to minute 550."""
    assert starts_of(SHOP, 150, "a") == ((0, 99), (500, 699))
    assert starts_of(SHOP, 150, "a", watched=True) == ((500, 550),)


def test_no_run_touches_a_quiet_span() -> None:
    """Quiet from 120 to 130: a run of 50 starts by minute 70, so that it ends by 120."""
    quiet = Shop(change_min={"a": 10}, attended=((0, 200),), quiet=((120, 130),), unattended=True)

    assert starts_of(quiet, 50, "a") == ((0, 70), (130, 199))


def test_begin_limit_and_clearing_narrow_the_starts() -> None:
    """It starts after its job begins, ends by the limit with what failures cost, and is cleared in time."""
    begun = Task(plate=1, takes_min={"a": 150}, not_before_min=40, lost_min={"a": 20})
    cleared = Task(plate=1, takes_min={"a": 150}, cleared_by_min=700)

    assert windows_of(begun, "a", SHOP) == [(40, 99), (500, 699)]
    assert windows_of(begun, "a", SHOP, limit_min=700) == [(40, 99), (500, 700 - 150 - 20)]
    assert windows_of(cleared, "a", SHOP) == [(0, 99), (500, 700 - 10 - 150)]
    assert windows_of(TASK, "a", SHOP, limit_min=100) == []


def test_a_bed_is_cleared_within_one_span_and_the_longest_run_is_known() -> None:
    """Clearing takes ten minutes while somebody is there; unattended nothing limits a run but quiet hours."""
    indoors = Shop(change_min={"a": 10}, attended=SHOP.attended, quiet=((520, 530),))

    assert clears_of(SHOP, "a") == ((0, 90), (500, 690))
    assert longest_run_min(SHOP) == HORIZON_MIN
    assert longest_run_min(indoors) == 700 - 530


def test_a_printer_with_hours_of_its_own_starts_in_them_alone() -> None:
    """Somebody is there from minute 500 on for this one: it is neither started nor cleared before."""
    own = Shop(change_min={"a": 10}, attended=SHOP.attended, unattended=True, hours={"a": ((500, 700),)})

    assert starts_of(own, 150, "a") == ((500, 699),)
    assert clears_of(own, "a") == ((500, 690),)
