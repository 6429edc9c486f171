"""A free nut behind a blind bore is no go; by hand, on bores whose form is stated."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import cast

import pytest

from planner.assembly import Claim, blind_findings
from planner.finding import Verdict
from planner.job import Hardware, Job
from planner.survey import Bore

SCREW = Hardware(name="M4", kind="machine-screw", diameter_mm=4.0, joins=("lid", "base"), nut="plain")
POST = replace(SCREW, kind="binding-post", nut=None)
PILOT = replace(SCREW, nut=None, fit="pilot")


@pytest.mark.parametrize(
    ("hardware", "part", "through", "n"),
    [
        (SCREW, "base", False, 1),
        (SCREW, "base", True, 0),
        (POST, "lid", False, 1),
        (POST, "base", False, 1),
        (PILOT, "base", False, 0),
    ],
)
def test_what_goes_on_from_behind_needs_a_through_bore(hardware: Hardware, part: str, through: bool, n: int) -> None:
    """A nut and a post's other half need the far side; a screw that cuts its thread does not."""
    bore = cast("Bore", SimpleNamespace(id="b1", through=through))
    job = cast("Job", SimpleNamespace(hardware=(hardware,)))
    found = blind_findings(job, [Claim(part=part, bore=bore, hardware=hardware, fit="held")])

    assert [one.verdict for one in found] == [Verdict.HOLD] * n
