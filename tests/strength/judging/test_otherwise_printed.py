"""The share of a part under the same loads, laid another way."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.job import Material, read_job
from planner.strength import Screened, lying_otherwise, stress_of
from planner.strength.beam.beam_pass import weakest
from planner.strength.beam.material_as_printed import stuff_of
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from tests.shapes import bored_plate

BAR = bored_plate(80, 10, 8, [])
CASE = known_case(
    [PartLoad(at_mm=(76.0, 5.0, 4.0), force_n=(0.0, 0.0, 20.0))], [Support(at_mm=(4.0, 5.0, 4.0))], "20 N at the tip"
)


def test_another_pose_is_worked_under_the_same_load(heron: Path, petg: Material) -> None:
    """By hand: solid, 20 N at 72 mm on 10 by 8 is 13.5 MPa; on end 25 MPa break it and not 40, 1.6 times the share."""
    job = replace(read_job(heron), material=petg)
    stuff = stuff_of(petg, job.settings, (0.0, 0.0, -1.0))
    weak = weakest(BAR, (CASE,), stuff, ((0.0, 0.0, -1.0), (-1.0, 0.0, 0.0)))
    one = Screened(part="jaw", known=True, stuff=stuff, material=petg, case=CASE, cases=(CASE,), weakest=weak)
    share_percent, stress_mpa = stress_of(job, one, 1.0)
    flat, on_end = lying_otherwise(one, share_percent)

    assert stress_mpa > 13.5
    assert flat[0] == pytest.approx(share_percent)
    assert on_end[0] / flat[0] == pytest.approx(1.6, rel=0.02)
    assert stress_of(job, replace(one, weakest=None), 1.0) == (0.0, 0.0)
