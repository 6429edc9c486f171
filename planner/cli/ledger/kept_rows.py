"""What the ledger keeps of a plan: the job's device and measures, and its plates with where every piece lies."""

from __future__ import annotations

from typing import Any

from planner.job import printers_of
from planner.packing import Placement, counted
from planner.plan import Plan, PlannedPart, Stood, items_of

Row = dict[str, Any]
RATIOS = ("time_ratio", "mass_ratio")
"""What of a printer's own log is in a plate's hours and grams already."""


def made_of(plan: Plan) -> dict[str, str]:
    """Return of every part from which mesh and at which size it is printed."""
    return {part.part.name: made_as(plan, part) for part in plan.stage.sized.parts}


def stood_of(row: Row) -> Stood:
    """Return a plate of the last plan."""
    placements = [
        Placement(part=piece["part"], copy=n, x_mm=x, y_mm=y, turn_deg=turn)
        for piece in row["pieces"]
        for n, (x, y, turn) in enumerate(piece["places"])
    ]
    return Stood(printer=row["printer"], start=row["start"], placements=tuple(placements), spool=row.get("spool") or "")


def made_as(plan: Plan, part: PlannedPart) -> str:
    """Return what tells a part's pieces from those of another mesh or size: the mesh as drawn, its scales, its side."""
    sha256 = plan.stage.sized.ready.from_files[0][part.part.name].sha256
    scales = " ".join(f"{percent:.2f}" for percent in part.scale_percent)
    return f"{sha256[:32]} {scales}{' mirrored' if part.mirrored else ''}"


def job_body(plan: Plan) -> Row:
    """Return what the ledger keeps of a job: the device, the measures, the holds that somebody lifted; no name."""
    job = plan.job
    measures = [
        {"kind": m.kind, "length_mm": m.recipient_mm, "taken": m.taken.isoformat() if m.taken else None}
        for m in job.size.measures
    ]
    solids = plan.stage.sized.ready.from_files[0]
    parts = [{"part": p.name, "n": p.printed_n, "sha256": solids[p.name].sha256} for p in job.parts]
    overrides = [{"rule": o.rule, "part": o.part, "role": o.role, "reason": o.reason} for o in job.overrides]
    deadline = job.calendar.deadline if job.calendar else None
    hours = [[list(w.days), w.from_min, w.to_min] for w in job.calendar.attended] if job.calendar else []
    if job.calendar and not hours:
        hours = [[list(range(7)), 0, 24 * 60]]
    return {
        "scale_percent": plan.scale_percent,
        "deadline": deadline.isoformat() if deadline else None,
        "measures": measures,
        "parts": parts,
        "made": made_of(plan),
        "overrides": overrides,
        "items": [{"item": item, "unit": unit, "n": n} for (item, unit), n in items_of(plan).items()],
        "hours": hours,
        "unattended": job.calendar.unattended if job.calendar else False,
    }


def _spool(plan: Plan, number: int) -> str | None:
    """Return the id of the spool that feeds a plate whole; None where none does, or it has no id."""
    feeds = plan.clocks.feeds if plan.clocks else ()
    feed = next((each for each in feeds if each.plate == number), None)
    whole = feed is not None and len(feed.reels) == 1 and not feed.short_g and feed.reels[0].job is None
    return feed.reels[0].name if feed is not None and whole else None


def plate_row(plan: Plan, number: int, name: str) -> Row:
    """Return what the ledger keeps of a plate."""
    plate = next(plate for plate in plan.plates if plate.number == number)
    run = next((run for run in plan.runs if run.plate == number), None)
    made, name_on = made_of(plan), (run.printer if run else "") or plate.printer or plan.job.printer.name
    on = next((printer for printer in printers_of(plan.job) if printer.name == name_on), plan.job.printer)
    pieces = []
    for part, n in counted(plate.placements).items():
        places = [[p.x_mm, p.y_mm, p.turn_deg] for p in plate.placements if p.part == part]
        pieces.append({"part": part, "n": n, "made_as": made[part], "places": places})
    return {
        "id": name,
        "printer": name_on,
        "material": plate.group.material,
        "colour": plate.group.colour,
        "mass_g": plate.mass_g.value if plate.mass_g else None,
        "duration_s": plate.duration_s.value,
        "nozzle_mm": plan.job.printer.nozzle_mm.value,
        **{key: ratio.value for key in RATIOS if (ratio := getattr(on, key)) is not None},
        "spool": _spool(plan, number),
        "start": run.start.isoformat() if run and run.start else None,
        "end": run.end.isoformat() if run and run.end else None,
        "pieces": pieces,
    }
