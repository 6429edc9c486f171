"""The cut list: cord along its path, webbing round the person, padding by area."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.finding import Finding, Verdict, Work
from planner.job import read_job
from planner.supplies import (
    built,
)


def test_cuts_scale_where_they_should(heron: Path) -> None:
    """Cord grows with s, padding with s2, webbing goes round the person and stays."""
    job = read_job(heron)
    small, large = ({cut.name: cut for cut in built(job, s, ()).cuts} for s in (1.0, 2.0))

    assert large["pull cord"].length_mm == pytest.approx(2 * 210 + 120)
    assert large["return elastic"].length_mm == pytest.approx(2 * 90 * 0.85 + 120)
    assert large["cuff strap"].length_mm == small["cuff strap"].length_mm == pytest.approx(190 * 1.35)
    assert large["padding of cuff"].area_mm2 == pytest.approx(4 * (job.paddings[0].area_mm2 or 0.0), rel=1e-9)


def test_an_elastic_can_be_tied(heron: Path) -> None:
    """For a path of 90 · 1.065 = 96 mm, 81 mm stay between the knots, and both knots take 60 mm more each."""
    cut = next(cut for cut in built(read_job(heron), 1.065, ()).cuts if cut.name == "return elastic")

    assert cut.length_mm == pytest.approx(81.5 + 120.0, abs=0.1)
    assert "= 81 mm between its knots" in cut.why


def test_webbing_is_the_widest_that_goes_through(heron: Path) -> None:
    """A slot of 16.4 mm takes 15 mm webbing and neither 25 nor 20: the cut list names what the check found."""
    job = read_job(heron)
    asks = Finding(
        rule="slot.tight",
        part="cuff",
        feature="cuff strap",
        verdict=Verdict.GO_WITH_WORK,
        measured=16.4,
        limit=26.0,
        unit="mm",
        why="the slot is short",
        work=Work(kind="webbing", hardware="cuff strap", takes="15 mm webbing", takes_mm=15.0),
    )
    cut = next(cut for cut in built(job, 0.63, (asks,)).cuts if cut.name == "cuff strap")

    assert cut.width_mm == 15.0


def test_padding_follows_its_own_part(heron: Path) -> None:
    """Padding on a part that is never scaled keeps its area."""
    job = read_job(heron)
    fixed = replace(job, parts=tuple(replace(part, scale_percent=100.0) for part in job.parts))
    area = {cut.name: cut.area_mm2 for cut in built(fixed, 1.5, ()).cuts}

    assert area["padding of cuff"] == pytest.approx(job.paddings[0].area_mm2)
