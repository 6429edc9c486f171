"""The inner side of an open shell's section, and how its curve goes on over the mouth."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.survey.fitted_ellipse import along_ellipse, ellipse_through

RAYS_N = 2880
"""Directions looked in from the middle, an eighth of a degree apart."""
CLOSED_LEAST_PERCENT = 60.0
"""An inner side that closes less of its round than this says little about the rest; common practice, no source."""
LEAST_RAYS_N = RAYS_N // 8
"""An inner side seen in fewer directions is none."""
TOUCHING = 1e-6
"""Share of the step between directions by which the ends of two lines that meet overlap."""
JUMP_RAYS = 4
"""So many directions in which nothing is seen are a mouth or a slot, not a seam between facets."""
ARC_STEPS = 41
LEAST_TURN, MOST_TURN = math.radians(2.0), math.radians(270.0)
"""A mouth that is left less turn than this is closed by a chord; one left more is no mouth to close."""

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class InnerRound:
    """The inner side of one section.

    Parameters
    ----------
    side_mm
        (n, 2) its points, from one lip of the mouth to the other.
    mouth_mm
        (m, 2) points of the curve that closes it, from the last point of the side to its first.
    open_percent
        Share of the whole round that is mouth or slot.
    """

    side_mm: Floats
    mouth_mm: Floats
    open_percent: float

    def outline(self, kind: str) -> Floats:
        """Return the points to measure: the whole round, or for a width of a wide open shell its own side alone."""
        if kind == "width" and self.open_percent > 100.0 - CLOSED_LEAST_PERCENT:
            return self.side_mm
        return np.vstack([self.side_mm, self.mouth_mm])


def inner_round(section: shapely.Geometry, hollow: shapely.Polygon) -> InnerRound | None:
    """Return the inner side of a section around its hollow; None where too little of it is seen from within.

    What is seen from the middle is the inner side, with the lips beside the mouth; the stretch of it that turns
    most is the side without its lips.
    """
    middle = np.asarray(shapely.maximum_inscribed_circle(hollow).coords[0])
    side, ellipse = _side(section, hollow, middle), None
    if side is not None:
        ellipse = ellipse_through(side[0])
        if ellipse is not None and hollow.contains(shapely.Point(ellipse.centre_mm)):  # lips stand edge-on from there
            side = _side(section, hollow, ellipse.centre_mm)
            ellipse = ellipse_through(side[0]) if side is not None else None
    if side is None:
        return None
    points, seen_at = side
    if ellipse is not None:
        on_it = ellipse.has(points)  # walls of slots and ribs are off it
        points, seen_at = points[on_it], seen_at[on_it]
    mouth = along_ellipse(ellipse, points[-1], points[0]) if ellipse is not None else _arc(points)
    steps = np.linalg.norm(np.diff(points, axis=0), axis=1)
    slots = float(steps[np.diff(seen_at) % RAYS_N > JUMP_RAYS].sum())
    gap = float(np.linalg.norm(np.diff(mouth, axis=0), axis=1).sum())
    return InnerRound(side_mm=points, mouth_mm=mouth, open_percent=100.0 * (gap + slots) / (float(steps.sum()) + gap))


def _side(section: shapely.Geometry, hollow: shapely.Polygon, middle: Floats) -> tuple[Floats, NDArray[np.intp]] | None:
    """Return the points of the inner side seen from a middle, and their directions; None for too few."""
    seen = _seen(section, hollow, middle)
    near = np.isfinite(seen)
    if np.count_nonzero(near) < LEAST_RAYS_N:
        return None
    angles = np.arange(RAYS_N) * (2 * math.pi / RAYS_N)
    order = np.roll(np.arange(RAYS_N), -_end_of_mouth(near))
    order = order[near[order]]
    points = middle + seen[order, None] * np.column_stack([np.cos(angles[order]), np.sin(angles[order])])
    first, last = _turning_most(points)
    kept = slice(first, last + 1)
    return (points[kept], order[kept]) if last - first >= LEAST_RAYS_N else None


def _seen(section: shapely.Geometry, hollow: shapely.Polygon, middle: Floats) -> Floats:
    """Return how far it is from the middle to the inner side in every direction; infinite where it is open."""
    ring = np.asarray(hollow.exterior.coords)
    start, way = ring[:-1] - middle, np.diff(ring, axis=0)
    halfway = shapely.points((ring[:-1] + ring[1:]) / 2)
    edges = [np.asarray(edge.coords) for edge in shapely.get_parts(section.boundary)]
    tree = shapely.STRtree(np.concatenate([shapely.linestrings(np.stack([e[:-1], e[1:]], axis=1)) for e in edges]))
    on_part, _ = tree.query(halfway, predicate="dwithin", distance=1e-9 * hollow.length)
    is_open = ~np.isin(np.arange(len(way)), on_part)
    first = np.arctan2(start[:, 1], start[:, 0])
    cross = start[:, 0] * way[:, 1] - start[:, 1] * way[:, 0]
    swept = np.arctan2(cross, np.einsum("ij,ij->i", start, start + way))
    step = 2 * math.pi / RAYS_N
    lowest = np.ceil(np.minimum(first, first + swept) / step - TOUCHING).astype(int)
    rays_n = np.maximum(np.floor(np.maximum(first, first + swept) / step + TOUCHING).astype(int) - lowest + 1, 0)
    line = np.repeat(np.arange(len(start)), rays_n)
    ray = lowest[line] + np.arange(len(line)) - np.repeat(np.cumsum(rays_n) - rays_n, rays_n)
    across = np.cos(ray * step) * way[line, 1] - np.sin(ray * step) * way[line, 0]
    with np.errstate(divide="ignore", invalid="ignore"):  # a line seen edge-on is met at the ends of its neighbours
        far = cross[line] / across
    met = np.isfinite(far) & (far > 0.0)
    order = np.lexsort((-far[met], ray[met] % RAYS_N))  # the nearest is written last
    found = np.full(RAYS_N, math.inf)
    found[(ray[met] % RAYS_N)[order]] = np.where(is_open[line[met]], math.inf, far[met])[order]
    return found


def _end_of_mouth(near: NDArray[np.bool_]) -> int:
    """Return the first direction after the widest run in which no inner side is seen."""
    seen_at = np.flatnonzero(near)
    gaps = np.diff(np.append(seen_at, seen_at[0] + RAYS_N))
    return int(seen_at[(int(np.argmax(gaps)) + 1) % len(seen_at)])


def _turning_most(points: Floats) -> tuple[int, int]:
    """Return first and last point of the stretch that turns most about the middle: lips turn the other way."""
    way = np.diff(points, axis=0)
    cross = way[:-1, 0] * way[1:, 1] - way[:-1, 1] * way[1:, 0]
    turns = np.arctan2(cross, np.einsum("ij,ij->i", way[:-1], way[1:]))
    whole = np.concatenate([[0.0], np.cumsum(turns)])
    lowest = np.minimum.accumulate(whole)
    last = int(np.argmax(whole - lowest))
    first = int(np.argmin(whole[: last + 1]))
    return first, last + 1


def _arc(side: Floats) -> Floats:
    """Return the arc of a circle from the last point to the first that makes up the full turn of a closed curve."""
    way = np.diff(side[np.linspace(0, len(side) - 1, ARC_STEPS).astype(int)], axis=0)
    cross = way[:-1, 0] * way[1:, 1] - way[:-1, 1] * way[1:, 0]
    turns = np.arctan2(cross, np.einsum("ij,ij->i", way[:-1], way[1:]))
    left = 2 * math.pi - float(turns.sum() + (turns[0] + turns[-1]) / 2)  # a chord lies half a turn from its end
    if not LEAST_TURN < left < MOST_TURN:
        return np.vstack([side[-1], side[0]])
    chord = side[0] - side[-1]
    radius = float(np.linalg.norm(chord)) / 2 / math.sin(left / 2)
    normal = np.array([-chord[1], chord[0]]) / np.linalg.norm(chord)
    centre = (side[0] + side[-1]) / 2 + normal * radius * math.cos(left / 2)
    start = math.atan2(*(side[-1] - centre)[::-1])
    angles = start + np.linspace(0.0, left, 90)
    return np.asarray(centre + radius * np.column_stack([np.cos(angles), np.sin(angles)]))
