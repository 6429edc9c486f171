"""Skin and infill of a printed part as two zones of one mesh."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.beam.skin_and_core import core_stiffness_share
from planner.strength.elements.nodal_forces import surface_of
from planner.strength.elements.stiffness_matrix import POINTS
from planner.strength.elements.tetrahedra import Tetrahedra

Floats = NDArray[np.float64]
LEVEL_LEAST_MM = 0.1
"""Solid layers count as at least so thick, so that none does not stretch without end."""
STEP_LEAST_MM = 0.2
"""The surface is sampled no finer than so."""


def zone_share(cells: Tetrahedra, stuff: BeamStuff) -> Floats:
    """Return the stiffness at the four points of tetrahedra, (m, 4), as a share of the solid's: 1 in the skin.

    Point by point, so that a tetrahedron across the border of both zones belongs to both.
    """
    core = max(core_stiffness_share(stuff.infill_share), 1e-3)
    if core >= 1.0:
        return np.ones((len(cells.cells), 4))
    # Stretched along the layer normal, so that contours and solid layers are one thickness, as the beam pass does.
    normal = np.array(stuff.normal) / np.linalg.norm(stuff.normal)
    stretch = np.eye(3) + (stuff.side_mm / max(stuff.level_mm, LEVEL_LEAST_MM) - 1.0) * np.outer(normal, normal)
    sampled = sampled_mm(cells.nodes_mm[surface_of(cells)[:, :3]] @ stretch, max(stuff.side_mm / 2.0, STEP_LEAST_MM))
    points = (POINTS @ cells.corners_mm @ stretch).reshape(-1, 3)
    # What lies deeper than the skin is no nearer to tell: its distance is without end.
    depth = cKDTree(sampled).query(points, distance_upper_bound=1.001 * stuff.side_mm)[0]
    return np.asarray(np.where(depth <= stuff.side_mm, 1.0, core)).reshape(-1, 4)


def sampled_mm(sides_mm: Floats, step_mm: float) -> Floats:
    """Return points on triangles (m, 3, 3), no edge of which is left without one for longer than ``step_mm``."""
    edges_mm = np.linalg.norm(sides_mm - np.roll(sides_mm, 1, axis=1), axis=2).max(axis=1)
    steps_n = np.maximum(np.ceil(edges_mm / step_mm), 1.0).astype(int)
    found = []
    for n in np.unique(steps_n):
        a, b = np.meshgrid(np.arange(n + 1), np.arange(n + 1))
        grid = np.stack([a, b, n - a - b], axis=-1)[a + b <= n] / n
        found.append((grid @ sides_mm[steps_n == n]).reshape(-1, 3))
    return np.concatenate(found)
