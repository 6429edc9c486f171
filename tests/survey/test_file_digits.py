"""Noise behind what a mesh file can hold decides no verdict."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.plan import prepare
from planner.rules import check
from planner.survey import survey
from planner.survey.file_digits import walls_as_filed
from tests.conftest import TODAY, MakeJob
from tests.shapes import Manifold, cylinder, solid_of

JOB = (
    '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[size]\npercent = 60.0\n'
    '[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\nignore_bores = true\npose = [0, 0, -1]\n'
)


def test_a_wall_drawn_as_wide_as_needed_is_wide_enough_in_a_file(make_job: MakeJob) -> None:
    """1.5 mm beside a bore at 60 % are two lines of 0.45 mm, though STL's single precision (IEEE 754) reads 1.4999999."""
    body = Manifold.cube((40.0, 30.0, 6.0)) - cylinder(5.0, 8.0, 64).translate((20.0, 4.0, -1.0))
    solid = solid_of(body.translate((33.3, 77.7, 0.0)))
    read = np.asarray(solid.vertices_mm, dtype=np.float32).astype(np.float64)
    (bore,) = survey(replace(solid, vertices_mm=read)).bores

    assert not np.array_equal(read, solid.vertices_mm)
    assert bore.edge_wall_mm == pytest.approx(1.5, abs=1e-12)
    assert check(prepare(make_job(JOB, a=solid), TODAY).bound, 60.0).verdict.passes


def test_the_thinnest_places_are_rounded_and_nothing_stays_nothing() -> None:
    """1.4999999999 mm is 1.5 mm; where no faces are opposed, no thinnest place comes out of it."""
    measured = survey(solid_of(Manifold.cube((40.0, 30.0, 6.0)))).walls
    assert measured.least is not None
    thin = replace(measured, least=replace(measured.least, thickness_mm=1.4999999999), least_clear=None)
    filed = walls_as_filed(thin)

    assert filed.least is not None
    assert filed.least.thickness_mm == 1.5
    assert filed.least_clear is None
