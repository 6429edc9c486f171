"""Walls measured on a plane section by trimesh and shapely, without a word of the survey's."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import trimesh
from shapely.geometry import LineString, Point, Polygon

from planner.finding import Vec3

TURNS_N, REACH_MM, NEAR_MM = 720, 50.0, 0.05


def section(file: Path, to_mm: float, at_mm: Vec3, normal: Vec3) -> Polygon:
    """Return the piece of the section through a place that holds it, moved so that the place is the origin."""
    mesh = trimesh.load_mesh(file)
    mesh.vertices = np.asarray(mesh.vertices) * to_mm
    cut = mesh.section(plane_origin=at_mm, plane_normal=normal)
    assert cut is not None
    flat, _ = cut.to_2D(to_2D=trimesh.geometry.plane_transform(at_mm, normal))  # type: ignore[no-untyped-call]
    return next(piece for piece in flat.polygons_full if piece.contains(Point(0, 0)))


def chord_mm(piece: Polygon) -> float:
    """Return the shortest straight way through the origin from outline to outline."""
    found = []
    for turn in np.arange(TURNS_N) * np.pi / TURNS_N:
        end = REACH_MM * np.array([np.cos(turn), np.sin(turn)])
        inside = piece.intersection(LineString([-end, end]))
        found += [one.length for one in getattr(inside, "geoms", [inside]) if one.distance(Point(0, 0)) < 1e-9]
    return float(min(found))


def thin_mm(piece: Polygon, limit_mm: float) -> float:
    """Return how far the matter about the origin reaches in which no disc of the limit's diameter fits.

    It is what opening a section by that disc takes away (Serra 1982).
    """
    kept = piece.buffer(-limit_mm / 2 + 1e-6).buffer(limit_mm / 2)
    lost = piece.difference(kept)
    near = [one for one in getattr(lost, "geoms", [lost]) if one.distance(Point(0, 0)) < NEAR_MM]
    boxes = [one.minimum_rotated_rectangle.exterior.coords for one in near if one.area > 1e-6]
    return max((float(np.linalg.norm(np.diff(box, axis=0), axis=1).max()) for box in boxes), default=0.0)


def is_neck(piece: Polygon, wide_mm: float) -> bool:
    """Return whether a section falls into more pieces when its outline is moved in by half a width."""
    eroded = piece.buffer(-wide_mm / 2)
    return len(getattr(eroded, "geoms", [eroded])) > 1
