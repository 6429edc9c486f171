"""The job that re-bored meshes make: 100 % is the size just written, and every opening is named by its new size."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.assembly import claims_of, unheld_findings
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
ONE = bored_plate(30, 20, 8, [(15, 10, 5.3, 48)])
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


def test_a_printed_pin_grows_and_its_bores_are_cut_for_it(make_job: MakeJob) -> None:
    """A printed pin of 5 mm at 120 % is 6 thick: bores for 5 would not take it. As bought, it stays 5."""
    peg = '[[part]]\nname = "b"\nmesh = "a.stl"\n'
    text = PART + peg + PIN.format(name="pin", bore=5.3)
    (bought,), (printed,) = (
        _after(make_job(each, a=ONE), ONE, 1.2).hardware for each in (text, text + 'printed = "b"\n')
    )

    assert (bought.diameter_mm, printed.diameter_mm) == pytest.approx((5.0, 6.0))
    assert bought.bore_mm is not None
    assert printed.bore_mm is not None
    assert printed.bore_mm - bought.bore_mm == pytest.approx(1.0, abs=0.01)


def test_what_stays_open_is_found_again_in_each_part(make_job: MakeJob) -> None:
    """An [[open]] bore of 5.5 mm is 4.4 mm at 80 %; nobody is asked again what goes through it."""
    opened = '[[open]]\nname = "window"\nparts = ["a"]\nbore_mm = 5.5\n'
    after = _after(make_job(PART + PIN.format(name="pin", bore=5.3) + opened, a=PLATE), PLATE, 0.8)

    (left,) = after.left_open
    assert left.parts == ("a",)
    assert left.bore_mm == pytest.approx(4.4)


def test_a_screw_that_cuts_its_thread_in_another_part_stays_held(make_job: MakeJob) -> None:
    """Through one part, into the pilot of the next: after the work each is an entry of its own, and nothing is loose."""
    text = PART + '[[part]]\nname = "b"\nmesh = "b.stl"\npose = [0, 0, -1]\n'
    screw = '[[hardware]]\nname = "s"\nkind = "machine-screw"\ndiameter_mm = 3.0\nbore_mm = 3.4\npilot_mm = 2.5\nfit = "sliding"\njoins = ["a", "b"]\n'
    wide, tight = bored_plate(30, 20, 8, [(15, 10, 3.4, 48)]), bored_plate(30, 20, 8, [(15, 10, 2.5, 48)])
    job = make_job(text + screw, a=wide, b=tight)
    solids = {"a": replace(wide, name="a"), "b": replace(tight, name="b")}
    surveys = {name: survey(solid) for name, solid in solids.items()}
    claims = claims_of(job, surveys).claims
    after = job_after(job, rebored(job, solids, surveys, claims, DOWNS, 0.8), surveys, claims, DOWNS, 0.8)

    assert sorted((one.joins, one.fit, one.nut) for one in after.hardware) == [
        (("a",), "sliding", "plain"),
        (("b",), "pilot", None),
    ]
    assert all(found.verdict.passes for found in unheld_findings(after))
