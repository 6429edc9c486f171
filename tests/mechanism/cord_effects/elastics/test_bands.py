"""Elastics against the cords of a table: those that lie from jaw to jaw, too."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from planner.job import PathPoint
from planner.mechanism.cord_effects.cord_moves import cord_moves
from planner.mechanism.cord_effects.cord_on_joint import StrungCord
from tests.mechanism.cord_effects.one_jaw import two_jaws

TAIL_MM = 13.9
"""From each jaw's axis to where the band is tied, straight behind it; the axes are 60 mm apart."""


@pytest.mark.parametrize("count", [1, 2])
@pytest.mark.parametrize("way", [("jaw", "jaw#2"), ("jaw#2", "jaw")])
def test_a_band_from_jaw_to_jaw_opens_both_and_falls_as_both_open(
    tmp_path: Path, way: tuple[str, str], count: int
) -> None:
    """5 N at 60 mm, 0.1 N/mm: both open by 40 degrees it is 60 - 2 x 13.9 sin 40 mm long, 13.9 cos 40 from each axis.

    Hooke and the lever less the pin's friction (textbook). It was told of the one jaw that its path ends on, and to
    open that with 44 N mm, as if the other stayed shut.
    """
    pair = two_jaws(tmp_path, 1)
    pull, band = pair.job.cords
    ends = tuple(PathPoint(copy=copy, at_mm=(-TAIL_MM, 0.0, 2.5)) for copy in way)
    job = replace(pair.job, cords=(pull, replace(band, path=ends, count=count)))
    strung = pair.strung(job)
    (move,) = cord_moves(job, pair.solids, strung, 1.0).cords

    laid = strung["band"]
    assert isinstance(laid, StrungCord)
    assert laid.crossed == {"plate to jaw", "plate to jaw#2"}
    force = 5.0 - 0.1 * 2.0 * TAIL_MM * math.sin(math.radians(40.0))
    arm = TAIL_MM * math.cos(math.radians(40.0)) - job.limits.pin_friction.value * 2.5
    assert move.back_n_mm is not None
    assert move.back_n_mm[1] == pytest.approx(count * force * arm, rel=2e-3)
    (_, first), (_, second) = move.each_n
    assert [n for _, n in first] == pytest.approx([n for _, n in second])
