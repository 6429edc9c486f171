"""The step to the next size: what is kept, what is made anew, and what that takes."""

from __future__ import annotations

import pytest

from planner.plan import Plan, make_plan, next_size, prepare
from tests.conftest import TODAY, MakeJob
from tests.shapes import bored_plate, cuboid
from tests.size.test_outgrown import TEXT

MORE = """
[[part]]
name = "b"
mesh = "b.stl"
duty = "cover"
scale = 100.0
[[hardware]]
name = "screw"
kind = "machine-screw"
diameter_mm = 3.0
bore_mm = 3.4
fit = "sliding"
stack_mm = 5.0
joins = ["a"]
[[strap]]
name = "strap"
part = "b"
webbing_mm = 20.0
slot_mm = 21.0
around_mm = 180.0
"""


@pytest.fixture(name="growing")
def _growing(make_job: MakeJob) -> Plan:
    text = TEXT.replace("percent = 100.0\n", "")
    job = make_job(text + MORE, a=bored_plate(60, 40, 5, [(20, 15, 3.4, 48)]), b=cuboid(20, 10, 3))
    return make_plan(prepare(job, TODAY))


def test_the_step_keeps_what_need_not_grow(growing: Plan) -> None:
    """A part at a scale of its own stays; the part that follows and the strap are new, for the person has grown.

    Filament: that of the one part that follows, times growth squared to cubed, as sure as the whole plan's mass is.
    """
    step = next_size(growing)
    assert step is not None
    part = next(p for p in growing.parts if p.part.name == "a")
    assert part.mass_g is not None
    assert growing.totals.mass_g is not None
    whole, growth = growing.totals.mass_g, step.percent / growing.scale_percent

    assert step.percent > growing.scale_percent
    assert "b" in step.kept
    assert "a" in step.anew
    assert not {"strap", "a"} & set(step.kept)
    assert step.mass_g is not None
    assert step.mass_g.low == pytest.approx(part.mass_g * growth**2 * whole.low / whole.value)
    assert step.mass_g.high == pytest.approx(part.mass_g * growth**3 * whole.high / whole.value)
    assert step.cost is not None
    assert 0 < step.cost.low <= step.cost.value <= step.cost.high


def test_who_does_not_outgrow_it_has_no_next_size(make_job: MakeJob) -> None:
    """A grown-up with room: no step is invented."""
    grown = make_job(TEXT.replace("recipient_age_years = 8", "recipient_age_years = 40"), a=cuboid(60, 40, 5))

    assert next_size(make_plan(prepare(grown, TODAY))) is None
