"""What a spool's answer rests on: stated grams where both ends of the plates' range agree, usual ones where not."""

from __future__ import annotations

import pytest

from planner.finding import Evidence
from planner.plan.plates.plate_sums import by_colour
from planner.plan.spools_left import spools_left
from tests.conftest import MakeJob
from tests.plan.jobs import planned
from tests.shapes import cuboid

JOB = (
    '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
    '[[spool]]\nmaterial = "petg"\nleft_g = {left_g}\n'
)


@pytest.mark.parametrize(("share", "usual"), [(0.5, False), (1.0, True), (3.0, False)])
def test_a_spool_rests_on_usual_grams_only_where_their_range_decides(
    share: float, usual: bool, make_job: MakeJob
) -> None:
    """Half of what is needed is too little and three times is enough whatever the estimate; just enough is not sure."""
    solid = cuboid(20, 20, 10)
    probe = planned(make_job(JOB.format(left_g=1000.0), a=solid))
    (need_g,) = by_colour(probe.stage.plates).values()
    left_g = share * need_g * probe.job.limits.spool_reserve.value
    (found,) = spools_left(planned(make_job(JOB.format(left_g=round(left_g, 3)), a=solid)).stage)

    assert (found.evidence is Evidence.USUAL) is usual
