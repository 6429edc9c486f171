"""What a measure taken on an open shell says: how much of it is open, and when that is too much."""

from __future__ import annotations

import math
from datetime import date

import pytest

from planner.finding import Verdict
from planner.plan.prepare import prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.survey.test_station import c_shell

JOB = (
    '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "cuff"\nmesh = "cuff.stl"\nduty = "shell"\n'
    '[[size.measure]]\nname = "forearm"\nkind = "{kind}"\nrecipient_mm = 180.0\n'
    'device_mm = {{ part = "cuff", station_percent = 50.0 }}\n'
)
TODAY = date(2026, 12, 1)


@pytest.mark.parametrize(
    ("open_deg", "kind", "holds"), [(118, "around", False), (180, "around", True), (180, "width", False)]
)
def test_half_a_pipe_holds_for_a_circumference(make_job: MakeJob, open_deg: float, kind: str, holds: bool) -> None:
    """A cuff open by a third is measured and told; half a pipe was measured by its chord without a word."""
    ready = prepare(make_job(JOB.format(kind=kind), cuff=c_shell(31.0, 31.0, open_deg)), TODAY)
    found = [f for f in check(ready.bound, ready.sizing.percent).findings if f.rule == "size.open"]
    told = next(guess for guess in ready.bound.guesses if guess.what == "forearm: the device's own")

    assert [f.verdict for f in found] == [Verdict.HOLD] * holds
    assert all(f.measured == pytest.approx(50.0, abs=0.5) and f.question for f in found)
    assert (f"{open_deg / 3.6:.0f} % of the round is open" in told.why) == (kind == "around")
    if kind == "around":
        assert ready.sizing.percent == pytest.approx(100 * 180.0 / (2 * math.pi * 31.0), rel=2e-3)
