"""Bores that nobody named hardware for are holds in parts that carry, and listed in all others."""

from __future__ import annotations

from datetime import date

import pytest

from planner.finding import Verdict
from planner.plan import prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import bored_plate

TEXT = '[job]\nname = "x"\nmesh_unit = "mm"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "{}"\n'
OPEN = '[[open]]\nname = "window"\nparts = ["a"]\nbore_mm = 20.0\n'


@pytest.mark.parametrize(
    ("duty", "more", "verdict"),
    [("load", "", Verdict.HOLD), ("cover", "", Verdict.GO), ("load", OPEN, Verdict.GO)],
)
def test_a_wide_bore_without_hardware(make_job: MakeJob, duty: str, more: str, verdict: Verdict) -> None:
    """20 mm take nothing that is usually bought; one listed under [[open]] is answered."""
    job = make_job(TEXT.format(duty) + more, a=bored_plate(60, 40, 10, [(30, 20, 20.0, 96)]))
    (one,) = (
        found
        for found in check(prepare(job, date(2026, 12, 1)).bound, 100.0).findings
        if found.rule == "bore.unclaimed"
    )

    assert one.verdict is verdict
    assert one.measured == pytest.approx(20.0, abs=0.01)
