"""Connected regions of samples below rising thicknesses."""

from __future__ import annotations

import numpy as np

from planner.survey.walls.face_regions import regions


def test_two_dips_are_two_regions_until_the_ridge_between_them() -> None:
    """Along a line the thickness dips to 0.5 and 0.7 with 1.5 between: two regions below 1, one below 2, each by its seed."""
    x = np.arange(0.0, 20.0, 0.5)
    thickness = np.minimum(0.5 + np.abs(x - 5.0) * 0.2, 0.7 + np.abs(x - 15.0) * 0.2)
    points = np.column_stack([x, np.zeros_like(x), np.zeros_like(x)])
    found = list(regions(points, thickness, np.array([1.0, 2.0]), 0.6))

    assert sorted((one.below_mm, float(x[one.seed])) for one in found) == [(1.0, 5.0), (1.0, 15.0), (2.0, 5.0)]
    for one in found:
        assert (thickness[one.rows] <= one.below_mm).all()
    assert sum(len(one.rows) for one in found if one.below_mm == 1.0) == int((thickness <= 1.0).sum())


def test_samples_apart_are_not_connected() -> None:
    """Two samples 5 mm apart, both thin, are two regions; no sample below a level gives none."""
    points, thickness = np.array([[0.0, 0, 0], [5.0, 0, 0]]), np.array([0.5, 0.5])

    assert len(list(regions(points, thickness, np.array([1.0]), 0.6))) == 2
    assert list(regions(points, thickness, np.array([0.4]), 0.6)) == []
