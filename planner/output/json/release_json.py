"""A release as plain JSON types, versioned."""

from __future__ import annotations

from pathlib import Path

from planner.output.record.release import Release
from planner.plan import Plan

Json = dict[str, object]


def release_json(plan: Plan, judged: Release, record: Path, sheet: Path) -> Json:
    """Return the result of ``release``."""
    return {
        "schema": "fitwright/release/1",
        "job": plan.job.name,
        "recipient": plan.job.recipient,
        "scale_percent": plan.scale_percent,
        "verdict": "go" if judged.released else "hold",
        "released": judged.released,
        "day": judged.day.isoformat(),
        "record": str(record),
        "sheet": str(sheet),
        "missing": [{"item": one.item, "what": one.what, "todo": one.todo} for one in judged.missing],
        "overridden": [
            {"item": one.missing.item, "what": one.missing.what, "role": one.lift.role, "reason": one.lift.reason}
            for one in judged.answered
        ],
        "needless": [lift.item for lift in judged.needless],
        "not_of_this_plan": list(judged.strange),
    }
