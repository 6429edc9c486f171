"""Dates and risk as JSON: moments are ISO 8601, and what is not finite is null."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from datetime import datetime

from planner.output.json.clocks_json import batch_json, clocks_json, coupon_json, moment_json
from planner.plan import Plan


def test_every_batch_is_finite_json(plan: Plan) -> None:
    """A plate that never ends on average gets null, never infinity, which JSON does not know."""
    batch = plan.batches[0]
    endless = replace(batch, whole=replace(batch.whole, expected_s=math.inf))
    found = batch_json(endless)

    assert json.loads(json.dumps(found, allow_nan=False))["risk"]["expected_s"] is None
    assert json.loads(json.dumps(batch_json(batch), allow_nan=False))["risk"]["expected_s"] > 0


def test_clocks_name_every_step_and_moment(plan: Plan) -> None:
    """Each step of the hands has its minutes and its slack; moments can be read back."""
    assert plan.clocks is not None
    found = json.loads(json.dumps(clocks_json(plan.clocks), allow_nan=False))

    assert len(found["steps"]) == len(plan.clocks.steps or ())
    assert all(step["slack_min"] >= 0 for step in found["steps"])
    assert datetime.fromisoformat(found["ready"]) == plan.clocks.ready


def test_nothing_is_null() -> None:
    """No calendar, no coupon, no moment: null."""
    assert (clocks_json(None), coupon_json(None), moment_json(None)) == (None, None, None)
