"""A lying floor is judged by layers, a standing wall by lines, and what turns a corner by both."""

from __future__ import annotations

from datetime import date

import manifold3d
import pytest

from planner.finding import Finding, Verdict
from planner.job import with_changes
from planner.mesh import Solid
from planner.plan import prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import solid_of

TODAY = date(2026, 12, 1)
JOB = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "{duty}"\npose = {down}\n'
LYING, STANDING = "[0, 0, -1]", "[0, -1, 0]"


def _tray(floor_mm: float, wall_mm: float) -> Solid:
    """Return an open tray, 60 by 40 by 12 mm outside."""
    inner = manifold3d.Manifold.cube((60 - 2 * wall_mm, 40 - 2 * wall_mm, 20))
    return solid_of(manifold3d.Manifold.cube((60, 40, 12)) - inner.translate((wall_mm, wall_mm, floor_mm)))


def _found(make_job: MakeJob, tray: Solid, down: str = LYING, duty: str = "shell", percent: float = 100.0) -> Finding:
    """Return the verdict on the tray's walls; lines are 0.45 mm wide, layers 0.2 mm high."""
    job = with_changes(make_job(JOB.format(duty=duty, down=down), a=tray), percent=percent)
    (finding,) = [f for f in check(prepare(job, TODAY).bound, percent).findings if f.rule == "wall.thin"]
    return finding


@pytest.mark.parametrize(
    ("floor_mm", "wall_mm", "down", "duty", "verdict"),
    [
        (0.81, 2.0, LYING, "shell", Verdict.GO),  # four layers: 0.8 mm; two lines would be 0.9
        (0.79, 2.0, LYING, "shell", Verdict.NO_GO),
        (0.81, 2.0, STANDING, "shell", Verdict.NO_GO),  # the floor stands
        (0.81, 0.81, LYING, "shell", Verdict.NO_GO),  # the walls stand, and are as thin
        (2.0, 0.81, LYING, "shell", Verdict.NO_GO),
        (1.21, 2.0, LYING, "load", Verdict.GO),  # six layers; three lines would be 1.35
        (1.19, 2.0, LYING, "load", Verdict.NO_GO),
    ],
)
def test_floors_need_layers_and_walls_need_lines(
    make_job: MakeJob, floor_mm: float, wall_mm: float, down: str, duty: str, verdict: Verdict
) -> None:
    """By hand, on both sides of both limits, in both poses."""
    found = _found(make_job, _tray(floor_mm, wall_mm), down, duty)

    assert found.verdict is verdict
    assert found.measured == pytest.approx(min(floor_mm, wall_mm), abs=0.01)


@pytest.mark.parametrize("percent", [70.0, 98.7, 99.1, 130.0])
def test_a_floor_grows_with_the_size_and_its_layers_do_not(make_job: MakeJob, percent: float) -> None:
    """0.81 mm at 100 %: four layers from 98.8 % on."""
    found = _found(make_job, _tray(0.81, 2.0), percent=percent)

    assert found.verdict is (Verdict.GO if 0.81 * percent >= 80.0 else Verdict.NO_GO)
    assert "4 layers of 0.2 mm" in found.why or percent == 130.0
