"""A pin in a slot shows that two meshes are drawn in place, where they do not fill the same room."""

from __future__ import annotations

import pytest

from planner.assembly import claims_of
from planner.mechanism.places.slot_ties import slotted_groups
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

TEXT = """[job]
name = "x"
material = "petg"
[[part]]
name = "rail"
mesh = "rail.stl"
[[part]]
name = "slider"
mesh = "slider.stl"
[[hardware]]
name = "pin"
kind = "dowel-pin"
diameter_mm = 4.0
bore_mm = 4.1
fit = "held"
joins = ["slider", "rail"]
"""


@pytest.mark.parametrize(
    ("z", "x", "grouped"),
    [(5.4, 3.0, True), (2.0, 3.0, False), (5.4, 30.0, False), (40.0, 3.0, False)],
    ids=["above it", "in it", "beside the slot", "far from it"],
)
def test_a_pin_through_a_slot_ties_what_lies_beside_it(make_job: MakeJob, z: float, x: float, grouped: bool) -> None:
    """A block over the slot is drawn in place; in the plate, off the slot's line, or 35 mm away it is not."""
    slot = Manifold.cube((30, 4.4, 20)).translate((-15, -2.2, -10))
    for end in (-15, 15):
        slot += cylinder(4.4, 20, 64).translate((end, 0, -10))
    rail = Manifold.cube((120, 20, 5)).translate((-60, -10, 0)) - slot
    slider = Manifold.cube((12, 12, 5)).translate((-6, -6, 0)) - cylinder(4.1, 20, 48).translate((0, 0, -5))
    solids = {"rail": solid_of(rail), "slider": solid_of(slider.translate((x, 0, z)))}
    job = make_job(TEXT, **solids)
    surveys = {name: survey(solid) for name, solid in solids.items()}
    found = slotted_groups(job, solids, surveys, claims_of(job, surveys).claims, ())

    assert found == ((frozenset({"rail", "slider"}),) if grouped else ())
