"""The whole job, stage by stage: the flow at a glance."""

from __future__ import annotations

from planner.plan.dates.with_dates import with_dates, without_dates
from planner.plan.judged import judged
from planner.plan.parts.at_size import at_size
from planner.plan.plan_record import Plan
from planner.plan.plates.on_plates import on_plates
from planner.plan.prepare import Progress, no_progress
from planner.plan.stages import Prepared


def make_plan(ready: Prepared, progress: Progress = no_progress) -> Plan:
    """Plan a prepared job: its parts at size, on plates, with dates; then judge all of it."""
    sized = at_size(ready, progress)
    laid = on_plates(sized, progress)
    scheduled = with_dates(laid, progress)
    progress("judging the plan", 0.9)
    return judged(scheduled)


def make_undated(ready: Prepared, progress: Progress = no_progress) -> Plan:
    """Plan a prepared job up to its plates: its dates come from a schedule that it shares with other jobs.

    Of a job that was planned before, plates that the ledger knows stay as they were parted then.
    """
    laid = on_plates(at_size(ready, progress), progress)
    return judged(without_dates(laid))
