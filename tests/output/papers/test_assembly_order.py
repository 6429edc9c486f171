"""The order of assembly: every step joins something to what is there, and what hides the rest comes last."""

from __future__ import annotations

from planner.output import order_of
from planner.output.bench.assembly_joints import FIRM, joints_of
from planner.output.paper_files.sheet import Rows
from planner.output.papers.assembly_sheet import assembly_sheet
from planner.output.papers.bags import base_of
from planner.plan import Plan, make_plan, prepare
from tests.conftest import TODAY, MakeJob
from tests.output.conftest import BARE, MakePlan
from tests.shapes import Manifold, cylinder, solid_of


def _steps(plan: Plan) -> list[str]:
    """Return all steps in order."""
    return [step.what for group in order_of(plan) for step in group.steps]


def _at(steps: list[str], words: str) -> int:
    """Return where the first step with some words stands."""
    return next(index for index, step in enumerate(steps) if words in step)


def test_every_joint_is_a_step_and_every_step_has_its_stop(plan: Plan) -> None:
    """Nothing that the job names is left out, nothing stands twice, no check is empty."""
    joints = joints_of(plan.job, plan.built)
    steps = [step for group in order_of(plan) for step in group.steps]

    assert all(not step.covers for step in steps)
    assert sorted(step.what for step in steps) == sorted(joint.what for joint in joints)
    assert all(step.stop for step in steps)


def test_firm_joints_grow_from_what_is_there(plan: Plan) -> None:
    """Each joint of two parts touches one that came before, or begins a piece of its own that a later one ties on."""
    joints = {j.what: j for j in joints_of(plan.job, plan.built)}
    for group in order_of(plan):
        pieces: list[set[str]] = []
        for joint in (joints[step.what] for step in group.steps):
            if joint.stage == FIRM and len(joint.parts) > 1:
                touched = [piece for piece in pieces if piece & set(joint.parts)]
                pieces = [piece for piece in pieces if piece not in touched] + [set(joint.parts).union(*touched)]
                assert len(pieces) <= 2, joint.what
        assert len(pieces) <= 1


def test_what_passes_a_part_comes_after_it(plan: Plan) -> None:
    """Deck into saddle before the lock pin; nut before its screw; cords before straps; cover and padding last."""
    steps = _steps(plan)

    assert base_of(plan.job) == "deck"
    assert _at(steps, "deck to saddle") < _at(steps, "printed lock pin")
    assert _at(steps, "knob nut") < _at(steps, "knob screw (")
    assert _at(steps, "pivot post") < _at(steps, "Move jaw slowly against deck")
    assert _at(steps, "guide to deck") < _at(steps, "Thread return elastic")
    assert _at(steps, "bracket-right to deck") < _at(steps, "bracket screw × 4")
    assert _at(steps, "Thread pull cord") < _at(steps, "anchor to deck") < _at(steps, "anchor screw × 2")
    assert _at(steps, "Thread pull cord") < _at(steps, "Pass cuff strap") < _at(steps, "cover to deck")
    assert steps[-1].startswith("Line cuff")


def test_groups_that_nothing_joins_are_said(make_plan_of: MakePlan) -> None:
    """Two plates with a pressed joint between two of three parts: one group, and no step for the third."""
    more = "".join(f'[[part]]\nname = "{n}"\nmesh = "a.stl"\nduty = "cover"\n' for n in ("b", "c"))
    plan = make_plan_of('[[joint]]\nbetween = ["a", "b"]\nhow = "pressed"\n', BARE + more)

    assert _steps(plan) == ["Join b to a (pressed)"]
    assert [f.rule for f in plan.findings if f.rule == "mate.loose"] == ["mate.loose"]


def _boxed(make_job: MakeJob, *, middle: float, order: tuple[str, ...] = ("box", "lid", "plate")) -> Plan:
    """Return a box with a plate screwed to its floor and a lid screwed on, the lid named first.

    The lid has a window of 14 mm over the plate's screw where ``middle`` is not 30, and none where it is.
    """
    bore = cylinder(3.4, 200, 48).translate((30, 30, -50))
    pilots = Manifold.compose([cylinder(2.6, 12, 48).translate((x, 2.6, 32)) for x in (10.0, 50.0)])
    lid = Manifold.cube((60, 60, 4)).translate((0, 0, 40)) - pilots
    if middle != 30.0:
        lid -= cylinder(14, 20, 48).translate((30, 30, 30))
    bodies = {
        "box": Manifold.cube((60, 60, 40)) - Manifold.cube((50, 50, 40)).translate((5, 5, 5)) - bore - pilots,
        "plate": Manifold.cube((40, 40, 5)).translate((10, 10, 5)) - bore,
        "lid": lid,
    }
    text = '[job]\nname = "x"\nmaterial = "petg"\n' + "".join(
        f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\n' for name in order
    )
    text += (
        '[[hardware]]\nname = "lid screw"\nkind = "wood-screw"\ndiameter_mm = 3.505\nbore_mm = 2.6\nfit = "pilot"\n'
        'joins = ["box", "lid"]\ncount = 2\nstack_mm = 12.0\n'
        '[[hardware]]\nname = "inner screw"\nkind = "machine-screw"\ndiameter_mm = 3.0\nbore_mm = 3.4\nfit = "sliding"\n'
        'joins = ["box", "plate"]\ncount = 1\nstack_mm = 10.0\n'
    )
    return make_plan(prepare(make_job(text, **{name: solid_of(body) for name, body in bodies.items()}), TODAY))


def test_a_lid_comes_after_the_screw_that_it_covers(make_job: MakeJob) -> None:
    """A box, a lid named first, a plate on the floor: breadth first puts the lid on before the plate; reach turns it."""
    plan = _boxed(make_job, middle=30.0)
    steps = _steps(plan)

    assert _at(steps, "inner screw") < _at(steps, "lid screw")
    assert all(not step.covers for group in order_of(plan) for step in group.steps)
    told = " ".join(
        cell
        for block in assembly_sheet(plan).cards[0].blocks
        if isinstance(block, Rows)
        for row in block.rows
        for cell in row
    )
    assert "free at its step; blocked later by lid" in told


def test_a_lid_with_a_window_may_stay_where_it_was(make_job: MakeJob) -> None:
    """With a hole of 14 mm over the screw's head of 5.5 mm the first order is free, and is kept."""
    steps = _steps(_boxed(make_job, middle=0.0))

    assert _at(steps, "lid screw") < _at(steps, "inner screw")
