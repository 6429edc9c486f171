"""A joint that is stated to turn where nothing is named that goes through its bores: a printed peg, say."""

from __future__ import annotations

import pytest

from planner.assembly import claims_of
from planner.mechanism import mechanism_of
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "base"\nmesh = "base.stl"\n[[part]]\nname = "arm"\n'
    'mesh = "arm.stl"\n[[joint]]\nbetween = ["base", "arm"]\nhow = "turns"\n'
)


@pytest.mark.parametrize(("more", "told"), [((), ""), ((12.0,), "they share 2 axes"), (None, "no bores of both")])
def test_the_one_axis_of_bores_of_both_is_the_joints(
    make_job: MakeJob, more: tuple[float, ...] | None, told: str
) -> None:
    """One bore of each on one axis: the axis is drawn and the turn is stated. On two axes, or on none, it is not told."""
    base, arm = (Manifold.cube((40, 12, 5)).translate((-8, -6, z)) for z in (0.0, 5.4))
    for x in (0.0, *(more or ())):
        base -= cylinder(5.4, 30, 48).translate((x, 0, -5))
        arm -= cylinder(5.4, 30, 48).translate((x if more is not None else 20.0, 0, -5))
    solids = {"base": solid_of(base, "base"), "arm": solid_of(arm, "arm")}
    job, surveys = make_job(TEXT, **solids), {name: survey(solid) for name, solid in solids.items()}
    found = mechanism_of(job, solids, surveys, claims_of(job, surveys).claims)

    assert found is not None
    if told:
        assert told in found.unsolved[0]
    else:
        (joint,) = found.joints
        assert joint.axis == pytest.approx((0.0, 0.0, 1.0), abs=1e-6)
        assert joint.at_mm[:2] == pytest.approx((0.0, 0.0), abs=1e-3)
        assert joint.bores == (("base", "b1"), ("arm", "b1"))
