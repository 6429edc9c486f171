"""Slots: openings longer than wide that go through, between two flat walls that face each other across a void."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mesh import Solid
from planner.survey.facets import facets_of
from planner.survey.rays import face_areas, face_normals, first_hits
from planner.survey.survey import Slot

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

FACETS_MOST = 600
"""Only the largest flat facets are tried as walls of a slot."""
AREA_LEAST_MM2 = 1.5
WIDTH_MOST_MM = 60.0
OPPOSED = -0.9995
ASPECT_LEAST = 1.3
"""An opening that is hardly longer than wide is no slot."""
PROBES = 5
DEPTHS = (0.0, 0.25, -0.25, 0.5, -0.5)
"""Shares of the depth at which the length is tried: in a curved shell the middle may miss the ends."""


def slots_of(solid: Solid) -> tuple[Slot, ...]:
    """Return the through slots of a solid, each once, in a fixed order.

    A slot is found where a flat wall faces another across a void (its width), where the void is closed at
    both ends along the wall (its length), and open at both ends the other way.
    """
    normals, areas = face_normals(solid), face_areas(solid)
    facet = facets_of(solid).of_face
    total = np.bincount(facet, weights=areas)
    found: list[Slot] = []
    for index in np.argsort(-total, kind="stable")[:FACETS_MOST]:
        if total[index] < AREA_LEAST_MM2:
            break
        slot = _at_wall(solid, normals, areas, np.flatnonzero(facet == index))
        if slot is not None and not any(_same(slot, other) for other in found):
            found.append(slot)
    return tuple(sorted(found, key=lambda slot: [round(v, 2) for v in slot.at_mm]))


def _at_wall(solid: Solid, normals: Floats, areas: Floats, faces: Ints) -> Slot | None:
    """Return the slot that a flat wall belongs to, or None."""
    normal = normals[faces[int(np.argmax(areas[faces]))]]
    probes = faces[np.argsort(-areas[faces], kind="stable")[:PROBES]]
    starts = solid.corners_mm[probes].mean(axis=1) + 1e-4 * normal
    hits = first_hits(solid, normals, starts, np.tile(normal, (len(starts), 1)))
    facing = (normals[hits.face] @ normal < OPPOSED) & (hits.distance_mm < WIDTH_MOST_MM)
    if not facing.any():
        return None
    width = float(hits.distance_mm[facing].min()) + 1e-4
    frame = _along(solid, faces, normal)
    if frame is None:
        return None
    (one, one_mm), (other, other_mm), middle = frame
    centre = middle + width / 2 * normal
    for length_axis, wall_mm, deep_axis, deep_mm in ((one, one_mm, other, other_mm), (other, other_mm, one, one_mm)):
        for share in DEPTHS:
            probe = centre + share * deep_mm * deep_axis
            reach = _reach(solid, normals, probe, length_axis)
            opened = _reach(solid, normals, probe, deep_axis)
            length = reach[0] + reach[1]
            closed = np.isfinite(length) and abs(reach[0] - reach[1]) < 0.8 * length
            closed = closed and wall_mm > 0.85 * (length - width)  # a facet of a bore is no wall of a slot
            if closed and min(opened) > 1.5 * deep_mm + 0.5 and length >= ASPECT_LEAST * width:
                shift = (reach[1] - reach[0]) / 2 * length_axis
                return Slot(width_mm=width, length_mm=length, at_mm=_vec(probe + shift))
    return None


def _along(
    solid: Solid, faces: Ints, normal: Floats
) -> tuple[tuple[Floats, float], tuple[Floats, float], Floats] | None:
    """Return both axes of a flat wall with the wall's extents, longer first, and its middle."""
    x = np.cross(normal, np.eye(3)[int(np.argmin(np.abs(normal)))])
    x /= np.linalg.norm(x)
    frame = np.array([x, np.cross(normal, x)])
    corners = solid.corners_mm[faces].reshape(-1, 3)
    box = shapely.minimum_rotated_rectangle(shapely.multipoints(corners @ frame.T))
    if not isinstance(box, shapely.Polygon):
        return None
    ring = np.asarray(box.exterior.coords)
    sides = np.diff(ring[:3], axis=0)
    extents = np.linalg.norm(sides, axis=1)
    if extents.min() < 1e-6:
        return None
    axes = (sides / extents[:, None]) @ frame
    depth = float(corners[0] @ normal)
    middle = ring[:4].mean(axis=0) @ frame + depth * normal
    first, second = (axes[0], float(extents[0])), (axes[1], float(extents[1]))
    return (first, second, middle) if extents[0] >= extents[1] else (second, first, middle)


def _reach(solid: Solid, normals: Floats, centre: Floats, axis: Floats) -> tuple[float, float]:
    """Return how far the void reaches backward and forward along an axis; infinite where nothing ends it."""
    reach = [float("inf"), float("inf")]
    hits = first_hits(solid, normals, np.array([centre, centre]), np.array([-axis, axis]))
    for ray, distance in zip(hits.ray, hits.distance_mm, strict=True):
        reach[int(ray)] = float(distance)
    return reach[0], reach[1]


def _same(one: Slot, other: Slot) -> bool:
    """Return whether two findings are one slot, seen from both of its walls."""
    apart = float(np.linalg.norm(np.subtract(one.at_mm, other.at_mm)))
    return (
        apart < max(one.width_mm, 0.25 * one.length_mm) and abs(one.length_mm - other.length_mm) < 0.2 * one.length_mm
    )


def _vec(values: Floats) -> Vec3:
    """Return three plain floats."""
    return float(values[0]), float(values[1]), float(values[2])
