"""Joints: everything that the job names is one, with what to do and what must be true afterwards."""

from __future__ import annotations

from dataclasses import replace

from planner.job import HardwareKind
from planner.output.bench.assembly_joints import LATE, MOVEMENTS, PADDED, STRAPPED, TIED, joints_of, stop_words
from planner.plan import Plan


def test_everything_that_joins_is_a_joint(plan: Plan) -> None:
    """Hardware, joints, gaps, cords, straps and padding, each once and each with a check that is known."""
    job = plan.job
    joints = joints_of(job, plan.built)

    moves = [j for j in job.joints if j.how in MOVEMENTS and any(set(j.between) <= set(h.joins) for h in job.hardware)]
    held = [j for j in job.joints if j not in moves]  # what turns on hardware is a step with that hardware
    assert len(joints) == sum(map(len, (job.hardware, held, job.gaps, job.cords, job.straps, job.paddings)))
    assert len({joint.name for joint in joints}) == len(joints)
    assert all(stop_words(joint.check) for joint in joints)


def test_what_hides_the_rest_comes_late(plan: Plan) -> None:
    """Cords, straps and padding have stages of their own; what touches the cover waits for the covers."""
    stages = {joint.name: joint.stage for joint in joints_of(plan.job, plan.built)}

    assert all(stages[f"cord: {cord.name}"] == TIED for cord in plan.job.cords)
    assert all(stages[f"strap: {strap.name}"] == STRAPPED for strap in plan.job.straps)
    assert all(stages[f"padding: {padding.part}"] == PADDED for padding in plan.job.paddings)
    assert LATE in stages.values()


def test_only_what_has_a_thread_is_tightened(plan: Plan) -> None:
    """A pin that slides in is not told to be tightened; a screw is."""
    screw = next(one for one in plan.job.hardware if one.kind == "machine-screw")
    kinds: list[tuple[HardwareKind, bool]] = [("dowel-pin", False), ("machine-screw", True)]
    for kind, tightened in kinds:
        job = replace(plan.job, hardware=(replace(screw, kind=kind, fit="sliding"),))
        assert ("Tighten" in joints_of(job, plan.built)[0].what) is tightened
