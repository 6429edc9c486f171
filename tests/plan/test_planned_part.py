"""A planned part: drawn places found again on the bed, and what the other way up would cost."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.plan import Plan


def test_every_corner_of_the_drawing_stands_where_the_posed_mesh_has_it(heron_plan: Plan) -> None:
    """Scaled, mirrored, turned and moved: all corners of all parts within a micrometre, mirrored ones among them."""
    assert {part.mirrored for part in heron_plan.parts} == {True, False}
    for part in heron_plan.parts:
        found, there = part.on_bed(part.solid.vertices_mm), part.posed.vertices_mm
        for k in range(3):  # a mirrored mesh may hold its corners in another order
            assert np.sort(found[:, k]) == pytest.approx(np.sort(there[:, k]), abs=1e-3)
        low, high = found.min(axis=0), found.max(axis=0)
        assert (low + high)[:2] == pytest.approx((0.0, 0.0), abs=1e-6)
        assert low[2] == pytest.approx(0.0, abs=1e-6)


def test_the_other_way_up_is_told_in_minutes_and_cm3_a_copy(heron_plan: Plan) -> None:
    """By hand: 90 s more are +2 min (1.5 rounded to even), 2500 mm3 less are -2.5 cm3; without one the reason stands."""
    part = next(p for p in heron_plan.parts if p.estimate is not None)
    mine = part.estimate
    assert mine is not None
    other = replace(mine, duration_s=mine.duration_s + 90.0, deposited_mm3=mine.deposited_mm3 - 2500.0)
    told = replace(part, other_way=other, pose=replace(part.pose, runner_up="on its side"))

    assert told.runner_up == "on its side: +2 min and -2.5 cm³ a copy"
    assert replace(told, other_way=None).runner_up == "on its side"
