"""Curved channels: tubes that bend on their way through a part, as centre lines with their least diameter.

From every face of a hollow patch a ray crosses the void; where it meets the same patch, its length is a
diameter there and its middle lies on the centre line. That holds however the tube is triangulated.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import dijkstra
from scipy.spatial import cKDTree

from planner.mesh import Solid
from planner.survey.bores.around_axis import vec3
from planner.survey.bores.facets import BEND_RAD, Facets, members, pieces
from planner.survey.rays import first_hits
from planner.survey.survey import Channel

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

FACES_LEAST = 24
ONE_WAY_MOST = 0.8
"""Of its area, a tube's wall faces one way as its two mouths do (divergence theorem), a third at most; what faces
about them through slivers may be counted with it. Nearly flat patches, which a scan has by thousands, face one way."""
SAME_PATCH_SHARE = 0.85
"""So many of the rays must meet the patch again: else it is a groove, a pocket or a fillet."""
SPREAD_MOST = 1.5
"""Widest over narrowest crossing, outliers left out: beyond, it is a hollow and no tube."""
LONG_LEAST, STRAIGHT_SHARE, OFF_MOST = 1.5, 0.05, 0.2
"""In diameters: least length; how little a straight bore's centre line leaves its chord; thickness of the line."""
NARROW_SHARE = 0.02
"""The least diameter is the one that this share of the crossings lies below: corners of triangles cut it short."""
BENT_MOST = 0.9
"""A line that bends leaves the middles this share of what a straight one does (root mean square), or less: where a wide
hollow's section changes, its middles scatter as much about either, and what its line turns is chance."""
POINTS_MOST, NEEDLE_MOST = 4000, 60
COARSE_N = 13
"""Points of the centre line at which its turning is told."""
STEP = 0.5
"""Of a diameter, between two points of the centre line as it is told."""


def channels_of(solid: Solid, facets: Facets) -> tuple[Channel, ...]:
    """Return the curved channels of a solid, in a fixed order; straight ones are bores and are not repeated."""
    found = [_channel(solid, facets, faces) for faces in _hollow_patches(solid, facets)]
    return tuple(sorted((c for c in found if c), key=lambda c: [round(v, 2) for v in c.line_mm[0]]))


def _hollow_patches(solid: Solid, facets: Facets) -> list[Ints]:
    """Return patches bounded by sharp or convex edges."""
    start, end = solid.vertices_mm[facets.edges[:, 0]], solid.vertices_mm[facets.edges[:, 1]]
    far = solid.corners_mm[facets.pairs[:, 1]].sum(axis=1) - start - end
    rise = np.einsum("ij,ij->i", far - start, facets.normals[facets.pairs[:, 0]])
    size = np.linalg.norm(end - start, axis=1) + np.linalg.norm(far - start, axis=1)
    links = facets.pairs[(facets.angle_rad < BEND_RAD) & (rise > -0.02 * size)]
    label = pieces(links, len(solid.faces))
    area = np.bincount(label, weights=facets.areas_mm2)
    one_way = [np.bincount(label, weights=facets.areas_mm2 * facets.normals[:, k]) for k in range(3)]
    round_ = (np.linalg.norm(one_way, axis=0) < ONE_WAY_MOST * area) & (np.bincount(label) >= FACES_LEAST)
    kept = np.flatnonzero(round_[label])
    return [kept[part] for part in members(label[kept])] if len(kept) else []


def _channel(solid: Solid, facets: Facets, faces: Ints) -> Channel | None:
    """Return the channel that a patch is the wall of, or None."""
    crossing = _crossings(solid, facets, faces)
    if crossing is None:
        return None
    middles, widths = crossing
    narrow, wide = np.quantile(widths, [NARROW_SHARE, 0.95])
    if wide > SPREAD_MOST * narrow or float(_off_straight_mm(middles).max()) < STRAIGHT_SHARE * wide:
        return None
    line = _centre_line(middles, float(np.median(widths)))
    if line is None:
        return None
    line = _to_mouths(line, solid.vertices_mm[np.unique(solid.faces[faces])], float(wide))
    length = float(np.linalg.norm(np.diff(line, axis=0), axis=1).sum())
    chord = (line[-1] - line[0]) / max(float(np.linalg.norm(line[-1] - line[0])), 1e-9)
    away = line - line[0]
    bow = float(np.linalg.norm(away - (away @ chord)[:, None] * chord, axis=1).max())
    if length < LONG_LEAST * wide or bow < STRAIGHT_SHARE * wide or not _bends(middles, line):
        return None
    if float(cKDTree(line).query(middles)[0].max()) > OFF_MOST * wide + STEP * wide:
        return None
    return Channel(
        diameter_mm=float(narrow),
        length_mm=length,
        bends_deg=_turning_deg(line),
        line_mm=tuple(vec3(point) for point in line),
        at_mm=vec3(line[len(line) // 2]),
    )


def _crossings(solid: Solid, facets: Facets, faces: Ints) -> tuple[Floats, Floats] | None:
    """Return the middles (n, 3) and lengths (n,) of rays across the void; None where they do not meet the patch."""
    areas = facets.areas_mm2[faces]
    whole = areas > 0.05 * np.median(areas)  # slivers have no direction of their own
    chosen = faces[whole]
    step = STEP * _breadth(solid, facets, chosen)
    chosen = chosen[np.linspace(0, len(chosen) - 1, min(len(chosen), POINTS_MOST)).astype(np.int64)]
    points, owner = _down_the_needles(solid.corners_mm[chosen], step)
    normals = facets.normals[chosen][owner]
    lift = 1e-6 * float(np.max(solid.size_mm))
    hits = first_hits(solid, facets.normals, points + lift * normals, normals)
    inside = np.zeros(len(solid.faces), dtype=bool)
    inside[faces] = True
    same = inside[hits.face]
    if same.sum() < SAME_PATCH_SHARE * len(points):
        return None
    ray, width = hits.ray[same], hits.distance_mm[same] + lift
    middles: Floats = points[ray] + width[:, None] / 2 * normals[ray]
    return middles, width


def _breadth(solid: Solid, facets: Facets, faces: Ints) -> float:
    """Return about how wide the void is before some faces."""
    few = faces[np.linspace(0, len(faces) - 1, min(len(faces), 64)).astype(np.int64)]
    lift = 1e-6 * float(np.max(solid.size_mm))
    points = solid.corners_mm[few].mean(axis=1) + lift * facets.normals[few]
    hits = first_hits(solid, facets.normals, points, facets.normals[few])
    return float(np.median(hits.distance_mm)) if len(hits.distance_mm) else float(np.max(solid.size_mm))


def _down_the_needles(corners: Floats, step: float) -> tuple[Floats, Ints]:
    """Return points down the middle of every triangle, a step apart, and whose they are.

    A straight lead-in is a few long needles: their middles alone would leave gaps in the line.
    """
    sides = np.linalg.norm(corners - np.roll(corners, -1, axis=1), axis=2)  # from corner k to k + 1
    tip = (np.argmin(sides, axis=1) + 2) % 3
    rows = np.arange(len(corners))
    base = (corners[rows, (tip + 1) % 3] + corners[rows, (tip + 2) % 3]) / 2
    count = np.clip(np.ceil(sides.max(axis=1) / max(step, 1e-9)), 1, NEEDLE_MOST).astype(np.int64)
    owner = np.repeat(rows, count)
    within = np.arange(len(owner)) - np.repeat(np.cumsum(count) - count, count)
    share = ((within + 0.5) / count[owner])[:, None]
    points: Floats = (1 - share) * base[owner] + share * corners[owner, tip[owner]]
    return points, owner


def _off_straight_mm(middles: Floats) -> Floats:
    """Return how far middles lie off the straight line through them, (n,): nearly nothing for a bore."""
    near = middles - middles.mean(axis=0)
    along = np.linalg.svd(near.T @ near)[0][:, 0]
    off: Floats = np.linalg.norm(near - (near @ along)[:, None] * along, axis=1)
    return off


def _bends(middles: Floats, line: Floats) -> bool:
    """Return whether middles lie along a bent line much better than along a straight one."""
    start, way = line[:-1], np.diff(line, axis=0)
    away = middles[:, None] - start
    share = np.einsum("ijk,jk->ij", away, way) / np.maximum((way**2).sum(axis=1), 1e-24)
    off = np.linalg.norm(away - np.clip(share, 0.0, 1.0)[:, :, None] * way, axis=2).min(axis=1)
    return bool(np.sqrt((off**2).mean()) < BENT_MOST * np.sqrt((_off_straight_mm(middles) ** 2).mean()))


def _thinned(points: Floats, cell: float) -> Floats:
    """Return one point for each cell of a grid: the mean of those in it."""
    _, index = np.unique(np.floor(points / cell).astype(np.int64), axis=0, return_inverse=True)
    index = index.reshape(-1)
    count = np.bincount(index)
    return np.stack([np.bincount(index, weights=points[:, k]) / count for k in range(3)], axis=1)


def _centre_line(middles: Floats, width: float) -> Floats | None:
    """Return the points of the curve that middles lie along, thinned to steps; None where they form none."""
    step = STEP * width
    middles = _thinned(middles, step / 4)
    tree = cKDTree(middles)
    near = tree.query_pairs(1.2 * step, output_type="ndarray")
    if not len(near):
        return None
    n = len(middles)
    length = np.linalg.norm(middles[near[:, 0]] - middles[near[:, 1]], axis=1) + 1e-9
    graph = coo_matrix((length, near.T), shape=(n, n)).tocsr()
    first = int(np.argmax(_finite(dijkstra(graph, directed=False, indices=0))))
    along = _finite(dijkstra(graph, directed=False, indices=first))
    if (along < 0).sum() > 0.1 * n:  # more than one curve
        return None
    cells = np.floor(along / step).astype(np.int64)
    line = np.array([middles[cells == c].mean(axis=0) for c in range(int(cells.max()) + 1) if (cells == c).any()])
    return line if len(line) >= 3 else None


def _finite(distance: Floats) -> Floats:
    """Return distances with -1 for what cannot be reached."""
    return np.where(np.isfinite(distance), distance, -1.0)


def _to_mouths(line: Floats, wall: Floats, width: float) -> Floats:
    """Lengthen a line along its ends to the farthest corner of the wall there."""
    ends = []
    for point, before in ((line[0], line[1]), (line[-1], line[-2])):
        way = (point - before) / max(float(np.linalg.norm(point - before)), 1e-12)
        near = wall[np.linalg.norm(wall - point, axis=1) < 1.5 * width]
        ends.append(point + max(float(((near - point) @ way).max(initial=0.0)), 0.0) * way)
    return np.vstack([ends[0], line[1:-1], ends[1]])


def _turning_deg(line: Floats) -> float:
    """Return how far a line turns in all, in degrees.

    Of an arc in k equal chords the corners turn (k - 1)/k; half of the first and of the last turn make it whole.
    """
    places = np.round(np.linspace(0, len(line) - 1, min(len(line), COARSE_N))).astype(np.int64)
    coarse = line[places]
    way = np.diff(coarse, axis=0)
    way /= np.maximum(np.linalg.norm(way, axis=1, keepdims=True), 1e-12)
    turns = np.arccos(np.clip((way[1:] * way[:-1]).sum(axis=1), -1.0, 1.0))
    return float(np.degrees(turns.sum() + (turns[0] + turns[-1]) / 2))
