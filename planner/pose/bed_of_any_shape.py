"""The largest scale at which an outline fits a bed of any shape, with zones kept clear."""

from __future__ import annotations

from itertools import combinations, pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.job import Bed, usable_ground

Floats = NDArray[np.float64]
SIDES_MOST = 36
"""A round bed with zones is judged as an inscribed polygon of about so many sides: 0.5 % smaller."""
PIECES_MOST = 24
TURNS = 360
ZOOMS = 6


def clear_pieces(bed: Bed) -> tuple[list[shapely.Polygon], bool]:
    """Return convex pieces of the usable bed, and whether they are one that is all of it.

    What a zone or a notch takes is cut off along one of its edges in each piece; a convex outline that fits a
    piece fits the bed.
    """
    ground = usable_ground(bed)
    if bed.shape == "circle":
        ground = ground.intersection(shapely.Point(bed.size_mm[0] / 2, bed.size_mm[0] / 2).buffer(bed.usable_mm[0] / 2))
    whole = ground.convex_hull
    if bed.shape == "circle":
        middle = bed.size_mm[0] / 2
        whole = shapely.Point(middle, middle).buffer(bed.usable_mm[0] / 2, quad_segs=SIDES_MOST // 4)
    lost = whole.difference(ground.buffer(1e-6, join_style="mitre"))
    notches = [part.convex_hull for part in getattr(lost, "geoms", [lost]) if part.area > 1e-3]
    pieces = [whole]
    for notch in notches:
        cut = [side for piece in pieces for side in _beside(piece, notch)]
        pieces = sorted(cut, key=lambda piece: -piece.area)[:PIECES_MOST]
    return pieces, not notches


def _beside(piece: shapely.Polygon, notch: shapely.Polygon) -> list[shapely.Polygon]:
    """Return the parts of a convex piece beyond each edge of a convex notch."""
    if piece.intersection(notch).area < 1e-6:
        return [piece]
    ring = np.asarray(shapely.orient_polygons(notch).exterior.coords)
    far, found = 4.0 * float(np.ptp(np.asarray(piece.exterior.coords), axis=0).max()) + 1e3, []
    for a, b in pairwise(ring):
        along = (b - a) / max(float(np.linalg.norm(b - a)), 1e-12)
        out = np.array([along[1], -along[0]])
        side = shapely.Polygon([a - far * along, a + far * along, a + far * (along + out), a + far * (out - along)])
        kept = piece.intersection(side)
        if isinstance(kept, shapely.Polygon) and kept.area > 1.0:
            found.append(kept)
    return found


def largest_on(outline_mm: Floats, piece: shapely.Polygon) -> tuple[float, float]:
    """Return the largest factor at which a convex outline (k, 2) fits a convex piece of bed, and its turn in degrees.

    Notes
    -----
    At one turn it is a linear program in factor and place: ``n_i·t + s h_i <= b_i`` for every edge, ``h_i`` the
    outline's reach along the edge's normal. By duality the factor is the least of ``sum(l b) / sum(l h)`` over the
    sets of two or three edges whose normals balance, ``sum(l n) = 0, l > 0``; all sets and turns are asked at once.
    Over turns, those that lay an edge on an edge and a sample are tried, then the best is zoomed into.
    """
    normals, reach = _edges(piece)
    sets, weights = _balanced(normals)
    room = (weights * reach[sets]).sum(axis=1)
    edges = np.diff(np.vstack([outline_mm, outline_mm[:1]]), axis=0)
    flush = np.subtract.outer(np.arctan2(normals[:, 1], normals[:, 0]), np.arctan2(-edges[:, 0], edges[:, 1])).ravel()
    turns = np.unique(np.round(np.mod(np.append(flush, np.linspace(0, 2 * np.pi, TURNS)), 2 * np.pi), 9))

    def factors(angles: Floats) -> Floats:
        across = np.stack([np.cos(angles), np.sin(angles)])  # normals turned back, so that the outline may stay
        back = np.stack(
            [
                np.outer(normals[:, 0], across[0]) + np.outer(normals[:, 1], across[1]),
                np.outer(normals[:, 1], across[0]) - np.outer(normals[:, 0], across[1]),
            ],
            axis=-1,
        )
        h = (back @ outline_mm.T).max(axis=2)
        asked = sum(weights[:, k, None] * h[sets[:, k]] for k in range(3))
        least: Floats = (room[:, None] / asked).min(axis=0)
        return least

    found = np.concatenate([factors(part) for part in np.array_split(turns, max(1, len(turns) // 200))])
    best, turn, step = float(found.max()), float(turns[int(found.argmax())]), 2 * np.pi / TURNS
    for _ in range(ZOOMS):
        near = turn + np.linspace(-step, step, 41)
        found = factors(near)
        if found.max() > best:
            best, turn = float(found.max()), float(near[int(found.argmax())])
        step /= 10.0
    return best, float(np.degrees(turn) % 360.0)


def _edges(piece: shapely.Polygon) -> tuple[Floats, Floats]:
    """Return outward normals and reaches of a convex polygon's edges."""
    ring = np.asarray(shapely.orient_polygons(piece.simplify(1e-6)).exterior.coords)
    along = np.diff(ring, axis=0)
    normals = np.column_stack([along[:, 1], -along[:, 0]]) / np.linalg.norm(along, axis=1, keepdims=True)
    return normals, (normals * ring[:-1]).sum(axis=1)


def _balanced(normals: Floats) -> tuple[NDArray[np.int64], Floats]:
    """Return the sets of three edges, or two opposite ones, whose normals balance, with their weights."""
    rows, weights = [], []
    for i, j, k in combinations(range(len(normals)), 3):
        a, b, c = normals[i], normals[j], normals[k]
        each = (b[0] * c[1] - b[1] * c[0], c[0] * a[1] - c[1] * a[0], a[0] * b[1] - a[1] * b[0])
        signed = np.array(each) if sum(each) > 0 else -np.array(each)
        if (signed > -1e-12).all() and signed.sum() > 1e-12:
            rows.append((i, j, k))
            weights.append(signed)
    for i, j in combinations(range(len(normals)), 2):
        if float(normals[i] @ normals[j]) < -1.0 + 1e-12:
            rows.append((i, j, j))
            weights.append(np.array([1.0, 1.0, 0.0]))
    return np.asarray(rows), np.asarray(weights)
