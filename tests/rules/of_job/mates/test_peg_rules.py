"""A job that names no hardware for a bore is judged by the peg that is drawn in it: fits that do not go in never pass."""

from __future__ import annotations

from datetime import date

import pytest
from manifold3d import Manifold

from planner.finding import Verdict
from planner.plan import prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import cylinder, solid_of

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n' + "".join(
    f'[[part]]\nname = "{n}"\nmesh = "{n}.stl"\nduty = "shell"\npose = [0, 0, -1]\n' for n in "ab"
)
JOINT = '[[joint]]\nbetween = ["a", "b"]\nhow = "{how}"\n'


@pytest.mark.parametrize(
    ("bore_mm", "how", "verdict"),
    [
        (8.1, "", Verdict.HOLD),
        (8.5, "", Verdict.GO),
        (8.1, "turns", Verdict.GO_WITH_WORK),
        (8.1, "pressed", Verdict.GO_WITH_WORK),
        (8.3, "pressed", Verdict.GO),
        (8.3, "turns", Verdict.GO_WITH_WORK),
    ],
)
def test_a_peg_in_a_bore_is_judged_as_printed(make_job: MakeJob, bore_mm: float, how: str, verdict: Verdict) -> None:
    """0.2 mm come off an upright bore: of 8.1 mm 7.9 are left, which a peg of 8 mm does not go into."""
    plate = solid_of(Manifold.cube((40, 20, 4), True) + cylinder(8.0, 12.0, 64), "a")
    lever = solid_of(Manifold.cube((30, 24, 5), True).translate((0, 0, 7)) - cylinder(bore_mm, 20.0, 64), "b")
    ready = prepare(make_job(TEXT + (JOINT.format(how=how) if how else ""), a=plate, b=lever), date(2026, 10, 10))
    (found,) = (f for f in check(ready.bound, 100.0).findings if f.rule == "peg.tight")

    assert (found.part, found.verdict) == ("b", verdict)
    assert not any(f.rule == "bore.unclaimed" for f in check(ready.bound, 100.0).findings)
