"""Which rules about walls a part gets."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from planner.finding import Finding, Verdict
from planner.mesh import Solid
from planner.plan.prepare import prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import Manifold, cuboid, solid_of

HEAD = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
WEDGE = solid_of(
    Manifold.hull_points(np.array([[0, 0, 0], [50, 0, 0], [50, 30, 0], [0, 30, 0], [0, 0, 20], [0, 30, 20.0]]))
)
"""An edge of atan(20 / 50) = 22 degrees at x = 50; its faces look down, and up and to the right."""


def _walls(make_job: MakeJob, text: str, solid: Solid) -> dict[str, Finding]:
    """Return the findings about walls, by their rules."""
    found = check(prepare(make_job(HEAD + text, a=solid), date(2026, 12, 1)).bound, 100.0).findings
    return {finding.rule: finding for finding in found if finding.rule.startswith("wall.")}


def test_a_part_without_sharp_edges_has_no_rule_about_them(make_job: MakeJob) -> None:
    """A cuboid gets its thinnest wall judged, and no edge that runs out."""
    found = _walls(make_job, "", cuboid(40, 30, 5))

    assert "wall.thin" in found
    assert "wall.run_out" not in found


@pytest.mark.parametrize(
    ("skin", "verdict"),
    [
        ("", Verdict.GO),
        ("skin_toward = [0, 0, -1]\n", Verdict.GO_WITH_WORK),
        ("skin_toward = [-1, 0, 0]\n", Verdict.GO),
    ],
)
def test_a_sharp_edge_is_work_where_it_lies_on_skin(make_job: MakeJob, skin: str, verdict: Verdict) -> None:
    """With skin below, a face of the edge looks that way; with skin on the far side, none does."""
    assert _walls(make_job, skin, WEDGE)["wall.run_out"].verdict is verdict
