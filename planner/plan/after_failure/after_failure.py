"""After a failure: finish or stop, and the plan of what is left."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta

from planner.calibrate import Print
from planner.job import Calendar, printer_named, read_failure_rules
from planner.packing import Plate, counted
from planner.plan.after_failure.failure import Failure, failed_plate
from planner.plan.after_failure.lost_pieces import repacked
from planner.plan.after_failure.pieces_again import plate_again, scrap, unfinished, whole_pieces
from planner.plan.dates.coupon_first import gated
from planner.plan.dates.plate_dates import job_with_times
from planner.plan.dates.split_batches import batch_for, packed_of
from planner.plan.dates.with_dates import with_plates
from planner.plan.judged import judged
from planner.plan.plan_record import Plan
from planner.plan.plates.plate_inputs import PlateInputs
from planner.plan.plates.plate_sums import by_colour
from planner.plan.stages import Printed
from planner.schedule import Hazard, Mishap, Wall, family_ratio
from planner.schedule import judged as finish_or_stop


@dataclass(frozen=True, slots=True, kw_only=True)
class AfterFailure:
    """What to do with a failed plate, and the plan of what is left."""

    mishap: Mishap
    """Finish or stop, and why."""
    again: Mapping[str, int]
    """Pieces that are printed again."""
    done: tuple[int, ...]
    """Plates taken as printed before it."""
    left: Plan
    logged: Print
    """The line for the print log."""
    whole: Mapping[str, int]
    """Pieces that were finished before it failed and stay; only where copies are printed one after another."""


def after_failure(plan: Plan, failure: Failure) -> AfterFailure:
    """Decide between finish and stop, and plan what is left: the plates after the failed one, with the lost pieces.

    Where copies are printed one after another, those finished before the failure stay, whatever is decided.

    Raises
    ------
    CommandError
        Where the plate, the cause, the pieces or the time are not in the plan.
    """
    plate, inputs = failed_plate(plan, failure), PlateInputs.of(plan)
    mishap, again = _decided(inputs, plate, failure)
    pieces, stops = counted(again.placements) if again else {}, mishap.does == "stop"
    done = _done(plan, failure.plate)
    others = [p for p in plan.plates if p.number not in done and p.number != plate.number]
    plates = repacked(inputs, others, plate, again.placements if again else ())
    calendar = _calendar(plan, failure, mishap, plate)
    share = min(1.0, failure.at_s / plate.duration_s.value) if stops else 1.0
    return AfterFailure(
        mishap=mishap,
        again=pieces,
        done=done,
        whole=whole_pieces(plate, pieces) if stops else {},
        left=_left(plan, inputs.under(calendar), plates, _printed(plan, done, plate, again, share)),
        logged=_logged(plan, plate, failure, scrap(plate, pieces, failure) if stops else pieces),
    )


def _decided(inputs: PlateInputs, plate: Plate, failure: Failure) -> tuple[Mishap, Plate | None]:
    """Return whether to finish or to stop, and the plate of the pieces that are then printed again; None for none."""
    job, pieces, lost = inputs.job, counted(plate.placements), dict(failure.lost)
    lost_only = plate_again(inputs, plate, lost)
    anew = plate_again(inputs, plate, unfinished(inputs, plate, failure))
    assert anew is not None  # at least the piece that was being printed
    duties: dict[tuple[str, str], int] = {(name, job.part(name).judged_duty): n for name, n in pieces.items()}
    printer = printer_named(job, plate.printer)
    mishap = finish_or_stop(
        read_failure_rules()[failure.cause],
        whole_s=plate.duration_s.value,
        at_s=failure.at_s,
        again_s=lost_only.duration_s.value if lost_only else 0.0,
        hazard=Hazard.of(printer).times(family_ratio(printer, duties).ratio),
        leaves_out=failure.leaves_out,
        all_lost=bool(lost) and lost == pieces,
        anew_s=anew.duration_s.value,
    )
    return mishap, anew if mishap.does == "stop" else lost_only


def _logged(plan: Plan, plate: Plate, failure: Failure, lost: Mapping[str, int]) -> Print:
    """Return the line of the print log for a failed plate."""
    return Print(
        plate=f"{plan.job.name}, plate {plate.number}",
        planned_h=plate.duration_s.value / 3600.0,
        real_h=None,
        planned_g=plate.mass_g.value if plate.mass_g else None,
        real_g=None,
        failed=True,
        cause=failure.cause,
        failed_at_h=failure.at_s / 3600.0,
        pieces_n=len(plate.placements),
        on=tuple(counted(plate.placements).items()),
        lost=tuple(lost.items()),
    )


def _done(plan: Plan, failed: int) -> tuple[int, ...]:
    """Return the plates that the calendar has before the failed one; without a calendar those of lower number."""
    runs = {run.plate: run for run in plan.runs}
    start = runs[failed].start if failed in runs else None
    if start is None:
        return tuple(plate.number for plate in plan.plates if plate.number < failed)
    return tuple(sorted(run.plate for run in plan.runs if run.start is not None and run.start < start))


def _calendar(plan: Plan, failure: Failure, mishap: Mishap, plate: Plate) -> Calendar | None:
    """Return the calendar from the moment at which the printer can begin again."""
    calendar = plan.job.calendar
    begin = next((run.start for run in plan.runs if run.plate == failure.plate), None)
    if calendar is None or begin is None:
        return calendar
    gone_s = failure.at_s if mishap.does == "stop" else max(plate.duration_s.value, failure.at_s)
    gone = timedelta(seconds=round(gone_s + printer_named(plan.job, plate.printer).plate_change_s.value))
    free = Wall(start=begin, zone=calendar.zone).after(gone)  # what the clock on the wall shows, also where it changes
    return replace(calendar, start=free, first_article=False)


def _printed(plan: Plan, done: Sequence[int], failed: Plate, again: Plate | None, share: float) -> Printed:
    """Return what is printed: the plates done, and of the failed one the pieces that stay and its share of grams."""
    stays = tuple(p for p in failed.placements if again is None or p not in again.placements)
    whole = [plate for plate in plan.plates if plate.number in done]
    printed = Printed(plates=(*whole, replace(failed, placements=stays)), used_g=by_colour(whole))
    if failed.mass_g is None:
        return printed
    return printed + Printed(used_g={failed.group.colour: share * failed.mass_g.value})


def _left(plan: Plan, inputs: PlateInputs, plates: Sequence[Plate], printed: Printed) -> Plan:
    """Return the plan of the plates that are left, judged again; plates that wait for its coupon still do."""
    batches = [batch_for(inputs, packed_of(plate)) for plate in plates]
    made = job_with_times(inputs, plates, batches, printers_free=gated(inputs.job, plan.coupon))
    stage = with_plates(plan.stage, made)
    printed_so_far = plan.stage.printed + printed
    return judged(replace(stage, job=inputs.job, coupon=None, parted_why="", printed=printed_so_far))
