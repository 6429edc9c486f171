"""At size: parts scaled and estimated in the material chosen for them, and the fit judged at that scale alone."""

from __future__ import annotations

from datetime import date

import pytest

from planner.plan import prepare
from planner.plan.parts.at_size import at_size
from planner.plan.prepare import no_progress
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[size]\npercent = 50.0\n'
    '[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\npose = [0, 0, -1]\n'
)


def test_parts_are_half_as_large_at_half_the_size(make_job: MakeJob) -> None:
    """60 x 40 x 20 mm at 50 %: 30 x 20 x 10 mm, printed in the one material that the job names; settings are not asked yet."""
    ready = prepare(make_job(TEXT, a=cuboid(60, 40, 20)), date(2026, 12, 1))
    sized = at_size(ready, no_progress)
    (part,) = sized.parts

    assert part.sized.size_mm == pytest.approx((30.0, 20.0, 10.0))
    assert sized.material.name == sized.choice.choice == "petg"
    asked = {finding.rule for finding in check(ready.bound, 50.0).findings}
    told = {finding.rule for finding in sized.fit.findings}
    assert told < asked
    assert not told & {rule.rule for rule in ready.bound.settings.rules} if ready.bound.settings else told
