"""Times and dates of a plan in a terminal: what to start tonight, when it is ready, and what helps when it is late."""

from __future__ import annotations

from datetime import datetime

from rich.console import Console

from planner.job import kind_of
from planner.output.terminal.terminal import notes
from planner.output.words.date_words import ready_words, way_words
from planner.phrases import capital
from planner.plan import Plan, spool_lines
from planner.schedule import Batch, Clocks


def show_clocks(console: Console, plan: Plan) -> None:
    """Print what to try first, when the device is ready, and which plates are better split."""
    tried = [
        f"plate {plate.number} is a single joint, to try the fit: {plate.joint}" for plate in plan.plates if plate.joint
    ]
    notes(console, "Try the fit first", tried)
    split = [_split(plate.number, batch) for plate, batch in zip(plan.plates, plan.batches, strict=True) if batch.pays]
    notes(console, "Better split", split)
    notes(console, "Split to be ready in time", [plan.parted_why] if plan.parted_why else [])
    clocks = plan.clocks
    if clocks is None:
        return
    table = clocks.table
    first = plan.coupon
    tonight = first.tonight if first is not None and first.tonight else table.first_start
    console.print(f"\nTonight: {tonight}." if tonight else "", markup=False)
    if first is not None:
        console.print(
            f"Print the coupon, a small test piece, first: {first.why}. "
            f"Its {first.mass_g.value:.1f} g are not in the totals.",
            markup=False,
        )
    start = plan.job.calendar.start if plan.job.calendar and plan.job.calendar.start else table.start
    hours = f"printing {clocks.printing_s / 3600:.1f} h, hands-on {clocks.hands_min / 60:.1f} h"
    printed = f"{hours}, on the calendar {_days(clocks, start)}"
    console.print(f"Time: {printed}.", markup=False)
    ready = ready_words(clocks)
    console.print(capital(ready) if ready else "No time was found for all of it.", markup=False)
    phrase = [finding.caution or finding.why for finding in plan.findings if kind_of(finding.rule).dated]
    notes(console, "Notes on the calendar", [*phrase, *table.notes, *clocks.barred])
    notes(console, "Spools", spool_lines(clocks))
    late = clocks.ready is None or any(kind_of(finding.rule).late for finding in plan.findings)
    title = "What would help, soonest first" if late else "What would make it ready sooner"
    notes(console, title, [way_words(way) for way in clocks.ways])


def _days(clocks: Clocks, start: datetime) -> str:
    """Return the calendar's length."""
    if clocks.table.unmet:
        return f"unknown: {len(clocks.table.unmet)} of the plates have no time"
    end = clocks.ready or clocks.table.finish
    return "unknown" if end is None else f"{(end - start).total_seconds() / 86400:.1f} days"


def _split(number: int, batch: Batch) -> str:
    """Return what a split saves, or that there is no other way."""
    assert batch.best is not None
    hours = ", ".join(f"{seconds / 3600:.1f}" for seconds in batch.best.takes_s)
    what = f"plate {number} as {batch.best.plates_n} plates of {hours} h"
    if batch.together is None:
        return f"{what}: in one piece it runs longer than any free time"
    return f"{what}: saves {batch.saved_s / 3600:.1f} h on average, failures included"
