"""What only the layers tell has a proved remedy in a plan: written into the job, the new plan says nothing of it."""

from __future__ import annotations

import pytest
from manifold3d import Manifold

from planner.finding import Verdict
from planner.job import read_job, write_edits
from planner.plan import Plan
from tests.conftest import MakeJob
from tests.plan.jobs import planned
from tests.shapes import cuboid, solid_of

HEAD = '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n'
PART = '[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'
TABLE = solid_of(Manifold.cube((30, 20, 4)).translate((0, 0, 12)) + Manifold.cube((8, 20, 12)))
GATE = solid_of(Manifold.cube((30, 8, 10)) - Manifold.cube((6, 9, 8)).translate((12, -0.5, -1.0)))
CASES = {
    "bridge.speed": ("[settings]\nbridge_speed_mm_s = 150.0\n", GATE, "bridge_speed_mm_s"),
    "layer.cool": ("[settings]\nleast_layer_s = 1.0\n", cuboid(4, 4, 10), "least_layer_s"),
    "support.needed": ('[settings]\nsupport = "none"\n', TABLE, 'support = "where-needed"'),
}


def _worse(plan: Plan) -> set[tuple[str, str, Verdict]]:
    """Return what does not go in a plan."""
    return {(f.rule, f.part, f.verdict) for f in plan.findings if f.verdict is not Verdict.GO}


@pytest.mark.parametrize("rule", CASES)
def test_a_remedy_on_layers_settles_its_finding_in_the_next_plan(rule: str, make_job: MakeJob) -> None:
    """Bridges too fast, layers too short to cool, and support switched off."""
    settings, solid, told = CASES[rule]
    plan = planned(make_job(HEAD + PART + settings, a=solid))
    found = [f for f in plan.findings if f.rule == rule and f.verdict is not Verdict.GO]
    assert found
    remedy = plan.remedies.for_finding(found[0])
    assert remedy is not None, plan.remedies
    after = planned(read_job(write_edits(plan.job, remedy.does, "", plan.job.path.with_name("new.toml"))))

    assert told in remedy.text
    assert rule not in {name for name, _, _ in _worse(after)}
    assert _worse(after) <= _worse(plan)
