"""A pin on which something turns and that meets nothing is told."""

from __future__ import annotations

from planner.assembly import claims_of
from planner.mechanism import STILL
from planner.mechanism.joints.bore_stacks import bore_stacks
from planner.mechanism.joints.unmet_pins import unmet_pins
from planner.mechanism.judging.missing_facts import cure_of
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
        found = list(unmet_pins(job, claims, frames, bore_stacks(claims, frames), (), solids))
        assert len(found) == told


def test_a_place_that_an_overlap_hides_is_told_with_the_overlap(make_job: MakeJob) -> None:
    """A bar drawn 1 mm into its plate, on one axis: 25 x 10 mm2 less the bore's 22.9, and the middle of what both share."""
    plate = solid_of(Manifold.cube((40, 40, 6)).translate((-20, -20, 0)) - cylinder(5.4, 20, 96).translate((0, 0, -5)))
    bar = solid_of(Manifold.cube((25, 10, 6)).translate((-5, -5, 5)) - cylinder(5.4, 20, 96))
    text = '[job]\nname = "x"\nmaterial = "petg"\n'
    text += "".join(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\n' for name in ("plate", "bar"))
    text += '[[hardware]]\nname = "pin"\nkind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = 5.4\nfit = "turning"\n'
    solids = {"plate": plate, "bar": bar}
    job = make_job(text + 'joins = ["plate", "bar"]\n', **solids)
    claims = claims_of(job, {name: survey(solid) for name, solid in solids.items()}).claims
    (told,) = unmet_pins(job, claims, {"plate": STILL}, (), (), solids)

    assert told == (
        "plate to bar: the place of bar is not known: bar and plate overlap by 227 mm³ as drawn (at [7.5, 0.0, 5.5])"
    )
    assert cure_of(told).startswith("draw them so that they do not overlap there")
