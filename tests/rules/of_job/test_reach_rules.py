"""Which bores are asked whether a drill reaches them, from meshes to the finding."""

from __future__ import annotations

from datetime import date

from planner.finding import Finding, Verdict
from planner.plan import prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

JOB = """
[job]
name = "x"
material = "petg"
[[part]]
name = "a"
mesh = "a.stl"
duty = "cover"
pose = [0, 0, -1]
[[hardware]]
name = "pin"
kind = "dowel-pin"
diameter_mm = 4.0
bore_mm = 4.0
fit = "sliding"
joins = ["a"]
"""
FORK = Manifold.cube((40, 40, 5)) + Manifold.cube((40, 5, 15)) + Manifold.cube((40, 40, 5)).translate((0, 0, 15))


def found(make_job: MakeJob, body: Manifold, more: str = "") -> list[Finding]:
    """Return what is found about reach in a body with a bore of 4 mm for a pin of 4 mm, which is drilled."""
    ready = prepare(make_job(JOB + more, a=solid_of(body)), date(2026, 12, 1))
    return [one for one in check(ready.bound, ready.sizing.percent).findings if one.rule == "bore.reach"]


def test_a_bore_behind_another_wall_of_its_part_is_drilled_from_outside(make_job: MakeJob) -> None:
    """10 mm before its inner mouth stands the other plate; it once was go-with-work and nothing else."""
    (one,) = found(make_job, FORK - cylinder(4, 7, 48).translate((20, 25, -1)))

    assert (one.verdict, one.remedy) == (Verdict.GO_WITH_WORK, "drill it from its -z side only")


def test_a_blind_bore_that_opens_inward_is_held(make_job: MakeJob) -> None:
    """Only its mouth between the plates is open: no drill stands in 10 mm."""
    (one,) = found(make_job, FORK - cylinder(4, 4, 48).translate((20, 25, 1.5)))

    assert one.verdict is Verdict.HOLD


def test_a_bore_in_a_plain_plate_is_not_spoken_of(make_job: MakeJob) -> None:
    """Nothing is in a drill's way."""
    assert found(make_job, Manifold.cube((40, 40, 5)) - cylinder(4, 7, 48).translate((20, 25, -1))) == []


def test_work_that_the_job_states_is_asked_too(make_job: MakeJob) -> None:
    """A bore of 6 mm without hardware, to be drilled to 6.5 from between the plates: a hold."""
    body = FORK - cylinder(6, 4, 48).translate((20, 25, 1.5))
    work = '[[work]]\npart = "a"\nbores = ["b1"]\nkind = "drill"\nto_mm = 6.5\n'

    assert [one.verdict for one in found(make_job, body, work)] == [Verdict.HOLD]
