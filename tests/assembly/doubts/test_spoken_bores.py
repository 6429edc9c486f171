"""What a person has spoken of: a cord's channel goes through, blind bores of its size are still to be asked about."""

from __future__ import annotations

from manifold3d import Manifold

from planner.assembly.doubts.bore_groups import bore_groups
from planner.assembly.doubts.spoken_bores import spoken_bores
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import cylinder, solid_of


def test_a_cord_s_channel_says_nothing_of_blind_bores_beside_it(make_job: MakeJob) -> None:
    """2 mm through and 2 mm blind in one part: the cord speaks of the first, the second is asked about."""
    block = Manifold.cube((20.0, 20.0, 20.0)) - cylinder(2, 60, 48).translate((5, 10, -20))
    part = solid_of(block - cylinder(2, 10, 48).translate((15, 10, 12)), "a")
    text = '[job]\nname = "x"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
    job = make_job(text + '[[cord]]\nname = "c"\npart = "a"\ndiameter_mm = 1.0\nchannel_mm = 2.0\n', a=part)
    surveys = {"a": survey(part)}

    through = {bore.id for bore in surveys["a"].bores if bore.through}
    assert spoken_bores(job, surveys) == {("a", one) for one in through}
    assert [group.id for group in bore_groups(job, surveys)] == ["bores-2.0-blind"]
