"""A printed peg has play in its bore, and in the ring of a bearing, as a pin has: by hand, from the profile's numbers."""

from __future__ import annotations

import pytest

from planner.assembly import claims_of
from planner.job import Job
from planner.mechanism import MovingJoint, mechanism_of
from planner.mechanism.cord_effects.tip_moves import joint_play
from planner.mechanism.play.peg_sleeves import peg_sleeves
from planner.mechanism.play.sleeve import Sleeve
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

PARTS = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "base"\nmesh = "base.stl"\n[[part]]\nname = "arm"\nmesh = "arm.stl"\n'
TURNS = '[[joint]]\nbetween = ["base", "arm"]\nhow = "turns"\n'
BEARING = (
    '[[hardware]]\nname = "ring"\nkind = "bearing"\ndiameter_mm = 8.0\nsize_mm = 22.0\njoins = ["base"]\n'
    'bore_mm = 22.1\nfit = "held"\n'
)


def _sleeve(
    make_job: MakeJob, text: str, base: Manifold, arm: Manifold, factor: float
) -> tuple[Job, MovingJoint, Sleeve, float]:
    """Return the one sleeve of the device's one joint at a scale, and the joint's play at its farthest point."""
    solids = {"base": solid_of(base, "base"), "arm": solid_of(arm, "arm")}
    job, surveys = make_job(text, **solids), {name: survey(solid) for name, solid in solids.items()}
    claims = claims_of(job, surveys).claims
    mechanism = mechanism_of(job, solids, surveys, claims)
    assert mechanism is not None
    (joint,) = mechanism.joints
    (sleeve,) = peg_sleeves(job, joint, surveys, mechanism.frames, claims, {}, factor)
    wander = joint_play(job, surveys, claims, mechanism, joint, {}, factor)
    assert wander is not None
    return job, joint, sleeve, wander.worst_mm


@pytest.mark.parametrize("factor", [1.0, 1.5])
def test_a_peg_in_a_printed_bore(make_job: MakeJob, factor: float) -> None:
    """8.0 mm in 9.2 mm, over the 5 mm that both reach: the bore prints smaller, what a lying one usually does."""
    base = Manifold.cube((40, 20, 4), True) + cylinder(8.0, 14.0, 96)
    arm = Manifold.cube((60, 16, 5)).translate((-8, -8, 4)) - cylinder(9.2, 40.0, 96)
    job, _, sleeve, worst_mm = _sleeve(make_job, PARTS + TURNS, base, arm, factor)
    off = job.printer.undersize.lying_mm
    round_mm = 9.2 * 0.99946  # across facets, cos(pi / 96)

    assert sleeve.play_mm == pytest.approx(
        [round_mm * factor - mm - 8.0 * factor for mm in (off.high, off.value, off.low)], abs=0.01
    )
    assert sleeve.long_mm == pytest.approx(5.0 * factor)
    assert sleeve.at_mm == pytest.approx((0.0, 0.0, 6.5 * factor), abs=1e-6)
    assert worst_mm > sleeve.play_mm[2] / sleeve.long_mm * 52.0 * factor * 0.95


@pytest.mark.parametrize(("factor", "usual_mm"), [(0.9, 0.8), (1.0, 0.0), (1.1, 0.0)])
def test_a_peg_in_a_bearing(make_job: MakeJob, factor: float, usual_mm: float) -> None:
    """The ring keeps its 8 mm (ISO 15: 8 x 22 x 7) and the peg grows: at 90 % 0.8 mm of play, at 110 % it is sanded to fit."""
    seat = cylinder(22.1, 7.2, 96).translate((0, 0, 2.8)) + cylinder(14.0, 40.0, 96).translate((0, 0, -9))
    base = Manifold.cube((40, 40, 10)).translate((-20, -20, 0)) - seat
    arm = Manifold.cube((60, 12, 5)).translate((-6, -6, 11)) + cylinder(8.0, 11.0, 96)
    job, joint, sleeve, _ = _sleeve(make_job, PARTS + BEARING, base, arm, factor)
    spread_mm = job.limits.of("bearing.peg", "spread_mm").value
    usual = 8.0 - 8.0 * factor

    assert joint.ring == "ring"
    assert sleeve.play_mm == pytest.approx([max(usual + mm, 0.0) for mm in (-spread_mm, 0.0, spread_mm)], abs=1e-6)
    assert sleeve.play_mm[1] == pytest.approx(usual_mm, abs=1e-6)
    assert sleeve.long_mm == pytest.approx(7.0)  # the ring's width, at any size
