"""Patterns to show: half a pipe, a bowl, and a plate whose side nobody stated."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from planner.job import Padding, read_job
from planner.mesh import Solid
from planner.pattern import Pattern, pattern_of
from planner.plan import PaddingPatterns
from tests.pattern.shells import bowl, half_shell, plate
from tests.shapes import ROOT

JOB = replace(read_job(ROOT / "sample_parts" / "heron" / "job.toml"), paddings=())


def pattern(solid: Solid, thick_mm: float = 3.0, toward: tuple[float, float, float] | None = None) -> Pattern:
    """Return the pattern of a solid's padding."""
    return pattern_of(JOB, Padding(part="cuff", thickness_mm=thick_mm), solid, toward, 1.0)


@cache
def patterns() -> PaddingPatterns:
    """Return four patterns: half a pipe of 31 by 100 mm, a plate with a slot, a bowl, and a plate without a side."""
    every = (
        pattern(half_shell(31, 3.2, 100)),
        pattern(plate(80, 40, 4), toward=(0.0, 0.0, -1.0)),
        pattern(bowl(60, 3, 30, 48)),
        pattern(plate(80, 40, 4)),
    )
    return PaddingPatterns(job=JOB, percent=100.0, patterns=every, size_findings=())
