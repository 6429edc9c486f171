"""Copies that may stand at any angle: those that are round about their pin look the same at each."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from planner.mechanism.judging.guessed_ways import at_any_angle
from planner.plan import prepare
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "base"\nmesh = "base.stl"\nduty = "load"\n'
    '[[part]]\nname = "knob"\nmesh = "knob.stl"\nduty = "load"\n[[hardware]]\nname = "pin"\nkind = "dowel-pin"\n'
    'diameter_mm = 5.0\nbore_mm = 5.4\nfit = "turning"\njoins = ["base", "knob"]\nstack_mm = 12.0\n'
)


@pytest.mark.parametrize(("arm", "loose"), [(False, ()), (True, ("knob",))])
def test_a_round_knob_hides_nothing_and_one_with_an_arm_may(
    make_job: MakeJob, *, arm: bool, loose: tuple[str, ...]
) -> None:
    """Taken as put together: both hang on their pin at an angle that nobody states."""
    knob = cylinder(20.0, 6.0, 90)
    if arm:
        knob += Manifold.cube((25.0, 6.0, 6.0)).translate((0.0, -3.0, 0.0))
    bodies = {
        "base": Manifold.cube((40.0, 30.0, 6.0)).translate((-20.0, -15.0, 0.0)),
        "knob": knob.translate((0.0, 0.0, 6.4)),
    }
    solids = {
        name: solid_of(body - cylinder(5.4, 99.0, 48).translate((0, 0, -5)), name) for name, body in bodies.items()
    }
    moving = prepare(make_job(TEXT, **solids), date(2026, 11, 29)).movement
    assert moving is not None
    hung = replace(moving.mechanism.placed, free={"knob": "it may stand at any angle"})
    assert at_any_angle(replace(moving, mechanism=replace(moving.mechanism, placed=hung))) == loose
