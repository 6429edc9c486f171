"""Which faces of a part lie on support and which bridge, from the layers' regions."""

from __future__ import annotations

from collections.abc import Sequence
from enum import IntEnum

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.cache import kept, key_of
from planner.job import Settings
from planner.layers.heights import layer_middles_mm
from planner.layers.lines.laid_lines import laid_layers
from planner.layers.lines.section import Section, shape_of
from planner.mesh import Solid

Floats = NDArray[np.float64]

HELD_VERSION = 3
"""Raised whenever the answer changes, so that kept ones are not trusted."""
DOWNWARD = -0.05
"""A face whose unit normal points less than this down is a wall or looks up: nothing holds it."""
PITCH_MM = 0.8
"""Faces are looked at in points about this far apart."""
POINTS_MOST = 400
SLACK_MM = 0.1
"""Points this near to a region count to it: a face's rim lies on the region's."""
PART_SHARE, WHOLE_SHARE = 0.05, 0.33
"""From these shares of its points on, a face is partly held, and held: a slope is held in strips, up to its lean."""


class FaceKind(IntEnum):
    """What is under a face while it is printed."""

    FREE = 0
    PARTLY = 1
    HELD = 2
    BRIDGE = 3


def held_faces(solid: Solid, settings: Settings) -> NDArray[np.uint8]:
    """Return a :class:`FaceKind` for every face (n,) of a solid at size, in its pose, standing on z = 0.

    Where the layers need no support worth laying, no face is held. Kept on disk under everything it depends on.
    """
    facts = (
        solid.vertices_mm.tobytes(),
        solid.faces.tobytes(),
        solid.faults,
        settings.layer_height_mm,
        settings.first_layer_height_mm,
        settings.self_supporting_deg,
    )
    return kept("held-faces", key_of(HELD_VERSION, *facts), NDArray[np.uint8], lambda: _kinds(solid, settings))


def _kinds(solid: Solid, settings: Settings) -> NDArray[np.uint8]:
    """Look at points of every face that looks down, in the layer that lies on it."""
    laid = laid_layers(solid, settings)
    kinds = np.zeros(len(solid.faces), dtype=np.uint8)
    faces, points = _points(solid)
    layers = np.searchsorted(layer_middles_mm(laid.tops_mm), points[:, 2])
    held, bridged = (np.zeros(len(points), dtype=bool) for _ in range(2))
    if laid.needs_support:
        _mark(held, [[region] for region in laid.supports.held_up], layers, points)
    _mark(bridged, [[bridge.region for bridge in layer] for layer in laid.supports.bridges], layers, points)
    all_n = np.maximum(np.bincount(faces, minlength=len(kinds)), 1)
    held_share = np.bincount(faces, held, minlength=len(kinds)) / all_n
    kinds[np.bincount(faces, bridged, minlength=len(kinds)) / all_n >= WHOLE_SHARE] = FaceKind.BRIDGE
    kinds[held_share >= PART_SHARE] = FaceKind.PARTLY
    kinds[held_share >= WHOLE_SHARE] = FaceKind.HELD
    return kinds


def _points(solid: Solid) -> tuple[NDArray[np.int64], Floats]:
    """Return points on all faces that look down: the face of each (m,), and where it lies (m, 3)."""
    corners = solid.vertices_mm[solid.faces]
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    twice = np.linalg.norm(across, axis=1)
    down = np.flatnonzero((twice > 1e-12) & (across[:, 2] < DOWNWARD * twice))
    found_faces, found = [np.empty(0, dtype=np.int64)], [np.empty((0, 3))]
    rows = np.ceil(np.sqrt(twice[down]) / PITCH_MM).clip(1, int(np.sqrt(POINTS_MOST)))
    for n in np.unique(rows).astype(int):
        faces = down[rows == n]
        u, v = (values.ravel() for values in np.meshgrid(*2 * [(np.arange(n) + 0.5) / n]))
        over = u + v > 1.0  # the other half of the parallelogram, folded back
        u, v = np.where(over, 1 - u, u), np.where(over, 1 - v, v)
        a, b, c = (corners[faces, k][:, None, :] for k in range(3))
        places = a + (b - a) * (u[:, None] * 0.98 + 0.0066) + (c - a) * (v[:, None] * 0.98 + 0.0066)
        found_faces.append(np.repeat(faces, len(u)))
        found.append(places.reshape(-1, 3))
    return np.concatenate(found_faces), np.concatenate(found)


def _mark(
    marks: NDArray[np.bool_], regions: Sequence[Sequence[Section]], layers: NDArray[np.int64], points: Floats
) -> None:
    """Mark the points that lie in a region of their layer."""
    order = np.argsort(layers, kind="stable")
    starts = np.searchsorted(layers[order], np.arange(len(regions) + 1))
    for index, parts in enumerate(regions):
        here = order[starts[index] : starts[index + 1]]
        for region in parts:
            if len(here) and not region.is_empty():
                marks[here] |= shapely.contains_xy(shape_of(region.offset(SLACK_MM)), points[here, :2])
