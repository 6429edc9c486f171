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
from tests.conftest import MakeJob
from tests.shapes import cuboid


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


def test_a_bearing_is_a_ring_and_no_rod(make_job: MakeJob) -> None:
    """Four of 8 x 22 x 7 weigh 12 g each (catalogues, from memory), not as rods of 22 mm: 12.0 within a tenth."""
    text = (
        '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n[[hardware]]\n'
        'name = "bearing"\nkind = "bearing"\ndiameter_mm = 8.0\nsize_mm = 22.0\nbore_mm = 22.2\nfit = "held"\n'
        'joins = ["a"]\ncount = 4\n'
    )
    device = built(make_job(text, a=cuboid(40, 40, 10)), 1.0, ())

    assert worn_g(0.0, device.hardware, device.cuts) / 4 == pytest.approx(12.0, rel=0.1)


def test_the_worn_mass_rests_on_the_density_where_its_range_decides(heron: Path) -> None:
    """Of 245 g at 240 to 255 the 250 g that are allowed lie between; of 200 to 220 they do not."""
    job = read_job(heron)

    assert job.use.mass_limit_g == 250.0
    assert mass_findings(job, 245.0, [240.0, 255.0])[0].evidence == "usual"
    assert mass_findings(job, 210.0, [200.0, 220.0])[0].evidence == "measured"
