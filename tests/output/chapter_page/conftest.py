"""The sums of a chapter of two Herons."""

from __future__ import annotations

from typing import Any

import pytest

from planner.output import chapter_json
from planner.plan import Plan


@pytest.fixture(name="sums", scope="session")
def _sums(plan: Plan) -> Any:
    """Return the sums of two Herons, planned in the hour in which the first plate starts."""
    start = min(run.start for run in plan.runs if run.start)
    sums: Any = chapter_json({"a": plan, "b&b": plan}, ids={"a": {1: "R-07.1"}}, now=start)
    sums["hands"] = [
        {
            "person": "M-1",
            "job": "R-07",
            "step": "assemble",
            "start": f"{start:%Y-%m-%d}T20:00",
            "end": f"{start:%Y-%m-%d}T21:30",
        }
    ]
    sums["late"] = [{"job": "R-07", "days": 2, "why": "the <last> plate ends on Friday"}]
    return sums
