"""A pin on which something turns and that meets nothing is told."""

from __future__ import annotations

from planner.assembly import claims_of
from planner.mechanism import STILL
from planner.mechanism.joints.bore_stacks import bore_stacks
from planner.mechanism.joints.unmet_pins import unmet_pins
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of


def test_a_bar_whose_pin_meets_no_bore_of_its_plate_is_told(make_job: MakeJob) -> None:
    """The plate's bore lies beside the bar's: both stand, and what turns on what is not known; on one axis, it is."""
    plate = Manifold.cube((40, 40, 6)).translate((-20, -20, 0))
    bar = Manifold.cube((40, 10, 6)).translate((-5, -5, 6.5)) - cylinder(5.4, 20, 48)
    text = '[job]\nname = "x"\nmaterial = "petg"\n'
    text += "".join(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\n' for name in ("plate", "bar"))
    text += '[[hardware]]\nname = "pin"\nkind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = 5.4\nfit = "turning"\n'
    for x, told in ((12.0, 1), (0.0, 0)):
        bored = plate - cylinder(5.4, 20, 48).translate((x, 0, -5))
        solids = {"plate": solid_of(bored), "bar": solid_of(bar)}
        job = make_job(text + 'joins = ["plate", "bar"]\n', **solids)
        claims = claims_of(job, {name: survey(solid) for name, solid in solids.items()}).claims
        frames = {"plate": STILL, "bar": STILL}
        found = list(unmet_pins(job, claims, frames, bore_stacks(claims, frames), ()))
        assert len(found) == told
