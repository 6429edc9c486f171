"""Three clocks of a plan in a terminal, what to start tonight, and the ways out where it is late."""

from __future__ import annotations

from datetime import datetime

from rich.console import Console

from planner.job import kind_of
from planner.output.terminal.terminal import notes
from planner.plan import Plan, spool_lines
from planner.schedule import Batch, Clocks, Way


def show_clocks(console: Console, plan: Plan) -> None:
    """Print what is tried first, when the device is ready, and which plates are better parted."""
    tried = [
        f"plate {plate.number} is one joint, to try the fit: {plate.joint}" for plate in plan.plates if plate.joint
    ]
    notes(console, "First article", tried)
    split = [_split(plate.number, batch) for plate, batch in zip(plan.plates, plan.batches, strict=True) if batch.pays]
    notes(console, "Better parted", split)
    notes(console, "Parted to be ready in time", [plan.parted_why] if plan.parted_why else [])
    clocks = plan.clocks
    if clocks is None:
        return
    table = clocks.table
    first = plan.coupon
    tonight = first.tonight if first is not None and first.tonight else table.tonight
    console.print(f"\nTonight: {tonight}." if tonight else "", markup=False)
    if first is not None:
        console.print(
            f"The coupon comes first: {first.why}. It takes {first.mass_g.value:.1f} g, counted in no total.",
            markup=False,
        )
    start = plan.job.calendar.start if plan.job.calendar and plan.job.calendar.start else table.start
    hours = f"printing {clocks.printing_s / 3600:.1f} h, hands-on {clocks.hands_min / 60:.1f} h"
    printed = f"{hours}, calendar {_days(clocks, start)}"
    console.print(f"Three clocks: {printed}.", markup=False)
    if clocks.ready is not None and clocks.ready_p90 is not None:
        console.print(
            f"Ready {clocks.ready:%a %d %b %H:%M} by plan; by {clocks.ready_p90:%a %d %b %H:%M} in 90 of 100 plays "
            f"with failures and slow plates{_average(clocks)}{_kept(clocks)}.",
            markup=False,
        )
    told = [finding.caution for finding in plan.findings if kind_of(finding.rule).dated and finding.caution]
    notes(console, "Notes on the calendar", [*told, *table.notes, *clocks.barred])
    notes(console, "Spools", spool_lines(clocks))
    notes(console, "Ways out, the soonest first", [way_line(way) for way in clocks.ways])


def way_line(way: Way) -> str:
    """Return a way out, when the device is ready with it, and what it costs."""
    costs = f"; cost: {way.costs}" if way.costs else ""
    if way.ready is None:
        left = f"{way.unmet_n} plates" if way.unmet_n else "the work by hand"
        return f"{way.what}: {left} still without a time{costs}"
    late = f", {way.late_days} d late" if way.late_days else ""
    return f"{way.what}: ready {'' if way.solved else 'about '}{way.ready:%a %d %b %H:%M}{late}{costs}"


def _average(clocks: Clocks) -> str:
    """Return when it is ready on average; where few plays end far later, the average lies beyond what 90 keep."""
    if clocks.ready_expected is None or clocks.ready_p90 is None:
        return ""
    few = ", as few end much later" if clocks.ready_expected > clocks.ready_p90 else ""
    return f", {clocks.ready_expected:%a %d %b %H:%M} on average{few}"


def _kept(clocks: Clocks) -> str:
    """Return how often the deadline is kept."""
    return "" if clocks.kept_percent is None else f"; the deadline is kept in {clocks.kept_percent:.0f} of 100"


def _days(clocks: Clocks, start: datetime) -> str:
    """Return the calendar's length."""
    if clocks.table.unmet:
        return f"unknown, {len(clocks.table.unmet)} of the plates without a time"
    end = clocks.ready or clocks.table.finish
    return "unknown" if end is None else f"{(end - start).total_seconds() / 86400:.1f} days"


def _split(number: int, batch: Batch) -> str:
    """Return what a split saves, or that there is no other way."""
    assert batch.best is not None
    hours = ", ".join(f"{seconds / 3600:.1f}" for seconds in batch.best.takes_s)
    what = f"plate {number} as {batch.best.plates_n} plates of {hours} h"
    if batch.together is None:
        return f"{what}: whole it is longer than any time that it may run in"
    return f"{what}: {batch.saved_s / 3600:.1f} h less on average, with what failures cost"
