"""A run that all wait for: its start, its end, its cleared bed and the work after it, by hand."""

from __future__ import annotations

from planner.schedule.calendar.coupon_gate import coupon_gate
from planner.schedule.calendar.schedule_records import Shop

SHOP = Shop(change_min={"a": 10}, attended=((100, 200), (300, 400)), unattended=True)


def test_a_run_its_clearing_and_its_work_follow_each_other() -> None:
    """80 minutes from 100 on end at 180, are cleared by 190; 40 minutes of work fill 190 to 200 and 300 to 330."""
    gate = coupon_gate(SHOP, "a", 80, 40)

    assert gate is not None
    assert (gate.start_min, gate.end_min, gate.free_min, gate.done_min) == (100, 180, 190, 330)
    assert gate.last_start_min == 199


def test_a_run_that_ends_alone_is_cleared_when_somebody_is_back() -> None:
    """Started at 150 it ends at 230, while nobody is there: its bed is cleared from 300 on."""
    gate = coupon_gate(SHOP, "a", 80, 0, since_min=150)

    assert gate is not None
    assert (gate.end_min, gate.free_min) == (230, 310)


def test_what_finds_no_time_is_told_as_none() -> None:
    """After the last span nothing starts; what ends after it is never cleared; work longer than the rest never ends."""
    assert coupon_gate(SHOP, "a", 80, 0, since_min=400) is None
    assert coupon_gate(SHOP, "a", 350, 0) is None
    assert coupon_gate(SHOP, "a", 80, 1000) is None
