"""Limits of a chapter: all jobs with what they share, and what keeps them from being ready in time."""

from __future__ import annotations

from collections.abc import Mapping

from planner.job import kind_of
from planner.plan.chapter.money import delivered_cost
from planner.plan.chapter.shared import Shared
from planner.plan.dates.as_it_stands import Drawn
from planner.plan.dates.fed_plates import feeding_of
from planner.plan.dates.spool_ends import JobToFeed
from planner.plan.dates.timed_plan import JobPlates, job_loads, to_feed, wall_of_jobs
from planner.plan.plan_record import Plan
from planner.schedule import JobLoads, Limits, Situation, limits


def limits_of(plans: Mapping[str, Plan], jobs: Mapping[str, JobPlates], shared: Shared | None) -> Limits | None:
    """Return what limits the jobs; None where all are ready in time, fed and paid."""
    if not jobs:
        return None
    loads = _loads_of(jobs)
    # a device whose work is all done has no date any more, and lacks none
    jobs = {name: job for name, job in jobs.items() if job.plates or loads[name].steps}
    if not jobs or not _troubled(plans, jobs, shared):
        return None
    loads = _loads_of(jobs)  # what waits for a minute waits by the clock of those that are left
    shares = shared or Shared()
    grams = tuple(_grams(job) for job in jobs.values())
    return limits(
        Situation(
            jobs=tuple(loads[name] for name in jobs),
            helpers=shares.helpers,
            grams=grams,
            left_g=_left_g(jobs),
            costs=tuple(delivered_cost(plans[name], shares) for name in jobs),
            budget=shares.budget,
            currency=shares.currency,
            planned_days=tuple(_late_days(plans[name]) for name in jobs),
            feeding=feeding_of([_to_feed(job, jobs) for job in jobs.values()]),
        )
    )


def _loads_of(jobs: Mapping[str, JobPlates]) -> dict[str, JobLoads]:
    """Return what a schedule needs of jobs, by the clock of all of them."""
    wall = wall_of_jobs(tuple(jobs.values()))
    return {name: job_loads(job, wall) for name, job in jobs.items()}


def _late_days(plan: Plan) -> int | None:
    """Return how many days late a job is by its plan; None where it has no date, or not filament enough."""
    if plan.clocks is None or plan.clocks.ready is None or any(feed.short_g for feed in plan.clocks.feeds):
        return None
    due = plan.job.calendar.deadline if plan.job.calendar else None
    return 0 if due is None else max(0, (plan.clocks.ready.date() - due).days)


def _troubled(plans: Mapping[str, Plan], jobs: Mapping[str, JobPlates], shared: Shared | None) -> bool:
    """Return whether some job is late, has no date or no filament, or all together cost too much."""
    mine = [plans[name] for name in jobs]
    clocks = [plan.clocks for plan in mine if plan.clocks is not None]
    late = any(kind_of(finding.rule).late for plan in mine for finding in plan.findings)
    undated = any(each.ready is None for each in clocks)
    unfed = any(feed.short_g for each in clocks for feed in each.feeds)
    if late or undated or unfed or shared is None or shared.budget is None:
        return late or undated or unfed
    return sum(delivered_cost(plan, shared) for plan in mine) > shared.budget


def _grams(job: JobPlates) -> dict[str, float]:
    """Return the grams of every material and colour that a job needs, the reserve included."""
    need, reserve = dict[str, float](), job.inputs.job.limits.spool_reserve.value
    for plate in job.plates:
        if plate.mass_g is not None:
            reel = f"{job.inputs.material.name} {plate.group.colour}"
            need[reel] = need.get(reel, 0.0) + reserve * plate.mass_g.value
    return need


def _left_g(jobs: Mapping[str, JobPlates]) -> dict[str, float]:
    """Return the grams of every material and colour on spools that all jobs know by id; not counted: left out.

    What running plates still draw is not there for others. A spool of any colour counts for each: what it feeds first
    is not known here.
    """
    spools = {spool.id: spool for job in jobs.values() for spool in job.inputs.job.spools if spool.id}
    weighed = {name: spool for name, spool in spools.items() if spool.left_g is not None}
    if len(weighed) < len(spools):
        return {}
    found = dict[str, float]()
    for job in jobs.values():
        for plate in job.plates:
            material, colour = job.inputs.material.name, plate.group.colour
            of_material = [spool for spool in weighed.values() if spool.material == material]
            mine = [s for s in of_material if "any" in (colour, s.colour) or s.colour == colour]
            if mine:
                found[f"{material} {colour}"] = sum(max(0.0, (s.left_g or 0.0) - _drawn_g(jobs, s.id)) for s in mine)
    return found


def _drawn_g(jobs: Mapping[str, JobPlates], spool: str) -> float:
    """Return the grams that running plates draw from a spool: jobs planned later count those of earlier ones, too."""
    return _drawn(jobs, spool).grams


def _drawn(jobs: Mapping[str, JobPlates], spool: str) -> Drawn:
    """Return what running plates draw from a spool: the least that any job counts."""
    drawn = [job.standing.drawn.get(spool) or Drawn() for job in jobs.values()]
    return min(drawn, key=lambda each: each.grams, default=Drawn())


def _to_feed(job: JobPlates, jobs: Mapping[str, JobPlates]) -> JobToFeed:
    """Return what is to be fed of a job where all are planned as one: plates of others draw nothing beforehand."""
    inputs, plates, drawn, last = to_feed(job)
    return inputs, plates, {name: _drawn(jobs, name) for name in drawn}, last
