"""The job that re-bored meshes make: 100 % is the size just written, and every opening is named by its new size."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.assembly import claims_of
from planner.job import Job
from planner.mesh import Solid
from planner.rebore import job_after, rebored
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate

PART = '[job]\nname = "x"\nmaterial = "petg"\n[size]\npercent = 80.0\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'
PIN = '[[hardware]]\nname = "{name}"\nkind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = {bore}\nfit = "turning"\njoins = ["a"]\n'
GAP = '[[part]]\nname = "b"\nmesh = "a.stl"\n[[gap]]\nbetween = ["a", "b"]\ndrawn_mm = 0.5\n'
PLATE = bored_plate(60, 40, 8, [(15, 20, 5.3, 48), (40, 20, 5.5, 48)])
DOWNS = dict.fromkeys("ab", (0.0, 0.0, -1.0))


def _after(job: Job, solid: Solid, s: float) -> Job:
    """Re-bore a job at a scale and return the job of the new meshes."""
    surveys = {part.name: survey(replace(solid, name=part.name)) for part in job.parts}
    solids = {part.name: replace(solid, name=part.name) for part in job.parts}
    claims = claims_of(job, surveys).claims
    return job_after(job, rebored(job, solids, surveys, claims, DOWNS, s), surveys, claims, DOWNS, s)


def test_the_size_just_written_is_100_percent_in_mm_and_in_its_pose(make_job: MakeJob) -> None:
    """No measure asks for another size, no part has a scale of its own, gaps are as wide as they were written."""
    after = _after(make_job(PART + PIN.format(name="pin", bore=5.3) + GAP, a=PLATE), PLATE, 0.8)

    assert (after.size.percent, after.size.measures) == (100.0, ())
    assert {(part.scale_percent, part.mesh_unit, part.pose) for part in after.parts} == {(None, "mm", DOWNS["a"])}
    assert [gap.drawn_mm for gap in after.gaps] == pytest.approx([0.5 * 0.8])


def test_pins_that_need_the_same_bore_now_are_one_by_all_their_names(make_job: MakeJob) -> None:
    """Drawn as 5.3 and 5.5, cut alike for two pins of 5 mm: one entry, named for both, with the size that was cut."""
    text = PART + PIN.format(name="long", bore=5.3) + PIN.format(name="short", bore=5.5)
    (pin,) = _after(make_job(text, a=PLATE), PLATE, 0.8).hardware

    assert sorted(pin.name.split(", ")) == ["long", "short"]
    assert pin.diameter_mm == 5.0
    assert pin.bore_mm is not None
    assert 5.0 < pin.bore_mm < 6.0
