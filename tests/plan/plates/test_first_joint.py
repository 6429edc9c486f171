"""One joint as first article: its pieces alone on the first plate, and everything else after it."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import Any

import pytest

from planner.errors import JobError
from planner.job import Hardware
from planner.output import plan_json
from planner.output.papers.plate_cards import plate_cards
from planner.plan.plates.first_joint import first_joint
from planner.plan.plates.packed_plates import items_of
from tests.conftest import MakeJob
from tests.plan.jobs import planned
from tests.shapes import cuboid

JOB = """
[job]
name = "a slide"
material = "petg"
mesh_unit = "mm"
[size]
percent = 100.0
[[part]]
name = "rail"
mesh = "rail.stl"
count = 4
duty = "cover"
[[part]]
name = "shoe"
mesh = "shoe.stl"
count = 3
duty = "shell"
[[part]]
name = "pin"
mesh = "pin.stl"
count = 2
duty = "pin"
[[joint]]
between = ["rail", "shoe"]
how = "slid"
[[joint]]
between = ["shoe", "pin"]
how = "pressed"
[plan]
start = 2026-12-01T17:30:00
attended = ["Mon-Fri 17:30-22:30"]
first_article = "joint"
"""
SHAPES = {"rail": cuboid(60, 20, 4), "shoe": cuboid(30, 20, 6), "pin": cuboid(8, 8, 20)}


def test_the_pieces_of_one_joint_lie_alone_on_the_first_plate_and_all_else_waits(make_job: MakeJob) -> None:
    """What slides comes before what is pressed; every copy lies on one plate; the joint's bed is cleared first."""
    plan = planned(make_job(JOB, **SHAPES))
    first, *others = plan.plates

    assert Counter(p.part for p in first.placements) == {"rail": 1, "shoe": 1}
    assert first.number == 1
    assert first.joint == "rail to shoe, slid (rail x 1, shoe x 1)"
    assert others
    assert not any(plate.joint for plate in others)
    laid = Counter((p.part, p.copy) for plate in plan.plates for p in plate.placements)
    assert laid == {(part, copy): 1 for part, n in (("rail", 4), ("shoe", 3), ("pin", 2)) for copy in range(1, n + 1)}
    runs = {run.plate: run for run in plan.runs}
    assert all(run.start >= runs[1].end for n, run in runs.items() if n != 1)  # type: ignore[operator]
    told: Any = plan_json(plan)
    assert told["plates"][0]["first_joint"] == first.joint
    assert "try this joint before printing more" in repr(plate_cards(plan).cards[0])


def test_where_no_joint_can_lie_alone_the_plan_says_so(make_job: MakeJob) -> None:
    """Pieces of two colours never share a plate: a caution, and the first plate stays the first article."""
    two = JOB.replace('name = "shoe"\n', 'name = "shoe"\ncolour = "red"\n')
    plan = planned(make_job(two, **SHAPES))

    assert not any(plate.joint for plate in plan.plates)
    assert [f.caution for f in plan.findings if f.rule == "plate.first-joint"]


def test_the_joint_is_the_one_that_moves_then_the_least_with_its_shared_copies(make_job: MakeJob) -> None:
    """Four rails on two posts are two to a post; a post that turns comes before what slides; rules are kept."""
    job = make_job(JOB, **SHAPES)
    post = Hardware(name="post", kind="binding-post", diameter_mm=5.0, joins=("rail", "pin"), fit="turning", count=2)
    plan = planned(job)
    turning = replace(plan.job, hardware=(post,))
    material = next(m for m in plan.job.materials if m.name == "petg")
    items = items_of(turning, material, plan.parts)
    found = first_joint(turning, plan.parts, items)

    assert found is not None
    assert dict(found.copies) == {"rail": 2, "pin": 1}
    assert plan.job.calendar is not None
    apart = replace(turning, calendar=replace(plan.job.calendar, apart=(("rail", "pin"),)))
    other = first_joint(apart, plan.parts, items)
    assert other is not None
    assert dict(other.copies) == {"rail": 1, "shoe": 1}


def test_first_article_is_true_false_or_joint(make_job: MakeJob) -> None:
    """Anything else is refused in one sentence that names the word."""
    with pytest.raises(JobError, match=r"first_article.*joint"):
        make_job(JOB.replace('"joint"', '"jiont"'), **SHAPES)
    calendar = make_job(JOB.replace('"joint"', "false"), **SHAPES).calendar
    assert calendar is not None
    assert not calendar.first_article
    assert not calendar.joint_first
