"""A bracket on two screws in a base, pulled away at its lip: what its edge adds to the pull on them is known by hand."""

from __future__ import annotations

from planner.mesh import Solid
from tests.shapes import Manifold, cylinder, solid_of

ARM_MM = 27.5
"""From the screws to the lip's middle."""
TEXT = """[job]
name = "x"
material = "petg"
[use]
load_n = {load_n}
[[part]]
name = "base"
mesh = "base.stl"
duty = "load"
pose = [0, 0, -1]
[[part]]
name = "bracket"
mesh = "bracket.stl"
duty = "load"
pose = [0, 0, -1]
load_at_mm = [27.5, 0.0, 40.0]
load_dir = [0, 0, 1]
[[hardware]]
name = "screw"
kind = "machine-screw"
diameter_mm = 4.0
fit = "sliding"
bore_mm = 4.4
pilot_mm = 3.3
washers = 0
stack_mm = 17.0
joins = ["bracket", "base"]
count = 2
"""


def bracket_on_base(edge_mm: float) -> dict[str, Solid]:
    """Return both parts; the foot ends ``edge_mm`` behind the screws."""
    base = Manifold.cube((80, 60, 20)).translate((-30, -30, -20))
    foot = Manifold.cube((edge_mm + 30, 50, 5)).translate((-edge_mm, -25, 0))
    bracket = foot + Manifold.cube((5, 50, 40)).translate((25, -25, 0))
    for y in (-15, 15):
        base -= cylinder(3.3, 12.0, 64).translate((0, y, -12))
        bracket -= cylinder(4.4, 20.0, 64).translate((0, y, -5))
    return {"base": solid_of(base, "base"), "bracket": solid_of(bracket, "bracket")}
