"""Slots: openings longer than wide that go through, between two flat walls that face each other across a void."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.around_axis import across, vec3
from planner.survey.bores.facets import Facets, facets_of
from planner.survey.rays import face_areas, first_hits
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
LIFT_MM = 1e-4
DEPTHS = (0.0, 0.25, -0.25, 0.5, -0.5)
"""Shares of the depth at which the length is tried: in a curved shell the middle may miss the ends."""


def slots_of(solid: Solid, facets: Facets | None = None) -> tuple[Slot, ...]:
    """Return the through slots of a solid, each once, in a fixed order; ``facets`` where they are known already.

    A slot is found where a flat wall faces another across a void (its width), where the void is closed at
    both ends along the wall (its length), and open at both ends the other way.
    """
    facets, areas = facets or facets_of(solid), face_areas(solid)
    normals, facet = facets.normals, facets.of_face
    found: list[Slot] = []
    for faces, width in _facing(solid, normals, areas, facet):
        slot = _at_wall(solid, normals, faces, width)
        if slot is not None and not any(_same(slot, other) for other in found):
            found.append(slot)
    return tuple(sorted(found, key=lambda slot: [round(v, 2) for v in slot.at_mm]))


def _facing(solid: Solid, normals: Floats, areas: Floats, facet: Ints) -> list[tuple[Ints, float]]:
    """Return the faces of every flat wall that faces another across a void, with the distance between them."""
    total = np.bincount(facet, weights=areas)
    order = np.argsort(facet, kind="stable")
    starts = np.searchsorted(facet[order], np.arange(len(total) + 1))
    walls = [w for w in np.argsort(-total, kind="stable")[:FACETS_MOST] if total[w] >= AREA_LEAST_MM2]
    members = [order[starts[w] : starts[w + 1]] for w in walls]
    probes = [faces[np.argsort(-areas[faces], kind="stable")[:PROBES]] for faces in members]
    if not probes:
        return []
    owner = np.repeat(np.arange(len(probes)), [len(faces) for faces in probes])
    face = np.concatenate(probes)
    hits = first_hits(solid, normals, solid.corners_mm[face].mean(axis=1) + LIFT_MM * normals[face], normals[face])
    opposed = np.einsum("ij,ij->i", normals[hits.face], normals[face[hits.ray]]) < OPPOSED
    good = opposed & (hits.distance_mm < WIDTH_MOST_MM)
    width = np.full(len(probes), np.inf)
    np.minimum.at(width, owner[hits.ray[good]], hits.distance_mm[good] + LIFT_MM)
    return [(members[k], float(width[k])) for k in np.flatnonzero(np.isfinite(width))]


def _at_wall(solid: Solid, normals: Floats, faces: Ints, width: float) -> Slot | None:
    """Return the slot of a given width that a flat wall belongs to, or None."""
    normal = normals[faces].sum(axis=0)
    normal /= np.linalg.norm(normal)
    frame = _along(solid, faces, normal)
    if frame is None:
        return None
    (one, one_mm), (other, other_mm), middle = frame
    centre = middle + width / 2 * normal
    for length_axis, wall_mm, deep_axis, deep_mm in ((one, one_mm, other, other_mm), (other, other_mm, one, one_mm)):
        probes = [centre + share * deep_mm * deep_axis for share in DEPTHS]
        reach, opened = _reach(solid, normals, probes, length_axis), _reach(solid, normals, probes, deep_axis)
        for probe, ends, mouths in zip(probes, reach, opened, strict=True):
            length = float(ends.sum())
            closed = np.isfinite(length) and abs(float(ends[0] - ends[1])) < 0.8 * length
            closed = closed and wall_mm > 0.85 * (length - width)  # a facet of a bore is no wall of a slot
            if closed and float(mouths.min()) > 1.5 * deep_mm + 0.5 and length >= ASPECT_LEAST * width:
                return Slot(
                    width_mm=width,
                    length_mm=length,
                    at_mm=vec3(probe + (ends[1] - ends[0]) / 2 * length_axis),
                    length_axis=vec3(length_axis),
                    deep_axis=vec3(deep_axis),
                    depth_mm=deep_mm,
                )
    return None


def _along(
    solid: Solid, faces: Ints, normal: Floats
) -> tuple[tuple[Floats, float], tuple[Floats, float], Floats] | None:
    """Return both axes of a flat wall with the wall's extents, longer first, and its middle."""
    frame = across(normal)
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


def _reach(solid: Solid, normals: Floats, probes: list[Floats], axis: Floats) -> Floats:
    """Return how far the void reaches backward and forward from each probe, (p, 2); infinite where nothing ends it."""
    reach = np.full(2 * len(probes), np.inf)
    origins = np.repeat(np.array(probes), 2, axis=0)
    hits = first_hits(solid, normals, origins, np.tile(np.array([-axis, axis]), (len(probes), 1)))
    reach[hits.ray] = hits.distance_mm
    return reach.reshape(-1, 2)


def _same(one: Slot, other: Slot) -> bool:
    """Return whether two findings are one slot, seen from both of its walls."""
    apart = float(np.linalg.norm(np.subtract(one.at_mm, other.at_mm)))
    return (
        apart < max(one.width_mm, 0.25 * one.length_mm) and abs(one.length_mm - other.length_mm) < 0.2 * one.length_mm
    )
