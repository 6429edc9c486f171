"""Film hinges: a narrow thin strip right across a part is asked about, and is a wall beyond what bends and prints."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.finding import Verdict
from planner.rules.fit.walls.lying_floor import LyingFloor
from planner.rules.fit.walls.thin_wall_rule import ThinWallRule
from planner.survey import Below
from tests.rules.fit.walls.test_thin_wall_rule import _rule, _sourced


def _strip(thick_mm: float = 0.5, broad_mm: float = 2.4, *, long_mm: float = 20.0, flat: bool = True) -> ThinWallRule:
    """Return the rule of a strip right across a plate, as between the two leaves of a film hinge."""
    rule = _rule(10.0)
    below = tuple(
        Below(thickness_mm=t, area_mm2=2 * long_mm * broad_mm, length_mm=long_mm, breadth_mm=broad_mm, share=1.0)
        for t in (thick_mm * 1.12, 2.0)
    )
    place = replace(rule.places[0], thickness_mm=thick_mm, below=below, ways=((thick_mm, (0.0, 0.0, 1.0)),))
    floor = LyingFloor(
        down=(0.0, 0.0, -1.0),
        layers=_sourced(4.0),
        plain_layers=_sourced(4.0),
        least=_sourced(0.6),
        layer_height_mm=0.2,
    )
    return replace(rule, places=(place,), floor=floor if flat else None)


def test_a_narrow_thin_strip_right_across_is_asked_about_as_a_film_hinge() -> None:
    """0.5 x 2.4 x 20 mm lying flat is two layers and a half: a hold. Broad, short, or under two layers it is a wall."""
    asked = _strip().at(1.0)

    assert (asked.verdict, "film hinge" in asked.question) == (Verdict.HOLD, True)
    assert "[[override]]" in asked.remedy
    for wall in (_strip(broad_mm=10.0), _strip(long_mm=5.0), _strip(0.35), _strip(0.4, flat=False)):
        assert wall.at(1.0).verdict is Verdict.NO_GO
    assert _strip().at(0.7).verdict is Verdict.NO_GO


@pytest.mark.parametrize("flat", [True, False])
@pytest.mark.parametrize("broad_mm", [1.5, 2.4, 3.95, 5.0])
def test_a_strip_keeps_its_verdict_between_its_turns(broad_mm: float, *, flat: bool) -> None:
    """At 1,000 scales, as above."""
    rule = _strip(broad_mm=broad_mm, long_mm=7.0, flat=flat)
    ends = np.array([0.05, *rule.turns(), 5.0])
    for s in np.linspace(0.1, 4.0, 1000):
        low, high = ends[ends <= s].max(), ends[ends > s].min()
        if min(s - low, high - s) > 1e-9:
            assert rule.at(float(s)).verdict is rule.at(float((low + high) / 2)).verdict, (s, low, high)
