"""Three plans that a chapter is made of."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

import pytest

from planner.plan import Plan
from tests.conftest import MakeJob
from tests.plan.chapter.plates_and_posts import plan_of


@pytest.fixture(name="plans")
def _plans(make_job: MakeJob) -> Mapping[str, Plan]:
    """Return three plans of the same device, the last due first."""
    return {name: plan_of(make_job, deadline=date(2026, 12, due)) for name, due in (("a", 20), ("b", 16), ("c", 12))}
