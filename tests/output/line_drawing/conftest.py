"""A planned hinge: a base, an arm and a pin through both."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.job import read_job
from planner.output.line_drawing.copies_standing import Standing, standing_of
from planner.plan import Plan, make_plan, prepare
from tests.conftest import TODAY
from tests.mechanism.hinge_job import JOINT, hinge


@pytest.fixture(name="hinge_plan", scope="session")
def _hinge_plan(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    folder: Path = tmp_path_factory.mktemp("hinge")
    return make_plan(prepare(read_job(hinge(folder, JOINT.format(low=-20, high=10))), TODAY))


@pytest.fixture(name="standing", scope="session")
def _standing(hinge_plan: Plan) -> Standing:
    return standing_of(hinge_plan)
