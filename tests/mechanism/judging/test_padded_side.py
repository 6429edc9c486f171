"""Padding of which nobody says on which side it lies, on a hinge whose stop is known by hand."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

from planner.finding import Verdict
from planner.job import read_job
from planner.plan import movement, prepare
from tests.mechanism.hinge_job import JOINT, hinge
from tests.mechanism.invented import meets_deg

FOAM = '[[padding]]\npart = "arm"\nthickness_mm = {mm}\narea_mm2 = 300.0\n'


@pytest.mark.parametrize(("mm", "verdict"), [(3.0, Verdict.HOLD), (0.2, Verdict.GO)])
def test_foam_on_an_unknown_side_is_asked_about_where_it_could_stop_the_arm(
    tmp_path: Path, mm: float, verdict: Verdict
) -> None:
    """8 degrees are asked for and the bare arm goes to 10.1; with foam on the side that meets the block less is left."""
    job = read_job(hinge(tmp_path, JOINT.format(low=-20, high=8) + FOAM.format(mm=mm)))
    rules = movement(prepare(job, date(2026, 11, 29)))[1]
    found = next(rule for rule in rules if rule.rule == "move.range").at(1.0)

    assert found.verdict is verdict
    if verdict is Verdict.HOLD:
        assert found.question == "On which side of arm does its padding lie?"
        said = re.search(r"padding of arm may stop it at ([\d.]+)°", found.why)
        assert said is not None
        # foam in the corner beside the arm's round end is told a little too thick
        assert float(said[1]) == pytest.approx(meets_deg(22.0, 8.0, 8.0 + 2 * mm), abs=1.5)
