"""A hinge as a job of files: an arm on a pin in a base whose block stops it at an angle known by hand."""

from __future__ import annotations

import math
from pathlib import Path

from manifold3d import Manifold

from tests.shapes import cylinder, solid_of, written

BLOCK = (22.0, 8.0)
"""The corner of the block that the arm's side meets, from the axis."""
ARM_WIDE = 8.0
STOP_DEG = math.degrees(math.acos(ARM_WIDE / 2 / math.hypot(*BLOCK)) - math.atan2(*BLOCK))
"""Where a side 4 mm beside the axis meets the corner (x, y): x sin t = y cos t - 4, so 10.14 degrees."""
JOB = """[job]
name = "hinge"
material = "petg"
[size]
percent = 100
[[part]]
name = "base"
mesh = "base.stl"
duty = "load"
[[part]]
name = "arm"
mesh = "arm.stl"
duty = "load"
[[hardware]]
name = "pin"
kind = "dowel-pin"
diameter_mm = 5.0
bore_mm = 5.4
fit = "turning"
joins = ["base", "arm"]
stack_mm = 11.4
"""
JOINT = '[[joint]]\nbetween = ["base", "arm"]\nhow = "turns"\nneeds_deg = [{low}, {high}]\n'


def hinge(folder: Path, more: str = "") -> Path:
    """Write the hinge and its job, with more tables at its end; return the job's path."""
    bore = cylinder(5.4, 30.0, 48).translate((0.0, 0.0, 5.0))
    base = Manifold.cube((60.0, 40.0, 6.0)).translate((-30.0, -20.0, 0.0))
    base += Manifold.cube((6.0, 6.0, 14.0)).translate((BLOCK[0] - 6.0, BLOCK[1], 0.0))
    arm = cylinder(14.0, 5.0, 64).translate((0.0, 0.0, 8.9))
    arm += Manifold.cube((40.0, ARM_WIDE, 5.0)).translate((0.0, -ARM_WIDE / 2, 6.4))
    written(solid_of(base - bore), folder / "base.stl")
    written(solid_of(arm - bore), folder / "arm.stl")
    path = folder / "job.toml"
    path.write_text(JOB + more, encoding="utf-8")
    return path
