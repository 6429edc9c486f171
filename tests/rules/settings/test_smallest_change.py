"""The smallest change: several wrong settings become right ones, each moved to its limit and no farther."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planner.finding import Finding, Verdict, worst
from planner.job import Job, Settings, read_material
from planner.plan import judged_settings, prepare
from planner.rules import settings_findings, smallest_change
from planner.scale import DRAWN
from planner.sourced import stated
from tests.conftest import MakeJob
from tests.shapes import cuboid

PETG = read_material("petg", Path())
TEXT = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'


@pytest.fixture(name="job")
def _job(make_job: MakeJob) -> Job:
    return make_job(TEXT, a=cuboid(40, 30, 10))


def _judge(job: Job, own: Settings) -> tuple[Finding, ...]:
    """Run the rules without geometry."""
    return settings_findings(replace(job, settings=own), PETG, surveys={}, estimates={}, downs={}, scale=DRAWN)


def test_several_wrong_settings_give_one_change_each(job: Job) -> None:
    """Layer 0.36 of a 0.4 nozzle, nozzle 275 C, one contour: to 0.30, 245 and 3, the limits themselves."""
    wrong = replace(job.settings, layer_height_mm=stated(0.36), nozzle_c=stated(275.0), contours_n=1)
    changes, after = smallest_change(wrong, lambda own: _judge(job, own))
    told = {change.key: change.after for change in changes}

    assert told["layer_height_mm"] == pytest.approx(0.30)
    assert told["nozzle_c"] == pytest.approx(245.0)
    assert told["contours_n"] == 3
    assert after is Verdict.GO


def test_right_settings_want_no_change(job: Job) -> None:
    """Nothing is moved."""
    assert smallest_change(job.settings, lambda own: _judge(job, own)) == ((), Verdict.GO)


@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    layer=st.floats(0.05, 0.5),
    first=st.floats(0.05, 0.6),
    width=st.floats(0.2, 1.2),
    speed=st.floats(20, 400),
    nozzle=st.floats(180, 300),
    contours=st.integers(1, 6),
)
def test_whatever_is_wrong_the_change_never_makes_it_worse(
    job: Job, layer: float, first: float, width: float, speed: float, nozzle: float, contours: int
) -> None:
    """Random settings: with the change they are go, or at least no worse, and what was right is left alone."""
    values: dict[str, Any] = {
        "layer_height_mm": layer,
        "first_layer_height_mm": first,
        "line_width_mm": width,
        "infill_speed_mm_s": speed,
        "nozzle_c": nozzle,
    }
    numbers: dict[str, Any] = {key: stated(value) for key, value in values.items()}
    wrong = replace(job.settings, contours_n=contours, **numbers)
    changes, after = smallest_change(wrong, lambda own: _judge(job, own))

    assert after.severity <= worst(_judge(job, wrong)).severity
    if 0.12 <= layer <= 0.28 and 0.2 <= first <= 0.3 and 0.38 <= width <= 0.6:
        assert after is Verdict.GO
        assert not {"layer_height_mm", "first_layer_height_mm"} & {change.key for change in changes}


def test_the_command_says_it(make_job: MakeJob) -> None:
    """On a real part the changes stand beside the findings."""
    job = make_job(TEXT + "[settings]\nlayer_height_mm = 0.36\n", a=cuboid(20, 20, 5))
    _, findings, changes, after = judged_settings(prepare(job, date(2026, 12, 1)))

    assert worst(findings) is Verdict.NO_GO
    assert {change.key: round(change.after, 3) for change in changes}["layer_height_mm"] == 0.3
    assert after.passes
