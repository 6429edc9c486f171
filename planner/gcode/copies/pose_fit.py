"""Where a piece lies exactly, and how much it is stretched: the edges of its beads against the part's outlines."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import polar

from planner.gcode.copies.fine_raster import FineRaster
from planner.gcode.copies.outline_points import outline_at
from planner.gcode.copies.piece import Piece, Sections, part_heights_mm
from planner.gcode.matching.match import Pose

Floats = NDArray[np.float64]

LAYERS_N = 6
"""So many layers are looked at, spread over the height."""
SEEN_MM, PROFILE_MM = 1.5, 0.05
"""How far an edge may lie from the outline, and the step in which it is looked for."""
STEEP_MM = 0.05
"""Where the outline moves by more than this within a layer, its edge says little about the size."""
TILTED = np.array([[2.0, -1.0], [1.0, 2.0]]) / np.sqrt(5.0)
"""Edges are looked for on a raster turned against the part: along its faces the errors of the cells then cancel."""
SLANTED = 0.1
"""So much it counts beside an upright one."""
UNSTRETCHED = 2.0
"""What no edge tells (a size along x where one end alone is upright) is taken as planned: as strong as two edges 1 mm
from the middle."""
EDGES_LEAST = 24
ROUNDS_N = 4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fit:
    """A piece's exact place, and its size over the part's along x and y of the part's own frame."""

    pose: Pose
    x_share: float
    y_share: float
    edges_n: int


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Edges:
    """Points on outlines (n, 2), their normals outward, where the beads end along these, and how much each counts."""

    points_mm: Floats
    normals: Floats
    ends_mm: Floats
    weights: Floats


def fitted(piece: Piece, sections: Sections, pose: Pose) -> Fit:
    """Move and turn a pose until beads and outlines meet, then say what stretch is left (least squares)."""
    near, count = pose, 0
    layers = _layers(piece, sections, near)
    for number in range(ROUNDS_N):
        edges = _edges(piece, sections, near, layers)
        count = len(edges.ends_mm)
        if count < EDGES_LEAST:
            return Fit(pose=near, x_share=1.0, y_share=1.0, edges_n=count)
        seen = edges.points_mm + edges.ends_mm[:, None] * edges.normals
        change, shift = _solved(seen, edges, rigid=number < 2)
        if number < 2:
            change = polar(change)[0]
        near = replace(near, matrix=change @ near.matrix, offset_mm=change @ near.offset_mm + shift)
    stretch = polar(np.linalg.inv(near.matrix))[1]  # what comes before the rotation
    return Fit(pose=near, x_share=float(stretch[0, 0]), y_share=float(stretch[1, 1]), edges_n=count)


def _size(pose: Pose) -> float:
    """Return the size of a piece over its part's, from above."""
    return 1.0 / float(np.sqrt(abs(np.linalg.det(pose.matrix))))


def _layers(piece: Piece, sections: Sections, pose: Pose) -> list[int]:
    """Return layers spread over the height where the part has a section; not the first, which is pressed flat."""
    usable = [
        k
        for k in range(1 if len(piece.tops_mm) > 1 else 0, len(piece.tops_mm))
        if not sections.at(part_heights_mm(piece, pose, k)[1]).is_empty()
    ]
    return [usable[int(k)] for k in np.unique(np.linspace(0, len(usable) - 1, LAYERS_N).round())] if usable else []


def _edges(piece: Piece, sections: Sections, pose: Pose, layers: list[int]) -> _Edges:
    """Return where the beads end beside the outlines of some layers."""
    outlines, ends = [], []
    steps = np.arange(-SEEN_MM, SEEN_MM + PROFILE_MM / 2, PROFILE_MM)
    for k in layers:
        outline = outline_at(sections, part_heights_mm(piece, pose, k))
        strokes = piece.layer(k)
        placed = strokes.seen_from(TILTED @ pose.matrix, TILTED @ pose.offset_mm)
        widths = piece.widths_mm(strokes, piece.height_mm(k)) / _size(pose)
        where = (outline.points_mm[:, None, :] + steps[None, :, None] * outline.normals[:, None, :]) @ TILTED.T
        across, along = (
            where[..., 0],
            where[..., 1],
        )  # over two axes at once numpy takes 27 times as long
        low, high = np.array([across.min(), along.min()]), np.array([across.max(), along.max()])
        raster = FineRaster.over(low, high, 0.5)
        ends.append(_ends(raster.at(raster.beads(placed.start_mm, placed.end_mm, widths), where), steps))
        outlines.append(outline)
    if not outlines:
        return _Edges(points_mm=np.empty((0, 2)), normals=np.empty((0, 2)), ends_mm=np.empty(0), weights=np.empty(0))
    every = np.concatenate(ends)
    seen = np.isfinite(every)
    upright = np.concatenate([outline.moves_mm for outline in outlines]) < STEEP_MM
    return _Edges(
        points_mm=np.concatenate([outline.points_mm for outline in outlines])[seen],
        normals=np.concatenate([outline.normals for outline in outlines])[seen],
        ends_mm=every[seen],
        weights=np.where(upright, 1.0, SLANTED)[seen],
    )


def _ends(covered: NDArray[np.bool_], steps: Floats) -> Floats:
    """Return where each row stops being covered, nearest to the outline; NaN where it never does."""
    stops = covered[:, :-1] & ~covered[:, 1:]
    away = np.where(stops, np.abs(steps[:-1] + PROFILE_MM / 2), np.inf)
    best = np.argmin(away, axis=1)
    found: Floats = np.where(np.isfinite(away.min(axis=1)), steps[best] + PROFILE_MM / 2, np.nan)
    return found


def _solved(seen: Floats, edges: _Edges, *, rigid: bool) -> tuple[Floats, Floats]:
    """Return the change (2, 2) and shift (2,) that bring the edges seen onto the outlines; outliers count nothing."""
    p, n = edges.points_mm, edges.normals
    wanted = ((p - seen) * n).sum(axis=1)
    middle = seen.mean(axis=0)
    q = seen - middle
    if rigid:
        columns = np.column_stack([n, n[:, 1] * q[:, 0] - n[:, 0] * q[:, 1]])
    else:
        columns = np.column_stack([n, n[:, :1] * q, n[:, 1:] * q])
    likely = np.diag([1e-6, 1e-6, *[UNSTRETCHED] * (columns.shape[1] - 2)])
    use = np.ones(len(wanted), dtype=np.bool_)
    answer = np.zeros(columns.shape[1])
    for _ in range(3):
        weighed = columns[use] * edges.weights[use, None]
        answer = np.linalg.solve(weighed.T @ columns[use] + likely, weighed.T @ wanted[use])
        left = np.abs(wanted - columns @ answer)
        use = left <= max(0.12, 2.5 * float(np.median(left)))
        if use.sum() < EDGES_LEAST:
            break
    turn = np.array([[0.0, -answer[2]], [answer[2], 0.0]]) if rigid else answer[2:].reshape(2, 2)
    change = np.eye(2) + turn
    return change, answer[:2] + middle - change @ middle
