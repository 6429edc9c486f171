"""Slots that hardware slides in are judged in every job, by what the hardware needs and not by what it is drawn at."""

from __future__ import annotations

from datetime import date

import pytest

from planner.plan import prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "plate"\nmesh = "plate.stl"\nduty = "load"\n'
    '[[hardware]]\nname = "pin"\nkind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = 5.4\nfit = "held"\njoins = ["plate"]\n'
)


@pytest.mark.parametrize(
    ("percent", "verdict"), [(85.0, "no-go"), (95.0, "go-with-work"), (100.0, "go"), (112.0, "hold")]
)
def test_a_pin_held_elsewhere_slides_in_its_slot(make_job: MakeJob, percent: float, verdict: str) -> None:
    """The slot of 5.4 mm is judged with the clearance and the play of a sliding fit, and is no opening unspoken of."""
    slot = Manifold.cube((20, 5.4, 9)).translate((20, 7.3, -2))
    for x in (20, 40):
        slot += cylinder(5.4, 9, 64).translate((x, 10, -2))
    ready = prepare(make_job(TEXT, plate=solid_of(Manifold.cube((60, 20, 5)) - slot, "plate")), date(2026, 11, 29))
    found = [
        one
        for one in check(ready.bound, percent).findings
        if one.rule in ("slot.pin", "slot.unclaimed", "bore.missing")
    ]

    (only,) = found
    assert (only.rule, only.verdict.value) == ("slot.pin", verdict)
    assert only.limit == pytest.approx(5.4 if verdict == "hold" else 5.1)
