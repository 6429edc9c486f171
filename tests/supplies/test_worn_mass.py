"""The worn mass: printed parts, metal, foam and straps, against the limit."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from planner.finding import Verdict
from planner.job import read_job
from planner.supplies import (
    built,
    mass_findings,
    worn_g,
)


def test_an_outline_weighs_what_its_area_weighs(heron: Path) -> None:
    """Padding drawn as SVG has the lateral area of the cone that the cuff lines (pi (R + r) l, handbook), and its mass."""
    job = read_job(heron)
    wide, narrow, long = 31.0, 31.0 * 0.86, 120.0
    cone = math.pi * (wide + narrow) * math.hypot(long, wide - narrow) * 242.0 / 360.0
    bare = replace(job, paddings=())
    lined, unlined = (worn_g(0.0, (), built(one, 1.0, ()).cuts) for one in (job, bare))

    assert job.paddings[0].area_mm2 == pytest.approx(cone, rel=1e-4)
    assert lined - unlined == pytest.approx(cone * 3.0 / 1000.0 * 0.15, rel=1e-4)


def test_worn_mass_counts_metal_foam_and_straps(heron: Path) -> None:
    """More than what is printed, and over the limit it holds."""
    job = read_job(heron)
    device = built(job, 1.065, ())
    worn = worn_g(150.0, device.hardware, device.cuts)

    assert 160.0 < worn < 250.0
    assert mass_findings(job, worn)[0].verdict is Verdict.GO
    assert mass_findings(job, 260.0)[0].verdict is Verdict.HOLD


def test_the_worn_mass_rests_on_the_density_where_its_range_decides(heron: Path) -> None:
    """Of 245 g at 240 to 255 the 250 g that are allowed lie between; of 200 to 220 they do not."""
    job = read_job(heron)

    assert job.use.mass_limit_g == 250.0
    assert mass_findings(job, 245.0, [240.0, 255.0])[0].evidence == "usual"
    assert mass_findings(job, 210.0, [200.0, 220.0])[0].evidence == "measured"
