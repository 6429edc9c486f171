"""Openings of a part as they lie once it stands on the bed at size: what should stay free of support."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.layers import Opening
from planner.mesh import Solid, posed_points
from planner.survey import Bore, Survey, across, face_normals, first_hits

Floats = NDArray[np.float64]

RAYS_N, WALLED_SHARE = 12, 0.9
STEP_SHARE = 0.1
"""A bore's wall is looked for at steps of this share of its diameter."""


def openings_of(
    survey: Survey, solid: Solid, sized: Solid, down: Vec3, factors: Vec3, *, mirrored: bool
) -> tuple[Opening, ...]:
    """Return the bores, channels and slots of a part in its pose.

    ``solid`` is the part as drawn and surveyed, ``sized`` it at size (``factors`` along x, y and z) and mirrored
    where asked, ``down`` its own direction that faces the bed. Under an uneven scale radii follow the mean factor.
    """
    drawn = [(f"bore {bore.id}", _walled(bore, solid), bore.drawn_diameter_mm / 2) for bore in survey.bores]
    for number, channel in enumerate(survey.channels, 1):
        line = np.asarray(channel.line_mm)
        drawn.append((f"channel {number}", np.stack([line[:-1], line[1:]], axis=1), channel.diameter_mm / 2))
    for number, slot in enumerate(survey.slots, 1):
        half = slot.width_mm / 2
        along = np.linspace(-1, 1, 3 + int(2 * slot.length_mm / half)) * max(slot.length_mm / 2 - half, 0.0)
        deep = np.array([-0.5, 0.5]) * slot.depth_mm
        rods = along[:, None, None] * np.asarray(slot.length_axis) + deep[None, :, None] * np.asarray(slot.deep_axis)
        drawn.append((f"slot {number}", np.asarray(slot.at_mm) + rods, half))
    turn = np.asarray(factors) * np.array([-1.0 if mirrored else 1.0, 1.0, 1.0])
    return tuple(
        Opening(
            name=name,
            rods_mm=posed_points(rods.reshape(-1, 3) * turn, sized, down).reshape(-1, 2, 3),
            radius_mm=radius * float(np.mean(factors)),
        )
        for name, rods, radius in drawn
        if len(rods)
    )


def _walled(bore: Bore, solid: Solid) -> Floats:
    """Return the stretches (n, 2, 3) of a bore's axis that its wall surrounds: between two lugs there is none."""
    axis = np.asarray(bore.axis)
    steps = np.linspace(-0.5, 0.5, 3 + int(bore.depth_mm / (STEP_SHARE * bore.drawn_diameter_mm)))
    line = np.asarray(bore.centre_mm) + steps[:, None] * bore.depth_mm * axis
    x, y = across(axis)
    turns = np.arange(RAYS_N) * 2 * np.pi / RAYS_N
    fan = np.cos(turns)[:, None] * x + np.sin(turns)[:, None] * y
    hits = first_hits(solid, face_normals(solid), np.repeat(line, RAYS_N, axis=0), np.tile(fan, (len(line), 1)))
    near = hits.ray[hits.distance_mm < 0.6 * bore.drawn_diameter_mm]
    walled = np.bincount(near // RAYS_N, minlength=len(line)) >= WALLED_SHARE * RAYS_N
    edges = np.flatnonzero(np.diff(np.concatenate([[False], walled, [False]]).astype(np.int8)))
    return np.array([[line[start], line[stop - 1]] for start, stop in edges.reshape(-1, 2)]).reshape(-1, 2, 3)
