"""The plates of a plan in a terminal: when each starts, how long it takes, and what lies on it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from rich.markup import escape
from rich.table import Table

from planner.job import Job
from planner.output.words.paper_words import with_count
from planner.packing import Plate, Run, counted
from planner.phrases import listed, moment
from planner.plan import CouponFirst, Plan

RIGHT = ("time", "risk", "mass")


def plates_table(plan: Plan) -> Table:
    """Return the plates in the order of their start, with the parts on each; what is mirrored says so."""
    made = dict.fromkeys(_made_of(plate) for plate in plan.plates)
    title = "\nWhat to print when" + (f": {next(iter(made))}" if len(made) == 1 else "")
    table = Table(title=escape(title), title_justify="left", box=None, padding=(0, 1, 0, 0))
    for name in ("plate", "start", *RIGHT, "what lies on it"):
        table.add_column(name, justify="right" if name in RIGHT else "left", overflow="fold")
    if plan.coupon is not None:
        table.add_row(*_coupon(plan.coupon))
    runs = {run.plate: run for run in plan.runs}
    for plate, batch in sorted(zip(plan.plates, plan.batches, strict=True), key=lambda row: _starts(runs, row[0])):
        table.add_row(
            str(plate.number),
            _start(runs.get(plate.number)) + (f", {escape(plate.printer)}" if plan.job.more_printers else ""),
            f"{plate.duration_s.value / 3600:.1f} h",
            f"{batch.whole.failure_percent:.0f} %",
            f"{plate.mass_g.value:.0f} g" if plate.mass_g else "withheld",
            escape(_on_it(plan, plate) + ("" if len(made) == 1 else f" ({_made_of(plate)})")),
        )
    return table


def unplaced(plan: Plan) -> str:
    """Return a sentence about parts that lie on no plate, printed ones aside; empty where there are none."""
    lie = {part for plate in (*plan.plates, *plan.stage.printed.plates) for part in counted(plate.placements)}
    names = [part.name for part in plan.job.parts if part.printed_n and part.name not in lie]
    return f"On no plate: {listed(names)}." if names else ""


def mirrored_words(plan: Plan) -> str:
    """Return a sentence about the parts that are mirrored; empty where none is."""
    names = [planned.part.name for planned in plan.parts if planned.mirrored]
    return f"Mirrored for the {plan.job.size.side} side: {listed(names)}." if names else ""


def rebored_words(job: Job, percent: float) -> str:
    """Return a sentence about the parts whose openings are cut for a size; empty where none is."""
    names = [part.name for part in job.parts if part.rebore]
    if not names:
        return ""
    return (
        f"Re-bored for {percent:.4g} %: {listed(names)}. Print the plates that plan writes, not the mesh files; "
        "another size needs these openings cut again."
    )


def _on_it(plan: Plan, plate: Plate) -> str:
    """Return the parts on a plate with their counts."""
    mirrored = {planned.part.name for planned in plan.parts if planned.mirrored}
    return ", ".join(
        with_count(part, n) + (" (mirrored)" if part in mirrored else "")
        for part, n in counted(plate.placements).items()
    )


def _made_of(plate: Plate) -> str:
    """Return what a plate is printed in, and how."""
    group = plate.group
    told = f"{group.material}, {group.colour} colour" if group.colour == "any" else f"{group.material} {group.colour}"
    told += f", support {'on' if group.support else 'off'}"
    told += f", layers {group.layer_height_mm:g} mm" if group.layer_height_mm else ""
    return told + (", one after another" if plate.in_turn else "")


def _start(run: Run | None) -> str:
    """Return when a plate starts, or why it has no time."""
    if run is None:
        return "no calendar"
    return moment(run.start) if run.start else escape(run.reason)


def _starts(runs: Mapping[int, Run], plate: Plate) -> tuple[bool, datetime, int]:
    """Return what a plate's row is ordered by: its start, plates without one last, by number."""
    start = runs[plate.number].start if plate.number in runs else None
    return start is None, start or datetime.min, plate.number  # noqa: DTZ901  only an order


def _coupon(first: CouponFirst) -> tuple[str, ...]:
    """Return the row of what comes before the plates."""
    start = "no calendar" if first.start is None else moment(first.start)
    return "coupon", start, f"{first.duration_s / 3600:.1f} h", "", f"{first.mass_g.value:.0f} g", first.material
