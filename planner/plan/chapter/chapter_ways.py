"""Ways out of a chapter: what would bring its late jobs forward, each planned for all jobs together."""

from __future__ import annotations

from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace

from planner.job import Calendar, Printer
from planner.plan.chapter.joint_request import asked_of
from planner.plan.dates.plate_loads import plate_loads
from planner.plan.plan_record import Plan
from planner.plan.plates.plate_inputs import Makings
from planner.schedule import (
    Change,
    Joint,
    JointJob,
    Placed,
    Wall,
    Way,
    changes,
    joint_calendar,
    later_deadline,
    shop_of,
    way_of,
    way_rank,
)


def chapter_ways(
    plans: Sequence[tuple[Plan, Makings]],
    common: Calendar,
    printers: Sequence[Printer],
    joint: Joint,
    watched: Sequence[AbstractSet[int]],
) -> list[tuple[Way, ...]]:
    """Return for every job the ways that help it, best first; none for jobs in time.

    What is changed holds for all jobs, for it is about the place; each way says how late all are with it.
    """
    jobs_n, loads = len(plans), [plate_loads(made, plan.plates)[0] for plan, made in plans]
    asked = [asked_of(plan, made, common, watched=mine) for (plan, made), mine in zip(plans, watched, strict=True)]
    today = _ways("as it is", asked, joint, common, printers, "")
    late = [way.ready is None or bool(way.late_days) for way in today]
    if not any(late):
        return [() for _ in plans]
    # one number for every plate of all jobs, for the change that gives plates to another printer
    both = [replace(x, plate=x.plate * jobs_n + where) for where, mine in enumerate(loads) for x in mine]
    found = [_changed(change, plans, watched) for change in changes(both, common, printers, ())]
    helping = []
    for where, now in enumerate(today):
        better = [ways[where] for ways in found if ways and way_rank(ways[where]) < way_rank(now)]
        helping.append((*sorted(better, key=way_rank), *later_deadline(now)) if late[where] else ())
    return helping


def _changed(
    change: Change, plans: Sequence[tuple[Plan, Makings]], watched: Sequence[AbstractSet[int]]
) -> tuple[Way, ...]:
    """Return every job's way under a change; empty where no calendar is found."""
    jobs_n, asked = len(plans), []
    for where, ((plan, made), mine) in enumerate(zip(plans, watched, strict=True)):
        own = [replace(x, plate=x.plate // jobs_n) for x in change.loads if x.plate % jobs_n == where]
        asked.append(asked_of(plan, made, change.calendar, change.printers, own, mine))
    shop = shop_of(change.calendar, change.printers)
    try:
        joint = joint_calendar(asked, shop, Wall.of(change.calendar))
    except ValueError:
        return ()
    runs = [replace(r, plate=r.plate * jobs_n + where) for where, some in enumerate(joint.runs) for r in some]
    told = f"{change.costs(runs, shop)}; all jobs together are {joint.late_days} d late" if runs else ""
    return _ways(change.what, asked, joint, change.calendar, change.printers, told)


def _ways(
    what: str,
    asked: Sequence[JointJob],
    joint: Joint,
    calendar: Calendar,
    printers: Sequence[Printer],
    costs: str,
) -> tuple[Way, ...]:
    """Return when every job is ready in a calendar."""
    shop = shop_of(calendar, printers)

    def one(job: JointJob, placed: Sequence[Placed]) -> Way:
        own = replace(calendar, deadline=job.deadline)
        way = way_of(what, placed, shop, job.steps, own, unmet_n=len(job.tasks) - len(placed))
        return replace(way, costs=costs)

    return tuple(one(job, placed) for job, placed in zip(asked, joint.runs, strict=True))
