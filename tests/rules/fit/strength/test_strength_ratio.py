"""``strength.ratio``: by hand on both sides of the limit, and never worse than go."""

from __future__ import annotations

import math

import pytest

from planner.finding import Verdict
from planner.rules.fit.strength.strength_ratio import StrengthRatio
from planner.sourced import stated

RULE = StrengthRatio(part="a", most=stated(1.25))
EDGE = math.sqrt(1.0 / 1.25)


def test_stress_goes_as_one_over_the_square_of_the_size() -> None:
    """At half size a section has a quarter of its area: four times the stress at equal force."""
    assert RULE.at(0.5).measured == pytest.approx(4.0)
    assert RULE.at(1.0).measured == pytest.approx(1.0)


@pytest.mark.parametrize(("s", "cautioned"), [(EDGE + 1e-4, False), (EDGE - 1e-4, True), (2.0, False)])
def test_it_cautions_below_the_size_of_the_limit_and_forbids_nothing(s: float, cautioned: bool) -> None:
    """1/s2 is 1.25 at 89.4 %: a caution below, none above; the verdict is go at every size."""
    found = RULE.at(s)

    assert bool(found.caution) is cautioned
    assert found.verdict is Verdict.GO
    assert found.limit == 1.25
