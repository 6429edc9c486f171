"""Risk of every plate in a terminal: how often it fails and why, and what other splits would cost."""

from __future__ import annotations

import math

from rich.console import Console
from rich.table import Table

from planner.output.terminal.terminal import notes
from planner.plan import Plan
from planner.schedule import Batch, CurvePoint

NUMBERS = ("plate", "split in", "most pieces", "hours to finish", "grams lost", "changes")


def show_risk(console: Console, plan: Plan) -> None:
    """Print why plates fail as often as they do, and the pieces of each on fewer or more plates."""
    numbered = list(zip(plan.plates, plan.batches, strict=True))
    reasons = [
        f"plate {plate.number}: {batch.whole.failure_percent:.1f} %, {batch.per_hour:.4f} failures per h: {batch.why}"
        for plate, batch in numbered
    ]
    notes(console, "Why plates may fail", reasons)
    table = Table(title="\nThe same pieces on more plates, failures included", title_justify="left", box=None)
    for title in NUMBERS:
        table.add_column(title, justify="right", overflow="fold")
    table.add_column("")
    for plate, batch in numbered:
        for point in batch.curve:
            table.add_row(*_row(plate.number, batch, point))
    if any(batch.curve for batch in plan.batches):
        console.print(table)
        console.print(
            "hours to finish: on average, with clearing the bed between attempts and plates. grams lost: filament of "
            "failed attempts. found: the best split that the search found, not proved to be the best.",
            markup=False,
        )


def _row(number: int, batch: Batch, point: CurvePoint) -> tuple[str, ...]:
    """Return one number of plates; * is the cheapest by [plan] weigh."""
    grams = "withheld" if point.lost_g is None else f"{point.lost_g:.1f} g" if math.isfinite(point.lost_g) else "never"
    first = point == batch.curve[0]
    note = "* best" if point == batch.best else "" if point.exact else "found"
    return (
        str(number) if first else "",
        str(point.plates_n),
        str(point.most_n),
        f"{point.expected_s / 3600:.1f} h" if math.isfinite(point.expected_s) else "never",
        grams,
        str(point.changes_n),
        note,
    )
