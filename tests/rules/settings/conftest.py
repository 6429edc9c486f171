"""A job of one block, for tests of single settings rules."""

from __future__ import annotations

import pytest

from planner.job import Job
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'


@pytest.fixture(name="block")
def _block(make_job: MakeJob) -> Job:
    """Return a job of one block with load, in PETG on bench-220 with standard-0.4."""
    return make_job(TEXT, a=cuboid(40, 30, 10))
