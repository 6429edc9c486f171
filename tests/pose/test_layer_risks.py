"""Strength and risk of a pose, by the weights, on solids whose answer is known."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.job import Part, read_pose_weights
from planner.pose.layer_risks import risk_term, strength_terms
from planner.survey import Pose, Survey, survey
from tests.shapes import Manifold, solid_of


def _post() -> tuple[Survey, Pose, Pose]:
    """Return a post of 12 x 12 x 100, its pose on end and one on its side."""
    seen = survey(solid_of(Manifold.cube((12, 12, 100))))
    end, side = (next(p for p in seen.poses if (abs(p.down[2]) > 0.99) == on_end) for on_end in (True, False))
    return seen, end, side


@pytest.mark.parametrize(
    ("duty", "narrow_share", "tall_min"), [("load", 1.0 - 144 / 1200, 180.0), ("cover", 0.0, 60.0)]
)
def test_a_part_that_carries_pays_for_standing_on_end(duty: str, narrow_share: float, tall_min: float) -> None:
    """Its layer on end is 144 mm2, on its side 1200; the whole length stands across the layers."""
    seen, end, side = _post()
    part = Part(name="p", mesh=Path("p.stl"), duty=duty)  # type: ignore[arg-type]
    neck, _, tall = strength_terms(part, seen, end, read_pose_weights())
    neck_side, _, tall_side = strength_terms(part, seen, side, read_pose_weights())

    assert neck.cost_min == pytest.approx(600.0 * narrow_share)
    assert neck_side.cost_min == pytest.approx(0.0, abs=1e-6)
    assert tall.cost_min == pytest.approx(tall_min)
    assert tall_side.cost_min == pytest.approx(0.12 * tall_min)


def test_risk_is_the_prints_that_fail_before_one_holds() -> None:
    """On 144 of 1200 mm2, tipping at atan(6/50) = 6.8 degrees: chance 0.3 x 0.88 + 0.3; p / (1 - p) prints are lost."""
    seen, end, side = _post()
    chance = 0.3 * (1 - 0.12) + 0.3
    lost_min = 40.0 + 5.0 * 10.0

    assert risk_term(seen, end, 40.0, read_pose_weights(), 0.0).cost_min == pytest.approx(
        lost_min * chance / (1 - chance)
    )
    assert risk_term(seen, side, 40.0, read_pose_weights(), 0.0).cost_min == pytest.approx(0.0)
