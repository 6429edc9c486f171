"""Narrower webbing, through the whole stock."""

from __future__ import annotations

import pytest
from manifold3d import Manifold

from planner.plan import prepare, proved_remedies
from tests.conftest import MakeJob
from tests.remedy.devices import PART, TODAY
from tests.shapes import solid_of


def test_15_mm_webbing_is_found_where_20_fails(make_job: MakeJob) -> None:
    """A slot of 18 mm takes 15 mm webbing with 1 mm of room, and not 20; 190 mm of it at 0.90 a metre."""
    slotted = Manifold.cube((60, 40, 4)) - Manifold.cube((4, 18, 6)).translate((20, 11, -1))
    strap = '[[strap]]\nname = "s"\npart = "a"\nwebbing_mm = 25.0\nslot_mm = 18.0\naround_mm = 190.0\n'
    (remedy,) = proved_remedies(prepare(make_job(PART + strap, a=solid_of(slotted)), TODAY)).found

    assert remedy.text == "take 15 mm webbing for s instead of 25 mm"
    assert [refused.text for refused in remedy.refused] == ["take 20 mm webbing for s instead of 25 mm"]
    assert remedy.costs.money == pytest.approx(0.19 * 0.90)
