"""Several plans at once: what a chapter must buy and print for all of its recipients together."""

from __future__ import annotations

import math
from collections.abc import Mapping

from planner.finding import Verdict
from planner.planned import Plan
from planner.report.plan_json import Json

SPOOL_G = 1000.0
"""A full spool; common practice, no source."""


def chapter_json(plans: Mapping[str, Plan]) -> Json:
    """Return the sums over several plans, by folder name; each recipient's plates stay apart."""
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
    seconds = sum(plan.totals.duration_s.value for plan in plans.values() if plan.totals.duration_s)
    return {
        "schema": "fitwright/chapter/1",
        "verdict": max((plan.verdict for plan in plans.values()), key=lambda v: v.severity, default=Verdict.GO).value,
        "jobs": [
            {
                "folder": folder,
                "job": plan.job.name,
                "verdict": plan.verdict.value,
                "scale_percent": plan.scale_percent,
                "plates": len(plan.plates),
                "duration_s": plan.totals.duration_s.value if plan.totals.duration_s else None,
                "mass_g": plan.totals.mass_g.value if plan.totals.mass_g else None,
                "cost_delivered": plan.cost.delivered.value if plan.cost else None,
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
        "totals": {
            "plates": sum(len(plan.plates) for plan in plans.values()),
            "duration_s": seconds,
            "hours": seconds / 3600.0,
            "mass_g": sum(grams.values()),
            "cost_delivered": costs,
        },
        "withheld": [f"{folder}: {plan.totals.withheld}" for folder, plan in plans.items() if plan.totals.withheld],
    }
