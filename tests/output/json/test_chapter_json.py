"""A chapter as JSON: sums over several plans."""

from __future__ import annotations

from typing import Any

import pytest

from planner.output import chapter_json, plan_json
from planner.plan import Plan


def test_a_chapter_adds_up(plan: Plan) -> None:
    """Sums over two recipients are twice one; spools and verdicts are listed."""
    sums: Any = chapter_json({"a": plan, "b": plan})
    one: Any = plan_json(plan)

    assert sums["totals"]["mass_g"] == pytest.approx(2 * one["totals"]["mass_g"]["value"])
    assert sums["totals"]["duration_s"] == pytest.approx(2 * one["totals"]["duration_s"]["value"])
    assert [job["verdict"] for job in sums["jobs"]] == ["go-with-work"] * 2
    assert sums["filament"][0]["spools"] == 1
