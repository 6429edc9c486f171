"""Clocks: printing, hands-on and calendar time of one plan, told apart."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from planner.schedule.calendar.spool_records import Feed
from planner.schedule.calendar.timetable import Timetable
from planner.schedule.hands.hand_steps import Leeway, StepRun
from planner.schedule.ways_out.ways_out import Way


@dataclass(frozen=True, slots=True, kw_only=True)
class Clocks:
    """Three clocks of one plan.

    ``ready`` is the end of the last step by plan, ``ready_p90`` what 90 % of simulated runs keep; both None where
    hands find no time within a year, as ``steps`` is. ``ways`` are ways out, best first, where the deadline is
    missed or a plate has no time. ``barred`` says which printer cannot run what, and why. ``feeds`` are the spools
    of every plate that has a time; empty where some spool does not say what is left on it.
    """

    table: Timetable
    steps: tuple[StepRun, ...] | None
    leeways: Mapping[str, Leeway]
    printing_s: float
    hands_min: int
    ready: datetime | None
    ready_p90: datetime | None
    ways: tuple[Way, ...]
    barred: tuple[str, ...]
    feeds: tuple[Feed, ...] = ()
    ready_expected: datetime | None = None
    """The end of the last step where printing ends as it does on average over all simulated runs."""
    kept_percent: float | None = None
    """The percentage of simulated runs in which the device is ready by the deadline; None without one."""
    over: bool = False
    """Nothing is left to do: no date of the device is missed any more, and nothing would make it sooner."""
