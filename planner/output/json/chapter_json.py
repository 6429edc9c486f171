"""Several plans at once: what a chapter must buy and print for all of its recipients together."""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import datetime

from planner.finding import Verdict
from planner.output.json.clocks_json import ways_json
from planner.output.json.ledger_json import ledger_json
from planner.output.json.plan_json import Json
from planner.plan import Plan

SPOOL_G = 1000.0
"""A full spool; common practice, no source."""


def chapter_json(plans: Mapping[str, Plan], note: str = "") -> Json:
    """Return the sums over several plans, by folder name; each recipient's plates stay apart.

    Where the spools that are left do not feed all jobs together, the chapter is on hold though each job alone goes.
    """
    grams: dict[tuple[str, str], float] = {}
    for plan in plans.values():
        for plate in plan.plates:
            if plate.mass_g is not None:
                key = plate.group.material, plate.group.colour
                grams[key] = grams.get(key, 0.0) + plate.mass_g.value
    costs: dict[str, float] = {}
    for plan in plans.values():
        if plan.cost:
            costs[plan.cost.currency] = costs.get(plan.cost.currency, 0.0) + plan.cost.delivered.value
    ledger = ledger_json(plans)
    short = any(row["short_g"] for row in ledger["spools"])
    verdicts = [plan.verdict for plan in plans.values()] + ([Verdict.HOLD] if short else [])
    seconds = sum(plan.totals.duration_s.value for plan in plans.values() if plan.totals.duration_s)
    return {
        "schema": "fitwright/chapter/1",
        "verdict": max(verdicts, key=lambda v: v.severity, default=Verdict.GO).value,
        "jobs": [
            {
                "folder": folder,
                "job": plan.job.name,
                "recipient": plan.job.recipient or None,
                "verdict": plan.verdict.value,
                "scale_percent": plan.scale_percent,
                "plates": len(plan.plates),
                "duration_s": plan.totals.duration_s.value if plan.totals.duration_s else None,
                "mass_g": plan.totals.mass_g.value if plan.totals.mass_g else None,
                "cost_delivered": plan.cost.delivered.value if plan.cost else None,
                "deadline": _deadline(plan),
                "ready": _moment(plan.clocks.ready) if plan.clocks else None,
                "ready_p90": _moment(plan.clocks.ready_p90) if plan.clocks else None,
                "deadline_kept_percent": plan.clocks.kept_percent if plan.clocks else None,
                "hands_on_min": plan.clocks.hands_min if plan.clocks else None,
                "ways_out": ways_json(plan.clocks.ways) if plan.clocks else [],
            }
            for folder, plan in plans.items()
        ],
        "filament": [
            {
                "material": material,
                "colour": colour,
                "mass_g": value,
                "spools": math.ceil(value / SPOOL_G),
                "spool_g": SPOOL_G,
            }
            for (material, colour), value in sorted(grams.items())
        ],
        "schedule": sorted(
            (
                {
                    "folder": folder,
                    "job": plan.job.name,
                    "plate": run.plate,
                    "printer": run.printer,
                    "start": _moment(run.start),
                    "end": _moment(run.end),
                    "reason": run.reason,
                }
                for folder, plan in plans.items()
                for run in plan.runs
            ),
            key=lambda row: (row["start"] is None, row["start"] or "", row["folder"] or "", row["plate"]),
        ),
        "schedule_note": note,
        "coupons": _coupons(plans),
        **ledger,
        "totals": {
            "plates": sum(len(plan.plates) for plan in plans.values()),
            "duration_s": seconds,
            "hours": seconds / 3600.0,
            "mass_g": sum(grams.values()),
            "hands_on_min": sum(plan.clocks.hands_min for plan in plans.values() if plan.clocks),
            "cost_delivered": costs,
        },
        "withheld": [f"{folder}: {plan.totals.withheld}" for folder, plan in plans.items() if plan.totals.withheld],
    }


def _moment(moment: datetime | None) -> str | None:
    """Return a moment as text, null for none."""
    return moment.isoformat() if moment else None


def _deadline(plan: Plan) -> str | None:
    """Return when a job is due."""
    calendar = plan.job.calendar
    return calendar.deadline.isoformat() if calendar and calendar.deadline else None


def _coupons(plans: Mapping[str, Plan]) -> list[dict[str, str | None]]:
    """Return the coupons to print first: one for a printer and material, whosever plates wait for it."""
    found: dict[tuple[str, str], dict[str, str | None]] = {}
    for plan in plans.values():
        first = plan.coupon
        if first is not None and (first.printer, first.material) not in found:
            row = {
                "printer": first.printer,
                "material": first.material,
                "start": _moment(first.start),
                "why": first.why,
            }
            found[first.printer, first.material] = row
    return list(found.values())
