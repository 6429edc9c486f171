"""After a failure: finish or stop, and the plan of what is left."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from itertools import accumulate

from planner.calibrate import Print
from planner.errors import CommandError, nearest
from planner.job import Calendar, printer_named, read_failure_rules
from planner.packing import PackedPlate, Placement, Plate, counted, plate_stem
from planner.plan.after_failure.lost_pieces import packed_anew
from planner.plan.after_failure.replanned import with_plates
from planner.plan.dates.plate_dates import dated
from planner.plan.dates.split_batches import batch_for, packed_of
from planner.plan.parts.print_turns import piece_times_s
from planner.plan.plan_record import Plan
from planner.plan.plates.finished_plates import finished_plates
from planner.plan.plates.plate_inputs import Makings
from planner.schedule import Hazard, Mishap, Wall, family_ratio, judged


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
    whole: Mapping[str, int]
    """Pieces that were finished before it failed, and stay whole: only of copies printed one after another."""


def after_failure(plan: Plan, failure: Failure) -> AfterFailure:
    """Judge a failed plate and plan what is left: the plates after it, with the lost pieces packed anew.

    Of copies printed one after another, those that were finished by then stay whole whatever is done.

    Raises
    ------
    CommandError
        Where the plate, the cause or the pieces are not in the plan.
    """
    plate = _checked(plan, failure)
    rules = read_failure_rules()
    whole, lost = plate.duration_s.value, dict(failure.lost)
    makings, pieces = Makings.of(plan), counted(plate.placements)
    lost_only, anew = _again(makings, plate, lost), _again(makings, plate, _unfinished(makings, plate, failure))
    assert anew is not None  # the piece that was being printed at least
    duties: dict[tuple[str, str], int] = {(name, plan.job.part(name).judged_duty): n for name, n in pieces.items()}
    printer = printer_named(plan.job, plate.printer)
    hazard, on = Hazard.of(printer).times(family_ratio(printer, duties).ratio), pieces
    mishap = judged(
        rules[failure.cause],
        whole_s=whole,
        at_s=failure.at_s,
        again_s=lost_only.duration_s.value if lost_only else 0.0,
        hazard=hazard,
        leaves_out=failure.leaves_out,
        all_lost=bool(lost) and lost == pieces,
        anew_s=anew.duration_s.value,
    )
    again = anew if mishap.does == "stop" else lost_only
    pieces = counted(again.placements) if again else {}
    done = _done(plan, failure.plate)
    others = [p for p in plan.plates if p.number not in done and p.number != plate.number]
    plates = packed_anew(makings, others, plate, again.placements if again else ())
    return AfterFailure(
        mishap=mishap,
        again=pieces,
        done=done,
        whole=_whole(plate, pieces) if mishap.does == "stop" else {},
        left=_left(plan, makings, plates, _calendar(plan, failure, mishap, plate)),
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
            on=tuple(on.items()),
            lost=tuple((_scrap(plate, pieces, failure) if mishap.does == "stop" else pieces).items()),
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
    counts = counted(plate.placements)
    for part, n in failure.lost.items():
        if part not in counts:
            wrong = f"no '{part}' lies on plate {plate.number}"
            raise CommandError(where="--lost", wrong=wrong, todo=_elsewhere(plan, part) or nearest(part, counts))
        if n > counts[part]:
            wrong = f"{n} of {part} cannot be lost"
            raise CommandError(where="--lost", wrong=wrong, todo=f"plate {plate.number} holds {counts[part]}")
    longest = plate.duration_s.high
    if not 0.0 <= failure.at_s <= longest:
        wrong = f"{failure.at_s / 3600:.1f} h cannot be, plate {plate.number} takes {longest / 3600:.1f} h at most"
        raise CommandError(where="--at", wrong=wrong, todo=_so_long(plan, failure.at_s))
    return plate


def _elsewhere(plan: Plan, part: str) -> str:
    """Return which plates hold a part, for whoever named another plate; empty where none does."""
    on = [plate for plate in plan.plates if any(p.part == part for p in plate.placements)]
    told = " and ".join(f"plate {plate.number} ({plate.duration_s.value / 3600:.1f} h)" for plate in on)
    return f"it lies on {told}: write --failed {on[0].number}" if on else ""


def _so_long(plan: Plan, at_s: float) -> str:
    """Return which plates take so long, for whoever named another plate or another time."""
    long = ", ".join(str(plate.number) for plate in plan.plates if plate.duration_s.high >= at_s)
    return f"so long takes plate {long}; correct --failed or --at" if long else "no plate takes so long; correct --at"


def _again(makings: Makings, plate: Plate, lost: Mapping[str, int]) -> Plate | None:
    """Return a plate with the lost pieces alone, where they lay; None where none is lost."""
    left, placements = dict(lost), list[Placement]()
    for placement in reversed(plate.placements) if plate.in_turn else plate.placements:
        if left.get(placement.part, 0):
            left[placement.part] -= 1
            placements.append(placement)
    if not placements:
        return None
    if len(placements) == len(plate.placements):
        return plate
    placements = [p for p in plate.placements if p in placements]  # the order of printing is kept
    fill = plate.fill * len(placements) / len(plate.placements)
    packed = PackedPlate(group=plate.group, placements=tuple(placements), fill=fill, printer=plate.printer)
    made = finished_plates(makings, (packed,))[0]
    return replace(made, number=plate.number, file=plate_stem(plate.number) + ".3mf")


def _unfinished(makings: Makings, plate: Plate, failure: Failure) -> dict[str, int]:
    """Return the pieces that stopping leaves to print: all, or of copies in turn those not finished, or lost."""
    placements = list(plate.placements)
    if plate.in_turn:
        printer, known = printer_named(makings.job, plate.printer), makings.estimates.on(plate.printer)
        times = piece_times_s(makings.job, placements, known, printer, plate.group.layer_height_mm)
        placements = [p for p, end in zip(placements, accumulate(times), strict=True) if end > failure.at_s]
        placements = placements or [plate.placements[-1]]
    found = counted(placements)
    return {part: max(found.get(part, 0), failure.lost.get(part, 0)) for part in {**found, **failure.lost}}


def _whole(plate: Plate, again: Mapping[str, int]) -> dict[str, int]:
    """Return the pieces of a stopped plate that need not be printed again."""
    counts = counted(plate.placements)
    return {part: n - again.get(part, 0) for part, n in counts.items() if n > again.get(part, 0)}


def _scrap(plate: Plate, again: Mapping[str, int], failure: Failure) -> dict[str, int]:
    """Return the pieces that stopping loses: all, or of copies printed in turn the one begun and those told."""
    if not plate.in_turn:
        return dict(again)
    begun = next(p.part for p in plate.placements if again.get(p.part))
    return {**failure.lost, begun: max(1, failure.lost.get(begun, 0))}


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
    gone = timedelta(seconds=round(gone_s + printer_named(plan.job, plate.printer).plate_change_s.value))
    free = Wall(start=begin, zone=calendar.zone).after(gone)  # what the clock on the wall shows, also where it changes
    return replace(calendar, start=free, first_article=False)


def _left(plan: Plan, makings: Makings, plates: Sequence[Plate], calendar: Calendar | None) -> Plan:
    """Return the plan of the plates that are left."""
    under = makings.under(calendar)
    made = dated(under, plates, [batch_for(under, packed_of(plate)) for plate in plates])
    return replace(with_plates(plan, made), job=under.job, coupon=None, parted_why="")
