"""Pins that are printed as parts: one with a head is not guessed, and several are handed out, one to an axis."""

from __future__ import annotations

import pytest

from planner.assembly import claims_of
from planner.mechanism.places.frame import STILL
from planner.mechanism.places.printed_pins import held_pins, printed_pins
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "base"\nmesh = "base.stl"\n[[part]]\nname = "arm"\n'
    'mesh = "arm.stl"\n[[part]]\nname = "peg"\nmesh = "peg.stl"\ncount = 2\n[[hardware]]\nname = "pin"\n'
    'kind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = 5.4\nfit = "turning"\njoins = ["base", "arm"]\nstack_mm = 12.0\n'
    'printed = "peg"\ncount = 2\n'
)


@pytest.mark.parametrize("head", [False, True])
def test_two_copies_lie_in_two_axes_unless_a_head_makes_it_doubtful(make_job: MakeJob, *, head: bool) -> None:
    """Each pin of 12 mm comes to lie upright in the middle of both plates; with a head it may lie either way round."""
    plate = Manifold.cube((60, 20, 6)).translate((-30, -10, 0))
    for x in (-15, 15):
        plate -= cylinder(5.4, 30, 48).translate((x, 0, -5))
    peg = (cylinder(5.0, 12.0, 64) + (cylinder(9.0, 2.0, 64) if head else Manifold())).rotate((0, 90, 0))
    bodies = {"base": plate, "arm": plate.translate((0, 0, 6)), "peg": peg}
    solids = {name: solid_of(body, name) for name, body in bodies.items()}
    job = make_job(TEXT, **solids)
    claims = claims_of(job, {name: survey(solid) for name, solid in solids.items()}).claims
    frames = {"base": STILL, "arm": STILL}
    found = printed_pins(job, solids, claims, frames)

    if head:
        assert found == {}
        return
    assert sorted(found) == ["peg", "peg#2"]
    middles = sorted(frame.point((6.0, 0.0, 0.0)) for frame, _ in found.values())
    assert middles[0] == pytest.approx((-15.0, 0.0, 6.0), abs=0.01)
    assert middles[1] == pytest.approx((15.0, 0.0, 6.0), abs=0.01)
    held = list(held_pins(job, claims, {**frames, **{copy: frame for copy, (frame, _) in found.items()}}))
    assert [(copy, holder) for copy, holder, _, _ in held] == [("peg", "base"), ("peg#2", "base")]
