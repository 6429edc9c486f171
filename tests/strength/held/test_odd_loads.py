"""What cannot be meant about loads is told with its place: bodies apart, air, and forces without an arm."""

from __future__ import annotations

import pytest
from manifold3d import Manifold

from planner.finding import Vec3
from planner.mechanism import STILL, Landing
from planner.mesh import Solid
from planner.strength.held.odd_loads import odd_loads
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import LoadCase, PartLoad, Support
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import cuboid, solid_of

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "bar"\nmesh = "bar.stl"\n'


def landing(make_job: MakeJob, solid: Solid) -> Landing:
    """Return what a load may lie on: one part where it is drawn."""
    job = make_job(TEXT, bar=solid)
    surveys = {"bar": survey(solid)}
    frames = {"bar": STILL}
    return Landing(job=job, solids={"bar": solid}, surveys=surveys, frames=frames, groups=[frozenset(frames)])


def pushed(at_mm: Vec3, held_mm: Vec3 = (0.0, 5.0, 5.0), force_n: float = 20.0) -> LoadCase:
    """Return a bar of 60 mm pushed at a place, held at another."""
    load = PartLoad(at_mm=at_mm, force_n=(0.0, 0.0, force_n))
    return known_case([load], [Support(at_mm=held_mm, over="frame")], "pushed")


@pytest.mark.parametrize(
    ("case", "says"),
    [
        (pushed((60.0, 5.0, 10.0)), ""),
        (pushed((60.0, 5.0, 42.0)), "a load at [60.0, 5.0, 42.0] mm lies 32.0 mm off bar"),
        (
            pushed((60.0, 5.0, 10.0), (-25.0, 5.0, 5.0)),
            "what holds it (frame) at [-25.0, 5.0, 5.0] mm lies 25.0 mm off bar",
        ),
        (pushed((60.0, 5.0, 10.0), force_n=5000.0), "20 N that the device carries make 5,000 N"),
    ],
)
def test_what_cannot_be_meant_is_told_with_its_place(make_job: MakeJob, case: LoadCase, says: str) -> None:
    """A bar of 60 by 10 by 10 mm: distances by hand."""
    found = odd_loads(landing(make_job, cuboid(60.0, 10.0, 10.0)), "bar", case, 20.0)

    assert says in found
    assert bool(found) == bool(says)


def test_a_mesh_of_bodies_apart_is_told(make_job: MakeJob) -> None:
    """Two halves 1 mm apart pass nothing on."""
    half = Manifold.cube((29.0, 10.0, 10.0))
    apart = solid_of(half + half.translate((30.0, 0.0, 0.0)))

    assert "in 2 bodies" in odd_loads(landing(make_job, apart), "bar", pushed((59.0, 5.0, 10.0)), 20.0)
