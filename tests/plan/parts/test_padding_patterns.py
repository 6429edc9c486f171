"""Patterns are made at the job's size and side."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from planner.errors import JobError
from planner.job import read_job
from planner.plan import padding_patterns
from planner.plan.parts.padding_patterns import _at_size
from tests.shapes import ROOT

JOB = read_job(ROOT / "sample_parts" / "heron" / "job.toml")
CUFF = replace(JOB, parts=(JOB.part("cuff"),))
TODAY = date(2026, 11, 30)


def test_at_drawn_size_and_thin_it_is_the_outline_drawn_by_hand() -> None:
    """The sample's SVG was computed as a cone's sector, the pattern is found on the mesh: 0.2 mm apart at most (padding of 0.01 mm)."""
    (padding,) = JOB.paddings
    job = replace(CUFF, size=replace(JOB.size, percent=100.0), paddings=(replace(padding, thickness_mm=0.01),))
    (found,) = padding_patterns(job, TODAY).patterns
    assert found.flat is not None

    assert found.flat.size_mm == pytest.approx(np.max(padding.rings_mm[0], axis=0), abs=0.2)
    assert found.flat.method == "cone"


def test_the_other_side_is_its_mirror_image() -> None:
    """Size and area stay, marks change sides (a mirror keeps lengths)."""
    slanted = replace(CUFF, parts=(replace(CUFF.parts[0], skin_toward=(0.3, 0.0, -1.0)),))
    left, right = (
        padding_patterns(replace(slanted, size=replace(JOB.size, side=side)), TODAY).patterns[0].flat
        for side in ("left", "right")
    )
    assert left is not None
    assert right is not None

    wide = left.size_mm[0]
    assert right.area_mm2 == pytest.approx(left.area_mm2)
    there = np.array([(wide - x, y) for x, y in left.marks])
    apart = np.linalg.norm(there[:, None] - np.array(right.marks), axis=2)
    assert apart.min(axis=1).max() < 0.01


def test_a_direction_is_scaled_as_a_normal() -> None:
    """Stretched along x by two, a face that looked along (1, 0, 1) looks along (1, 0, 2) (a plane's equation)."""
    assert _at_size((1.0, 0.0, 1.0), (2.0, 1.0, 1.0)) == (0.5, 0.0, 1.0)
    assert _at_size(None, (1.0, 1.0, 1.0)) is None


def test_a_job_without_padding_is_told_so() -> None:
    """One sentence that names the table to add."""
    with pytest.raises(JobError, match=r"names no padding.*\[\[padding\]\]"):
        padding_patterns(replace(CUFF, paddings=()), TODAY)
