"""Trials: each change is judged once, as deep as it is asked."""

from __future__ import annotations

from datetime import date

from planner.job import Edit
from planner.plan import prepare
from planner.plan.changed_job import stands
from planner.remedy.standing import Stand
from planner.remedy.trials import Trials, may_lie_otherwise
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
EDITS = (Edit(table="settings", put={"contours_n": 4}),)


def test_no_change_is_judged_twice_at_one_depth(make_job: MakeJob) -> None:
    """The same edits ask once; asked deeper, they ask again."""
    stand, again = stands(prepare(make_job(TEXT, a=cuboid(30, 20, 5)), date(2026, 12, 1)))
    asked: list[tuple[bool, bool]] = []

    def counted(*args: object, posed: bool = True, strong: bool = True, **rest: object) -> Stand:
        asked.append((posed, strong))
        return again(*args, posed=posed, strong=strong, **rest)  # type: ignore[arg-type]

    trials = Trials(stand, counted)
    for posed in (False, False, True, True):
        trials.after(EDITS, posed=posed)

    assert asked == [(False, False), (True, True)]


def test_a_change_of_material_or_pose_may_lay_parts_otherwise(make_job: MakeJob) -> None:
    """A drilled bore does not, in a device that does not move."""
    stand, again = stands(prepare(make_job(TEXT, a=cuboid(30, 20, 5)), date(2026, 12, 1)))
    trials = Trials(stand, again)

    assert may_lie_otherwise(trials, "material")
    assert not may_lie_otherwise(trials, "drill")
