"""A chapter's plans on one schedule: no two plates on one printer at once, whosever they are."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime

from planner.job import Job, Printer, printers_of
from planner.phrases import plural
from planner.plan.chapter.chapter_limits import limits_of
from planner.plan.chapter.drawn_spools import drawn_by
from planner.plan.chapter.free_printers import Free
from planner.plan.chapter.job_groups import Turn, turns, unlike_hours
from planner.plan.chapter.shared import Shared
from planner.plan.chapter.shared_hands import HandRow, with_helpers
from planner.plan.chapter.shorter_plates import shorter
from planner.plan.chapter.small_beds import on_small_beds
from planner.plan.dates.as_it_stands import Drawn, Standing
from planner.plan.dates.coupon_first import after_coupon, coupons_beside, gated, in_turn
from planner.plan.dates.plate_dates import TimedPlates, plates_with_times
from planner.plan.dates.timed_plan import JobPlates
from planner.plan.dates.with_dates import with_plates
from planner.plan.judged import judged
from planner.plan.plan_record import Plan
from planner.plan.plates.plate_inputs import PlateInputs
from planner.plan.stages import CouponFirst
from planner.schedule import Answer, Limits


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """Plans by folder name, on one schedule; ``note`` says where they take turns on a printer."""

    plans: Mapping[str, Plan]
    note: str = ""
    hands: tuple[HandRow, ...] = ()
    unmet_hands: Mapping[str, str] = field(default_factory=dict)
    """Why work by hand finds nobody, by folder."""
    limits: Limits | None = None
    """What keeps devices from being ready in time; None where all are, or nothing is on a calendar."""
    moved_n: int = 0
    """Plates that left the day or the printer of the last plan, so that jobs are less late."""
    won_days: int = 0
    """Days late of all jobs together that this saves."""
    coupons: tuple[CouponFirst, ...] = ()
    """Those to print before plates, of every printer that runs plates of a job that waits for its coupon."""


def on_one_calendar(
    plans: Mapping[str, Plan], standing: Mapping[str, Standing] | None = None, shared: Shared | None = None
) -> Chapter:
    """Return plans with their plates on one schedule; those without a calendar stay as they are.

    Every job begins at its own start, or once its own coupon is measured. Plates are parted anew only where jobs are
    late beside each other. Jobs take turns where some are on hold, or keep other hours: each turn has the printers when
    those before it are done. ``standing`` says by folder what runs and what the last plan said. The hands' work after
    the last plate is given to the people of ``shared``; where there are none, each job's hands are its own.
    """
    chapter = {name: plan for name, plan in plans.items() if _has_calendar(plan) and plan.plates}
    if len(chapter) < 2 and standing is None and shared is None:
        return Chapter(plans=plans)
    told = f"one calendar with {_others(len(chapter) - 1)} on the same printers" if len(chapter) > 1 else ""
    together, free, coupons = dict[str, Plan](), Free(), dict[tuple[str, str], CouponFirst]()
    drawn, last = dict[str, Drawn](), dict[str, JobPlates]()
    moves, answers = (shared or Shared()).moves_a_day, list[Answer]()
    for turn in turns(chapter):
        coupons |= _coupons(turn, coupons, free)
        mine = {name: coupons[key] for name, plan in turn.plans.items() if (key := _coupon_of(plan)) is not None}
        since = free.with_coupons(coupons.values(), turn.calendar.zone)
        stands = {name: _less(standing.get(name) if standing else None, drawn) for name in turn.plans}
        jobs = {name: _job(plan, mine.get(name), since, stands[name], moves) for name, plan in turn.plans.items()}
        parted, made = _with_times(turn.plans, jobs)
        notes = tuple(note for note in (told, turn.why) if note)
        answers += _answers(made)
        for (name, plan), one in zip(parted.items(), made, strict=True):
            together[name] = _with_dates(plan, jobs[name].inputs.job, mine.get(name), one, notes)
            last[name] = replace(jobs[name], plates=one.plates)
            free = free.after(one, turn.calendar.zone)
        drawn = drawn_by([*zip(parted.values(), made, strict=True)], drawn)
    last |= _printed({name: plan for name, plan in plans.items() if name not in chapter}, standing or {}, moves)
    both = {name: together.get(name, plan) for name, plan in plans.items()}
    hands = with_helpers(both, shared.helpers if shared else ())
    settled = _settled(plans, hands.plans)
    moved_n, won_days = _moved(answers)
    return Chapter(
        plans=settled,
        note=unlike_hours(chapter),
        hands=hands.rows,
        unmet_hands=hands.unmet or {},
        limits=limits_of(settled, last, shared),
        moved_n=moved_n,
        won_days=won_days,
        coupons=_used(coupons.values(), settled),
    )


def _used(coupons: Iterable[CouponFirst], plans: Mapping[str, Plan]) -> tuple[CouponFirst, ...]:
    """Return the coupons of jobs as they are, and those of their other printers on which plates of theirs are."""
    wanted = {key for plan in plans.values() if (key := _coupon_of(plan)) is not None}
    for plan in plans.values():
        if plan.coupon is not None:
            beside = {each.printer for each in coupons_beside(_own_job(plan), plan.coupon)}
            wanted |= {(run.printer, plan.coupon.material) for run in plan.runs if run.printer in beside}
    return tuple(each for each in coupons if (each.printer, each.material) in wanted)


def _printed(plans: Mapping[str, Plan], standing: Mapping[str, Standing], moves: int) -> dict[str, JobPlates]:
    """Return the jobs whose plates are printed, and that are perhaps not built yet."""
    return {
        name: _job(plan, None, {}, _less(standing.get(name), {}), moves)
        for name, plan in plans.items()
        if plan.clocks is not None
    }


def _answers(made: Sequence[TimedPlates]) -> list[Answer]:
    """Return the calendar of a turn's plates: all of a turn are on one."""
    return [one.clocks.table.answer for one in made if one.clocks is not None][:1]


def _moved(answers: Sequence[Answer]) -> tuple[int, int]:
    """Return how many plates left their place in the last plan on all calendars, and the days late that this saves."""
    return sum(answer.moved_n for answer in answers), sum(answer.won_days for answer in answers)


def _settled(before: Mapping[str, Plan], after: Mapping[str, Plan]) -> dict[str, Plan]:
    """Return plans judged by their new dates; those that got none are judged already."""
    return {name: plan if plan is before[name] else judged(plan.stage) for name, plan in after.items()}


def _has_calendar(plan: Plan) -> bool:
    """Return whether a job has a calendar with a start."""
    return plan.job.calendar is not None and plan.job.calendar.start is not None


def _coupon_of(plan: Plan) -> tuple[str, str] | None:
    """Return the printer and material of a plan's coupon; None where it has none."""
    return None if plan.coupon is None else (plan.coupon.printer, plan.coupon.material)


def _coupons(
    turn: Turn, known: Mapping[tuple[str, str], CouponFirst], free: Free
) -> dict[tuple[str, str], CouponFirst]:
    """Return the coupons that a turn needs beside those known, by printer and material, as early as it begins."""
    printers: dict[str, Printer] = {}
    for plan in turn.plans.values():
        printers |= {printer.name: printer for printer in printers_of(plan.job) if printer.name not in printers}
    wanted = [
        each
        for plan in turn.plans.values()
        if plan.coupon is not None
        for each in (plan.coupon, *coupons_beside(_own_job(plan), plan.coupon))
    ]
    needed = [first for first in wanted if (first.printer, first.material) not in known]
    begin = min(own.start for plan in turn.plans.values() if (own := _own_job(plan).calendar) and own.start)
    calendar = replace(turn.calendar, start=begin)
    return in_turn(needed, calendar, tuple(printers.values()), free.with_coupons(known.values(), calendar.zone))


def _less(standing: Standing | None, drawn: Mapping[str, Drawn]) -> Standing:
    """Return how things stand for a job once the plates of earlier turns have drawn from its spools."""
    stands = standing or Standing()
    both = {**stands.drawn, **{name: stands.drawn.get(name, Drawn()) + more for name, more in drawn.items()}}
    return replace(stands, drawn=both)


def _job(
    plan: Plan, coupon: CouponFirst | None, printers_free: Mapping[str, datetime], standing: Standing, moves: int
) -> JobPlates:
    """Return a plan's plates as they get dates: from when its coupon is measured on."""
    job = _own_job(plan)
    waits = gated(job, coupon)
    return JobPlates(
        inputs=PlateInputs.at(plan.stage.sized, after_coupon(job, coupon)),
        plates=plan.plates,
        standing=standing,
        hands_before_min=coupon.hands_min if coupon else 0,
        printers_free={**printers_free, **{name: max(at, printers_free.get(name, at)) for name, at in waits.items()}},
        measured=waits,
        moves_a_day=moves,
    )


def _with_times(
    plans: Mapping[str, Plan], jobs: Mapping[str, JobPlates]
) -> tuple[Mapping[str, Plan], tuple[TimedPlates, ...]]:
    """Return the plans with their dates; where some are late, with plates parted as few times as that helps most.

    Where they are still late, pieces of plates that no small bed takes are laid out again for one.
    """
    made = plates_with_times(tuple(jobs.values()), [plan.batches for plan in plans.values()])
    for small in (False, True):
        if not any(_late_days(plans, made)):
            break
        mine = {name: replace(jobs[name], plates=plan.plates) for name, plan in plans.items()}
        if small:
            late = [n for (n, plan), one in zip(plans.items(), made, strict=True) if any(_late_days({n: plan}, [one]))]
            parted = on_small_beds(plans, mine, late)
        else:
            parted = shorter(plans, mine)
        if parted is None:
            continue
        parts = [replace(mine[name], plates=plan.plates) for name, plan in parted.items()]
        again = plates_with_times(parts, [plan.batches for plan in parted.values()])
        if _late_days(parted, again) < _late_days(plans, made):
            plans, made = parted, again
    return plans, made


def _late_days(plans: Mapping[str, Plan], made: Sequence[TimedPlates]) -> tuple[int, int]:
    """Return how many plates have no time, and how many days late all jobs are."""
    unmet_n, days = 0, 0
    for plan, one in zip(plans.values(), made, strict=True):
        assert one.clocks is not None
        assert plan.job.calendar is not None
        unmet_n += len(one.clocks.table.unmet)
        if one.clocks.ready is not None and plan.job.calendar.deadline is not None:
            days += max(0, (one.clocks.ready.date() - plan.job.calendar.deadline).days)
    return unmet_n, days


def _others(others_n: int) -> str:
    """Return how many other jobs there are, in words."""
    return plural(others_n, "other job")


def _own_job(plan: Plan) -> Job:
    """Return the job with its own start, not that from which on its coupon is measured."""
    return plan.stage.sized.ready.job if plan.coupon is not None else plan.job


def _with_dates(plan: Plan, job: Job, coupon: CouponFirst | None, made: TimedPlates, told: tuple[str, ...]) -> Plan:
    """Return a plan with its plates where the schedule has them, with notes on it; judged once dates are settled."""
    assert made.clocks is not None
    table = replace(made.clocks.table, notes=(*made.clocks.table.notes, *told))
    stage = with_plates(plan.stage, replace(made, clocks=replace(made.clocks, table=table)))
    return replace(plan, stage=replace(stage, job=job, coupon=coupon))
