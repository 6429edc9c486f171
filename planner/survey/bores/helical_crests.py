"""Threads with sharp crests: no face of theirs lies on a cylinder, but the edge of the crest winds round one."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.around_axis import TURN_BINS, across
from planner.survey.bores.cylinder import Cylinder, edges_near_mm
from planner.survey.bores.facets import BEND_RAD, Facets, members, pieces
from planner.survey.bores.fitted_circles import ROUNDED, Round, fitted

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

TURNS_LEAST, FACETS_LEAST = 2.5, 12
"""So often an edge goes round its axis, in so many facets a turn: one rim, however notched, goes round once."""
END_COS, CREST_SHARE = 0.95, 0.5
"""A joined line of sharp edges holds the outlines of both mouths too. Those in flat ends, square to the axis, are
left out; of the rest so much is the crest."""
CLIMB_MOST = 0.3
"""Sine of the steepest climb of a thread; the coarsest in use climb by about 0.1."""
EVEN_LEAST = 0.98
"""Length of the mean of all points' phases, as unit vectors, about an even helix."""


def helical_crests(solid: Solid, facets: Facets) -> list[tuple[Cylinder, float]]:
    """Return the cylinder that leaves every thread's sharp crest free, and the step of each."""
    sharp = np.flatnonzero(~facets.concave & (facets.angle_rad > BEND_RAD))
    least_n = TURNS_LEAST * FACETS_LEAST
    if len(sharp) < least_n:
        return []
    label = pieces(facets.edges[sharp], len(solid.vertices_mm))[facets.edges[sharp, 0]]
    lines = [sharp[line] for line in members(label) if len(line) >= least_n]
    found = [_crest(solid, facets, line) for line in lines]
    return [crest for crest in found if crest is not None]


def _crest(solid: Solid, facets: Facets, line: Ints) -> tuple[Cylinder, float] | None:
    """Return the cylinder that a joined line of sharp edges winds round, with its step; None where it does not."""
    ends = solid.vertices_mm[facets.edges[line]]
    way = ends[:, 1] - ends[:, 0]
    axis = np.linalg.eigh(way.T @ way)[1][:, 0]  # a helix runs across its axis, and along it hardly
    flank = (np.abs(facets.normals[facets.pairs[line]] @ axis) < END_COS).all(axis=1)
    line, ends, way = line[flank], ends[flank], way[flank]
    points = np.unique(ends.reshape(-1, 3), axis=0)
    found = fitted(points, axis, ROUNDED, hull=False)
    if found is None:
        return None
    flat = (ends - found.centre) @ across(found.axis).T
    length = np.linalg.norm(way, axis=1)
    on = (np.abs(np.linalg.norm(flat, axis=2) - found.radius_mm) < found.slack_mm).all(axis=1)
    on &= np.abs(way @ found.axis) < CLIMB_MOST * length
    looks = facets.normals[facets.pairs[line]].sum(axis=1) @ across(found.axis).T
    on &= np.einsum("ij,ij->i", looks, flat.mean(axis=1)) < 0.0  # toward the axis: else it is a screw's crest
    if length[on].sum() < CREST_SHARE * length.sum():
        return None
    return _wound(solid, facets, line[on], found)


def _wound(solid: Solid, facets: Facets, line: Ints, found: Round) -> tuple[Cylinder, float] | None:
    """Return the cylinder that some edges on a circle wind round, with their step; None where they are no helix."""
    frame = across(found.axis)
    ends = solid.vertices_mm[facets.edges[line]]
    flat, along = (ends - found.centre) @ frame.T, ends @ found.axis
    angle = np.arctan2(flat[..., 1], flat[..., 0])
    low, high = float(along.min()), float(along.max())
    swept = np.abs((np.diff(angle, axis=1) + np.pi) % (2.0 * np.pi) - np.pi).ravel()
    turns = float(swept.sum()) / (2.0 * np.pi)
    if turns < TURNS_LEAST or len(line) / turns < FACETS_LEAST or high <= low:
        return None
    pitch = (high - low) / turns
    phase = 2.0 * np.pi * along / pitch
    even = max(abs(np.exp(1j * (phase + hand * angle)).mean()) for hand in (-1.0, 1.0))
    if even < EVEN_LEAST:
        return None
    free = float(edges_near_mm(flat[:, 0], flat[:, 1]).min())
    cylinder = Cylinder(
        faces=np.unique(facets.pairs[line]),
        axis=found.axis,
        centre=found.centre + ((low + high) / 2 - float(found.centre @ found.axis)) * found.axis,
        radius_mm=found.radius_mm,
        slack_mm=found.slack_mm,
        flat_mm=free,
        facets_n=round(len(line) / turns),
        low=low,
        high=high,
        turn=np.ones(TURN_BINS, dtype=bool),
        whole=(low, high),
    )
    return cylinder, pitch
