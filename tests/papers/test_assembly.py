"""The order of assembly: every step joins something to what is there, and what hides the rest comes last."""

from __future__ import annotations

from planner.papers import order_of
from planner.papers.assembly import FIRM, joints_of
from planner.papers.bags import base_of
from planner.planned import Plan
from tests.papers.conftest import BARE, MakePlan


def _steps(plan: Plan) -> list[str]:
    """Return all steps in order."""
    return [step.what for group in order_of(plan) for step in group.steps]


def _at(steps: list[str], words: str) -> int:
    """Return where the first step with some words stands."""
    return next(index for index, step in enumerate(steps) if words in step)


def test_every_joint_is_a_step_and_every_step_has_its_stop(plan: Plan) -> None:
    """Nothing that the job names is left out, nothing stands twice, no check is empty."""
    joints = joints_of(plan.job, {line.name: line for line in plan.hardware})
    steps = [step for group in order_of(plan) for step in group.steps]

    assert sorted(step.what for step in steps) == sorted(joint.what for joint in joints)
    assert all(step.stop for step in steps)


def test_firm_joints_grow_from_what_is_there(plan: Plan) -> None:
    """Within a group each joint of two parts touches one that came before (breadth-first from the base)."""
    joints = {j.what: j for j in joints_of(plan.job, {line.name: line for line in plan.hardware})}
    for group in order_of(plan):
        there: set[str] = set()
        for step in group.steps:
            joint = joints[step.what]
            if joint.stage == FIRM and len(joint.parts) > 1:
                assert not there or there & set(joint.parts), step.what
                there |= set(joint.parts)


def test_what_passes_a_part_comes_after_it(plan: Plan) -> None:
    """Deck into saddle before the lock pin; nut before its screw; cords before straps; cover and padding last."""
    steps = _steps(plan)

    assert base_of(plan.job) == "deck"
    assert _at(steps, "deck to saddle") < _at(steps, "printed lock pin")
    assert _at(steps, "knob nut") < _at(steps, "knob screw (")
    assert _at(steps, "pivot post") < _at(steps, "Move jaw against deck")
    assert _at(steps, "guide to deck") < _at(steps, "Thread return elastic")
    assert _at(steps, "Thread pull cord") < _at(steps, "Pass cuff strap") < _at(steps, "cover to deck")
    assert steps[-1].startswith("Line cuff")


def test_groups_that_nothing_joins_are_said(make_plan_of: MakePlan) -> None:
    """Two plates with a pressed joint between two of three parts: one group, and no step for the third."""
    more = "".join(f'[[part]]\nname = "{n}"\nmesh = "a.stl"\nduty = "cover"\n' for n in ("b", "c"))
    plan = make_plan_of('[[joint]]\nbetween = ["a", "b"]\nhow = "pressed"\n', BARE + more)

    assert _steps(plan) == ["b to a, pressed"]
    assert [f.rule for f in plan.findings if f.rule == "mate.loose"] == ["mate.loose"]
