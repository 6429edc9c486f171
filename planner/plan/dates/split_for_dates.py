"""Split for the dates: plates parted to fit the hours at home, where the whole ones would be ready too late."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from planner.job import Calendar, Job, printers_of
from planner.packing import PackedPlate
from planner.phrases import moment
from planner.plan.dates.hands_work import hand_steps
from planner.plan.dates.plate_hours import plate_loads
from planner.plan.dates.split_batches import parted
from planner.plan.plates.finished_plates import finished_plates
from planner.plan.plates.plate_inputs import PlateInputs
from planner.schedule import Batch, Forecast, JobLoads, Wall, forecast, shop_of

SHARES = (1, 2, 3)
"""A plate is tried as long as a time at home, and as long as a half or a third of one, changes taken off."""
LEAST_S = 30 * 60.0
"""Nobody wants to change plates more often than this; common practice, no source."""
SOON_MIN = 14 * 24 * 60
"""Times at home within two weeks say how long they usually are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Parted:
    """The plates to print, the batch of each, and why they are parted; empty where they need not be."""

    plates: tuple[PackedPlate, ...]
    batches: tuple[Batch, ...]
    why: str = ""


def parted_for_dates(inputs: PlateInputs, packed: tuple[PackedPlate, ...]) -> Parted:
    """Return the plates parted so that they are ready in time.

    Without a need none is parted: as few plates as can be are the least work. ``when-needed`` parts for the deadline
    and takes the fewest plates that meet it, or those that are ready first where none does; ``when-it-pays`` weighs
    expected hours (the calendar's, averaged over simulated failures), grams lost and changes as the job does.
    ``never`` parts nothing.
    """
    job = inputs.job
    plates, batches = parted(inputs, packed)
    whole = Parted(plates=plates, batches=batches)
    calendar = job.calendar
    if calendar is None or calendar.start is None or calendar.split == "never" or not plates:
        return whole
    if calendar.split == "when-needed" and calendar.deadline is None:
        return whole

    steps = hand_steps(inputs, Wall.of(calendar))

    def seen(option: Parted) -> Forecast:
        loads, _ = plate_loads(inputs, finished_plates(inputs, option.plates))
        return forecast(JobLoads(loads=loads, calendar=calendar, printers=printers_of(job), steps=steps))

    first = seen(whole)
    if calendar.split == "when-needed" and not first.late_days and not first.unmet_n:
        return whole
    options = [(whole, first)]
    for most_s in lengths_s(job, calendar, max(batch.whole.duration_s for batch in batches)):
        each, risks = parted(inputs, packed, most_s=most_s)
        option = Parted(plates=each, batches=risks)
        if len(each) > len(plates) and all(each != other.plates for other, _ in options):
            options.append((option, seen(option)))
    best, then = min(options, key=lambda each: _rank(calendar, *each))
    if best is whole:
        return whole
    return replace(best, why=_told(whole, first, best, then))


def lengths_s(job: Job, calendar: Calendar, longest_s: float) -> list[float]:
    """Return how long plates might be at most, longest first: one, two or three to a time at home."""
    shop = shop_of(calendar, printers_of(job))
    change_s = job.printer.plate_change_s.value
    homes = {60.0 * (b - a) for a, b in shop.attended if a < SOON_MIN}
    if calendar.unattended:  # no time at home limits a plate: as many plates as printers is what may help
        homes.add(longest_s / max(1, len(shop.change_min)))
    tried = {(home - (n - 1) * change_s) / n for home in homes for n in SHARES}
    return sorted((most for most in tried if LEAST_S <= most < longest_s), reverse=True)


def _rank(calendar: Calendar, option: Parted, seen: Forecast) -> tuple[int, float, float, float]:
    """Return what an option is ranked by: what has no time, then days late, or what counts by the weights.

    Of options in time the one with the fewest plates is best, of late ones the one that is ready first.
    """
    hours = Wall.of(calendar).minutes_to(seen.expected) / 60.0 if seen.expected else math.inf
    plates_n, weights = len(option.plates), calendar.weights
    if calendar.split == "when-needed":
        by_plan = Wall.of(calendar).minutes_to(seen.ready) / 60.0 if seen.ready else math.inf
        return seen.unmet_n, float(seen.late_days), *((by_plan, plates_n) if seen.late_days else (plates_n, hours))
    lost_g = sum(batch.whole.lost_g or 0.0 for batch in option.batches)
    cost = weights.per_lost_g * lost_g + weights.per_change * plates_n
    return seen.unmet_n, (weights.per_hour * hours if weights.per_hour else 0.0) + cost, float(plates_n), hours


def _told(whole: Parted, before: Forecast, best: Parted, after: Forecast) -> str:
    """Say what was gained."""
    longest_h = max(batch.whole.duration_s for batch in best.batches) / 3600.0
    what = f"{len(best.plates)} plates of at most {longest_h:.1f} h instead of {len(whole.plates)}"
    if after.ready is None:
        return what
    late = f", {before.late_days} d after the deadline" if before.late_days else ""
    instead = f"{moment(before.ready)}{late}" if before.ready else "never: no free time is long enough for whole plates"
    return f"{what}: ready {moment(after.ready)} instead of {instead}"
