"""What every opening with hardware in it should measure at a scale, by hand."""

from __future__ import annotations

from math import cos, pi

import pytest

from planner.assembly import claims_of
from planner.job import Job
from planner.rebore.opening_targets import OVER_MM, SHARE, Aim, aims_of
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

PART = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'
PIN = (
    '[[hardware]]\nname = "pin"\nkind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = 5.3\nfit = "turning"\njoins = ["a"]\n'
)
CORD = '[[cord]]\nname = "it"\npart = "a"\ndiameter_mm = 1.5\nchannel_mm = 3.0\n'
STRAP = '[[strap]]\nname = "web"\npart = "a"\nwebbing_mm = 20.0\n'
SOLID = solid_of(
    Manifold.cube((60, 40, 8))
    - cylinder(5.3, 20, 48).translate((10, 20, -5))
    - cylinder(3.0, 20, 48).translate((25, 20, -5))
    - Manifold.cube((4, 21, 20)).translate((45, 9, -5))
)


def _aims(job: Job, s: float) -> dict[str, Aim]:
    """Return the aims of the part at a scale, by what goes into each opening."""
    surveys, downs = {"a": survey(SOLID)}, {"a": (0.0, 0.0, -1.0)}
    return {aim.hardware: aim for aim in aims_of(job, surveys, claims_of(job, surveys).claims, downs, {"a": s})}


@pytest.mark.parametrize("s", [0.8, 1.0])
def test_openings_ask_for_their_hardware_and_not_for_its_scale(make_job: MakeJob, s: float) -> None:
    """Drawn sizes go with the scale; what hardware needs, after the printer's undersize, does not.

    A bore is aimed at 30 % of the way from tight to loose; channel and slot at 0.05 mm over their least.
    """
    job = make_job(PART + PIN + CORD + STRAP, a=SOLID)
    aims, limits, under = _aims(job, s), job.limits, job.printer.undersize.upright_mm.value
    bore, channel, slot = aims["pin"], aims["it"], aims["web"]

    assert (bore.before_mm, bore.inside_mm) == pytest.approx((5.3 * s, 5.3 * cos(pi / 48) * s), abs=1e-3)
    assert bore.least_mm is not None
    assert bore.least_mm == pytest.approx(5.0 + limits.running_turning_mm.value + under)
    assert bore.most_mm == pytest.approx(5.0 + limits.play_turning_mm.value + under)
    assert bore.target_mm == pytest.approx(bore.least_mm + SHARE * (bore.most_mm - bore.least_mm))
    assert channel.least_mm == pytest.approx(1.5 * limits.channel_share.value + under)
    assert slot.least_mm == pytest.approx(20.0 + limits.slot_clearance_mm.value)
    assert slot.before_mm == pytest.approx(21.0 * s, abs=0.02)
    for aim in (channel, slot):
        assert aim.least_mm is not None
        assert aim.target_mm == pytest.approx(aim.least_mm + OVER_MM)
        assert aim.most_mm == float("inf")


def test_what_fits_is_told_from_what_does_not(make_job: MakeJob) -> None:
    """At full size all three fit (5.3 for a pin of 5, 21 for webbing of 20); at 60 % none does."""
    job = make_job(PART + PIN + CORD + STRAP, a=SOLID)

    assert {aim.fits for aim in _aims(job, 0.6).values()} == {False}
    assert _aims(job, 1.0)["web"].fits
