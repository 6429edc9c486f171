"""One part as a rule of fit sees it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planner.rules.fit.part_case import PartCase
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\n'


@pytest.mark.parametrize(
    ("duty", "loaded"), [("load", True), ("pin", True), ("shell", False), ("cover", False), ("soft", False)]
)
def test_what_carries_load_is_a_load_part_or_a_pin(make_job: MakeJob, duty: Any, loaded: bool) -> None:
    """Shells, covers and soft parts carry none."""
    job, solid = make_job(TEXT, a=cuboid(40, 30, 8)), survey(cuboid(40, 30, 8))
    part = replace(job.parts[0], duty=duty)
    case = PartCase(job=job, part=part, survey=solid, sized=solid, claims=(), down=(0.0, 0.0, -1.0), view=None)

    assert case.loaded == loaded
