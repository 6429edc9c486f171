"""What holds a part: its bores, and parts that it meets."""

from __future__ import annotations

import numpy as np
import pytest

from planner.assembly import claims_of
from planner.mechanism import Frame
from planner.strength.loads.part_supports import supports_of
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate

TEXT = """
[job]
name = "x"
[[part]]
name = "a"
mesh = "a.stl"
duty = "load"
[[part]]
name = "b"
mesh = "b.stl"
duty = "{duty}"
[[hardware]]
name = "pin"
kind = "dowel-pin"
diameter_mm = 5.0
fit = "turning"
joins = ["a"]
[[joint]]
between = ["a", "b"]
how = "glued"
"""


@pytest.mark.parametrize(("duty", "held"), [("load", ["b1", "b"]), ("soft", ["b1"])])
def test_bores_with_hardware_and_parts_that_carry_hold(make_job: MakeJob, duty: str, held: list[str]) -> None:
    """A pin's bore turns; the plate glued beneath holds where the boxes meet, a soft pad does not."""
    solids = {"a": bored_plate(60, 20, 8, [(10, 10, 5.2, 64)]), "b": bored_plate(20, 20, 4, [])}
    job = make_job(TEXT.format(duty=duty), **solids)
    surveys = {name: survey(solid) for name, solid in solids.items()}
    frames = {
        "a": Frame(turn=np.eye(3), shift_mm=np.zeros(3)),
        "b": Frame(turn=np.eye(3), shift_mm=np.array([40, 0, -4])),
    }
    found = supports_of(job, "a", solids, surveys, claims_of(job, surveys).claims, frames)

    assert [one.over for one in found] == held
    assert found[0].turns
    if duty == "load":
        assert found[1].at_mm == pytest.approx((50.0, 10.0, 0.0))
