"""Joints that go at once are judged at the size that is asked for: what keeps its size is in the way of small devices."""

from __future__ import annotations

import math
from datetime import date

import pytest

from planner.finding import Verdict
from planner.mechanism.judging.move_together import MoveTogether
from planner.plan import movement, prepare
from tests.conftest import MakeJob
from tests.mechanism.invented import bar, plate
from tests.shapes import cylinder, solid_of

HALF, WIDE, OUT, ROUND, NEEDS_DEG = 12.0, 7.0, 45.0, 2.5, 10.0
TEXT = '[job]\nname = "jaws"\nmaterial = "petg"\n' + "".join(
    f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\n{more}'
    for name, more in (("palm", ""), ("jaw", ""), ("thumb", ""), ("peg", "scale = 100\n"))
)
TEXT += "".join(
    f'[[hardware]]\nname = "{name} pin"\nkind = "dowel-pin"\ndiameter_mm = 3.0\nbore_mm = 3.4\nfit = "turning"\n'
    f'joins = ["palm", "{name}"]\nstack_mm = 11.0\n'
    f'[[joint]]\nbetween = ["palm", "{name}"]\nhow = "turns"\nneeds_deg = {needs}\n'
    for name, needs in (("jaw", [-NEEDS_DEG, 0.0]), ("thumb", [0.0, NEEDS_DEG]))
)
TEXT += '[[joint]]\nbetween = ["jaw", "peg"]\nhow = "fixed"\n'
TEXT += f'[[place]]\npart = "peg"\nat_mm = [{OUT}, {HALF}, 0.0]\n'


def _meets(make_job: MakeJob) -> list[MoveTogether]:
    """Return the rules about two jaws, a peg on one of them that keeps its size."""
    bores = cylinder(3.4, 30.0, 48).translate((0, HALF, -9)) + cylinder(3.4, 30.0, 48).translate((0, -HALF, -9))
    bodies = {
        "palm": plate(-1, 22.0) - bores,
        "jaw": bar(46.0, WIDE, 0, (0.0, HALF)) - bores,
        "thumb": bar(46.0, WIDE, 0, (0.0, -HALF)) - bores,
        "peg": cylinder(2 * ROUND, 5.0, 96),
    }
    job = make_job(TEXT, **{name: solid_of(body, name) for name, body in bodies.items()})
    return [rule for rule in movement(prepare(job, date(2026, 11, 29)))[1] if isinstance(rule, MoveTogether)]


def test_a_peg_that_keeps_its_size_is_in_the_way_of_a_small_device_alone(make_job: MakeJob) -> None:
    """Both jaws turned by t, the peg is 2 a cos t - x sin 2t from the other's middle line: met below some size.

    It needs w / 2 + r / s there, at t = 10 degrees: so it is met below s = r / (2 a cos t - x sin 2t - w / 2).
    """
    (rule,) = _meets(make_job)
    t = math.radians(NEEDS_DEG)
    least = ROUND / (2 * HALF * math.cos(t) - OUT * math.sin(2 * t) - WIDE / 2)

    assert rule.at(1.0).verdict is rule.at(least + 0.01).verdict is Verdict.GO
    held = rule.at(least - 0.01)
    assert held.verdict is Verdict.HOLD
    assert "thumb" in held.why
    assert "peg" in held.why
    assert held.question == "Must palm to jaw and palm to thumb go at once?"
    assert rule.turns() == pytest.approx([least], abs=0.005)
