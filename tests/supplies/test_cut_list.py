"""The cut list: cord along its path, webbing round the person, padding by area."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.job import read_job
from planner.supplies import (
    built,
)


def test_cuts_scale_where_they_should(heron: Path) -> None:
    """Cord grows with s, padding with s2, webbing goes round the person and stays."""
    job = read_job(heron)
    small, large = ({cut.name: cut for cut in built(job, s, ()).cuts} for s in (1.0, 2.0))

    assert large["pull cord"].length_mm == pytest.approx(2 * 210 + 120)
    assert large["return elastic"].length_mm == pytest.approx(2 * 120 * 0.85)
    assert large["cuff strap"].length_mm == small["cuff strap"].length_mm == pytest.approx(190 * 1.35)
    assert large["padding of cuff"].area_mm2 == pytest.approx(4 * (job.paddings[0].area_mm2 or 0.0), rel=1e-9)


def test_padding_follows_its_own_part(heron: Path) -> None:
    """Padding on a part that is never scaled keeps its area."""
    job = read_job(heron)
    fixed = replace(job, parts=tuple(replace(part, scale_percent=100.0) for part in job.parts))
    area = {cut.name: cut.area_mm2 for cut in built(fixed, 1.5, ()).cuts}

    assert area["padding of cuff"] == pytest.approx(job.paddings[0].area_mm2)
