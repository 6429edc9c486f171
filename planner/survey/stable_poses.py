"""Stable poses: the ways in which a part stands on the bed by itself."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import ConvexHull, QhullError

from planner.mesh import Solid, turning
from planner.survey.extents import bed_frame
from planner.survey.rays import face_areas, face_normals
from planner.survey.survey import Pose

Floats = NDArray[np.float64]

ALIKE_COS = float(np.cos(np.radians(3.0)))
"""Hull faces within 3 degrees count as one way to stand."""
POSES_MOST = 24
NECK_AT = np.linspace(0.15, 0.85, 13) + 1e-4
"""Shares of the height where layers are measured, a little off round ones, where faces lie."""
FLAT_MM = 0.05
"""Matter this near to the bed, and facing it, is contact."""
LEAN_COS = float(np.cos(np.radians(45.0)))
"""Downward faces leaning more than 45 degrees from vertical overhang."""


def poses_of(solid: Solid) -> tuple[Pose, ...]:
    """Return the stable poses of a solid, largest contact first; never empty.

    A pose is stable where the centre of mass lies above the hull's face on the bed.
    """
    normals, areas = face_normals(solid), face_areas(solid)
    downs = _directions(solid)
    poses = [_stood(solid, normals, areas, down, tip) for down, tip in downs]
    poses.sort(key=lambda pose: (-pose.contact_mm2, pose.height_mm, pose.down))
    return tuple(_with_neck(solid, pose) for pose in poses[:POSES_MOST])


def _directions(solid: Solid) -> list[tuple[Floats, float]]:
    """Return downward directions and tipping leans (degrees) of all stable hull faces, merged where alike."""
    try:
        hull = ConvexHull(solid.vertices_mm)
    except QhullError:  # a flat sheet: as drawn
        return [(np.array([0.0, 0.0, -1.0]), 0.0)]
    planes, face_of = np.unique(np.round(hull.equations, 6), axis=0, return_inverse=True)
    centre = _centre_of_mass(solid)
    corners = solid.vertices_mm[hull.simplices]
    simplex_area = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1)
    plane_area = np.bincount(face_of.ravel(), weights=simplex_area, minlength=len(planes))
    by_plane = np.argsort(face_of.ravel(), kind="stable")
    begins = np.searchsorted(face_of.ravel()[by_plane], np.arange(len(planes) + 1))
    found: list[tuple[Floats, float]] = []
    for index in np.argsort(-plane_area, kind="stable")[: 6 * POSES_MOST]:
        normal = planes[index, :3] / np.linalg.norm(planes[index, :3])
        if any(float(normal @ seen) > ALIKE_COS for seen, _ in found):
            continue
        face = hull.simplices[by_plane[begins[index] : begins[index + 1]]]
        tip = _tip_deg(hull.points[np.unique(face)], normal, centre)
        if tip > 0.0:
            found.append((normal, tip))
    return found or [(np.array([0.0, 0.0, -1.0]), 0.0)]


def _centre_of_mass(solid: Solid) -> Floats:
    """Return the centroid of the volume, or of the surface where there is no sound volume."""
    near = solid.corners_mm - solid.vertices_mm.mean(axis=0)
    weight = np.einsum("ij,ij->i", near[:, 0], np.cross(near[:, 1], near[:, 2]))
    if not solid.sound or abs(weight.sum()) < 1e-9:
        weight = face_areas(solid)
        return np.asarray(np.average(solid.corners_mm.mean(axis=1), axis=0, weights=weight))
    return np.asarray(
        solid.vertices_mm.mean(axis=0) + (near.sum(axis=1) / 4.0 * weight[:, None]).sum(axis=0) / weight.sum()
    )


def _tip_deg(face: Floats, normal: Floats, centre: Floats) -> float:
    """Return the lean at which a body on this face tips over; 0 or less where it does not stand."""
    frame = bed_frame((float(normal[0]), float(normal[1]), float(normal[2])))
    flat, point = face @ frame.T, frame @ centre
    middle = flat[:, :2].mean(axis=0)
    ring = flat[np.argsort(np.arctan2(flat[:, 1] - middle[1], flat[:, 0] - middle[0])), :2]
    edge = np.roll(ring, -1, axis=0) - ring
    length = np.linalg.norm(edge, axis=1)
    away = point[:2] - ring
    inside = (edge[:, 0] * away[:, 1] - edge[:, 1] * away[:, 0])[length > 1e-9] / length[length > 1e-9]
    height = max(float(point[2] - flat[:, 2].mean()), 1e-9)
    return float(np.degrees(np.arctan2(inside.min(), height)))


def _stood(solid: Solid, normals: Floats, areas: Floats, down: Floats, tip_deg: float) -> Pose:
    """Measure one pose, but for its neck."""
    unit = down / np.linalg.norm(down)
    depth = solid.corners_mm @ unit
    lowest, highest = float(depth.max()), float(depth.min())
    facing = normals @ unit
    on_bed = (depth.min(axis=1) > lowest - FLAT_MM) & (facing > 0.99)
    overhang = (facing > LEAN_COS) & ~on_bed
    return Pose(
        down=(float(unit[0]), float(unit[1]), float(unit[2])),
        height_mm=lowest - highest,
        contact_mm2=float(areas[on_bed].sum()),
        tip_deg=tip_deg,
        overhang_mm2=float(areas[overhang].sum()),
        neck_mm2=0.0,
    )


def _with_neck(solid: Solid, pose: Pose) -> Pose:
    """Return a pose with the least area of a layer, the ends left out: a round part tapers there without being weak."""
    body = solid.manifold
    if body is None:
        return pose
    stood = body.transform(np.column_stack([turning(pose.down), np.zeros(3)]))  # the engine turns its own copy
    _, _, low, _, _, high = stood.bounding_box()
    least = min(float(stood.slice(float(low + (high - low) * share)).area()) for share in NECK_AT)
    return replace(pose, neck_mm2=least)
