"""A tenon that is drawn in its mortise is judged by check, and a stated joint or gap settles how."""

from __future__ import annotations

from datetime import date

import pytest
from manifold3d import Manifold

from planner.finding import Verdict
from planner.plan import prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import solid_of

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n' + "".join(
    f'[[part]]\nname = "{n}"\nmesh = "{n}.stl"\nduty = "shell"\npose = [0, 0, -1]\n' for n in "ab"
)
JOINT = '[[joint]]\nbetween = ["a", "b"]\nhow = "pressed"\n'
GAP = '[[gap]]\nbetween = ["a", "b"]\n'


@pytest.mark.parametrize(
    ("more", "verdicts"),
    [("", [Verdict.HOLD] * 2), (JOINT, [Verdict.GO_WITH_WORK] * 2), (GAP, []), ("scale", [Verdict.HOLD] * 2)],
)
def test_a_tenon_without_room_never_passes(make_job: MakeJob, more: str, verdicts: list[Verdict]) -> None:
    """0.1 mm of room less 0.2 mm: it does not go in, until somebody says how it is joined, or that both print at once."""
    tenon = Manifold.cube((30, 30, 6), True).translate((0, 0, -9.2)) + Manifold.cube((6, 6, 20), True)
    mortise = Manifold.cube((40, 30, 12), True) - Manifold.cube((6.1, 6.1, 30), True)
    text = TEXT + more
    if more == "scale":  # the tenon alone is half as wide as drawn: 3 mm in 5.9 mm
        text = TEXT.replace('[[part]]\nname = "b"', 'scale = 50\n[[part]]\nname = "b"') + JOINT
    ready = prepare(make_job(text, a=solid_of(tenon, "a"), b=solid_of(mortise, "b")), date(2026, 10, 10))
    found = [f for f in check(ready.bound, 100.0).findings if f.rule == "between.tight"]

    assert [f.verdict for f in found] == verdicts
