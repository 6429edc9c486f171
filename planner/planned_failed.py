"""After a failure: finish or stop, and the plan of what is left."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta

from planner.calibrate import Print
from planner.errors import CommandError, nearest
from planner.finding import Verdict
from planner.job import Calendar, read_failure_rules
from planner.layers import PartEstimate
from planner.planned import Plan
from planner.planned_batches import batch_for
from planner.planned_plates import costed, finished_plates, summed
from planner.planned_timing import timed
from planner.plates import PackedPlate, Placement, Plate, plate_stem
from planner.timing import Hazard, Mishap, family_ratio, judged


@dataclass(frozen=True, slots=True, kw_only=True)
class Failure:
    """What a person tells of a plate that went wrong; ``lost`` by part, empty: not told."""

    plate: int
    at_s: float
    cause: str
    lost: Mapping[str, int]
    leaves_out: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class AfterFailure:
    """The judgement, the pieces that are printed again, the plates taken as done, what is left, and the log's line."""

    mishap: Mishap
    again: Mapping[str, int]
    done: tuple[int, ...]
    left: Plan
    logged: Print


def after_failure(plan: Plan, failure: Failure) -> AfterFailure:
    """Judge a failed plate and plan what is left: its lost pieces where they lay, then the plates after it.

    Raises
    ------
    CommandError
        Where the plate, the cause or the pieces are not in the plan.
    """
    plate = _checked(plan, failure)
    rules = read_failure_rules()
    whole, lost = plate.duration_s.value, dict(failure.lost)
    pieces = {p.part: sum(q.part == p.part for q in plate.placements) for p in plate.placements}
    lost_only = _again(plan, plate, lost)
    duties: dict[tuple[str, str], int] = {(name, plan.job.part(name).judged_duty): n for name, n in pieces.items()}
    hazard = Hazard.of(plan.job.printer).times(family_ratio(plan.job.printer, duties).ratio)
    mishap = judged(
        rules[failure.cause],
        whole_s=whole,
        at_s=failure.at_s,
        again_s=lost_only.duration_s.value if lost_only else 0.0,
        hazard=hazard,
        leaves_out=failure.leaves_out,
        all_lost=bool(lost) and lost == pieces,
    )
    again = plate if mishap.does == "stop" else lost_only
    done = _done(plan, failure.plate)
    others = [p for p in plan.plates if p.number not in done and p.number != plate.number]
    plates = sorted([*others, *([again] if again else [])], key=lambda p: p.number)
    return AfterFailure(
        mishap=mishap,
        again=pieces if mishap.does == "stop" else lost,
        done=done,
        left=_left(plan, plates, _calendar(plan, failure, mishap, plate)),
        logged=Print(
            plate=f"{plan.job.name}, plate {plate.number}",
            planned_h=whole / 3600.0,
            real_h=None,
            planned_g=plate.mass_g.value if plate.mass_g else None,
            real_g=None,
            failed=True,
            cause=failure.cause,
            failed_at_h=failure.at_s / 3600.0,
            pieces_n=len(plate.placements),
            on=tuple(pieces.items()),
            lost=tuple((pieces if mishap.does == "stop" else lost).items()),
        ),
    )


def _checked(plan: Plan, failure: Failure) -> Plate:
    """Return the plate that failed; refuse what the plan does not hold."""
    numbers = [plate.number for plate in plan.plates]
    plate = next((p for p in plan.plates if p.number == failure.plate), None)
    if plate is None:
        told = f"1 to {max(numbers)}" if numbers else "none"
        raise CommandError(where="--failed", wrong=f"there is no plate {failure.plate}", todo=f"the plan has {told}")
    rules = read_failure_rules()
    if failure.cause not in rules:
        raise CommandError(where="--cause", wrong=f"'{failure.cause}' is not known", todo=nearest(failure.cause, rules))
    longest = plate.duration_s.high
    if not 0.0 <= failure.at_s <= longest:
        wrong = f"{failure.at_s / 3600:.1f} h cannot be"
        raise CommandError(where="--at", wrong=wrong, todo=f"plate {plate.number} takes {longest / 3600:.1f} h at most")
    counts = {p.part: sum(q.part == p.part for q in plate.placements) for p in plate.placements}
    for part, n in failure.lost.items():
        if part not in counts:
            wrong = f"no '{part}' lies on plate {plate.number}"
            raise CommandError(where="--lost", wrong=wrong, todo=nearest(part, counts))
        if n > counts[part]:
            wrong = f"{n} of {part} cannot be lost"
            raise CommandError(where="--lost", wrong=wrong, todo=f"plate {plate.number} holds {counts[part]}")
    return plate


def _again(plan: Plan, plate: Plate, lost: Mapping[str, int]) -> Plate | None:
    """Return a plate with the lost pieces alone, where they lay; None where none is lost."""
    left, placements = dict(lost), list[Placement]()
    for placement in plate.placements:
        if left.get(placement.part, 0):
            left[placement.part] -= 1
            placements.append(placement)
    if not placements:
        return None
    fill = plate.fill * len(placements) / len(plate.placements)
    packed = PackedPlate(group=plate.group, placements=tuple(placements), fill=fill)
    material = next(m for m in plan.job.materials if m.name == plan.material.choice)
    made = finished_plates(plan.job, material, (packed,), _estimates(plan))[0]
    return replace(made, number=plate.number, file=plate_stem(plate.number) + ".3mf")


def _estimates(plan: Plan) -> dict[str, PartEstimate]:
    """Return the estimates of the plan's parts."""
    return {p.part.name: p.estimate for p in plan.parts if p.estimate is not None}


def _done(plan: Plan, failed: int) -> tuple[int, ...]:
    """Return the plates that the calendar has before the failed one; without a calendar those of lower number."""
    runs = {run.plate: run for run in plan.runs}
    start = runs[failed].start if failed in runs else None
    if start is None:
        return tuple(plate.number for plate in plan.plates if plate.number < failed)
    return tuple(sorted(run.plate for run in plan.runs if run.start is not None and run.start < start))


def _calendar(plan: Plan, failure: Failure, mishap: Mishap, plate: Plate) -> Calendar | None:
    """Return the calendar from the moment on at which the printer can begin again."""
    calendar = plan.job.calendar
    begin = next((run.start for run in plan.runs if run.plate == failure.plate), None)
    if calendar is None or begin is None:
        return calendar
    gone_s = failure.at_s if mishap.does == "stop" else max(plate.duration_s.value, failure.at_s)
    free = begin + timedelta(seconds=round(gone_s + plan.job.printer.plate_change_s.value))
    return replace(calendar, start=free, first_article=False)


def _left(plan: Plan, plates: Sequence[Plate], calendar: Calendar | None) -> Plan:
    """Return the plan of the plates that are left."""
    job = replace(plan.job, calendar=calendar)
    material = next(m for m in job.materials if m.name == plan.material.choice)
    batches = tuple(
        batch_for(job, material, PackedPlate(group=p.group, placements=p.placements, fill=p.fill), _estimates(plan))
        for p in plates
    )
    works_n = sum(finding.verdict is Verdict.GO_WITH_WORK for finding in plan.findings)
    clocks = timed(job, material, plan.parts, plates, batches, works_n)
    totals = summed(tuple(plates))
    return replace(
        plan,
        job=job,
        plates=tuple(plates),
        batches=batches,
        clocks=clocks,
        runs=clocks.table.runs if clocks else (),
        totals=totals,
        cost=costed(job, material, plates, totals, plan.hardware, plan.cuts),
    )
