"""What lies between faces of another part, as drawn in place: tenons, tongues, dovetails, levers in forks.

From points of a part's flat faces rays go outward; where they meet another part near by on two sides that face away
from each other, the part lies between them. Round pegs and bores are left out: they are measured better.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, partial
from itertools import permutations

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from planner.assembly.pegs.close_curves import curved, curved_points, on_round, tightest
from planner.assembly.pegs.shared_matter import inner_points, lattice_pitch_mm
from planner.finding import Vec3
from planner.job import Job
from planner.mesh import Solid
from planner.survey import Bore, Peg, Survey, face_normals, first_hits

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

ROOM_MOST_MM = 0.8
"""Faces that are drawn for each other leave no more room than this, both sides together; common practice, no source."""
SUNK_MM = 0.3
"""So deep one part may be drawn into the other, as a press fit is."""
STEP_MM, POINTS_MOST = 1.5, 300
"""How near points of a face lie, and how many a triangle has at most."""
AREA_LEAST_MM2 = 0.5
OPPOSITE_COS, UNDERCUT_COS = -0.999, -0.2
"""Faces of a tenon look away from each other; the flanks of a dovetail do as far as this."""
LIKE_COS = 0.99
FACES_COS = -0.99
CURVED_COS = -0.94
"""Facets of two curved faces look at each other within some 20 degrees."""
OVERLAP_SHARE = 0.02
"""Bodies that share more than this of the smaller one are not drawn in place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CloseFit:
    """A part between two faces of another, all as drawn: how wide it is there, and how much room it has."""

    inner: str
    outer: str
    width_mm: float
    room_mm: float
    way: Vec3
    """The direction across, a unit vector."""
    at_mm: Vec3
    sloped: bool
    """Whether it cannot be drawn out straight: the flanks of a dovetail."""
    curved: bool = False
    """Whether the faces are curved: a ball in a socket, a thread in a nut."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # arrays do not compare
class _Near:
    """Points (n, 3) of a part's faces with their normals, and how far off the other part is there, both as drawn."""

    points: Floats
    normals: Floats
    gaps_mm: Floats
    ray: Ints
    """Which of the points asked about each is."""


def close_fits(job: Job, solids: Mapping[str, Solid], surveys: Mapping[str, Survey]) -> tuple[CloseFit, ...]:
    """Return every part that lies between faces of another one, in each direction once."""
    single = [part.name for part in job.parts if part.count == 1 and solids[part.name].manifold is not None]
    pairs = _pairs(single, solids)
    samples: dict[str, tuple[Floats, Floats]] = {}
    found: list[CloseFit] = []
    for inner, outer in pairs:
        if inner not in samples:
            samples[inner] = _points(solids[inner], surveys[inner])
        near = _near(*samples[inner], solids[outer])
        if near is not None:
            found += _between(inner, outer, near)
    found += _curved_fits(pairs, solids, surveys)
    # what a dovetail's tongue is to its socket, the socket's lips are to the tongue: once is enough
    firm = {frozenset((one.inner, one.outer)) for one in found if not one.sloped}
    once: dict[object, CloseFit] = {}
    for one in found:
        pair = frozenset((one.inner, one.outer))
        if not one.sloped:
            once[one] = one
        elif pair not in firm and (pair not in once or one.width_mm > once[pair].width_mm):
            once[pair] = one
    return tuple(once.values())


def _pairs(names: Sequence[str], solids: Mapping[str, Solid]) -> list[tuple[str, str]]:
    """Return the pairs of bodies that come near each other as drawn in place, each both ways round.

    Meshes that were drawn about their own origins lie over each other: of many parts that is every pair, which one look
    at the shared volume settles; rays between their faces would take ten times as long.
    """
    boxes = [solids[name].bounds_mm for name in names]
    lows, highs = (np.array([box[k] for box in boxes]).reshape(-1, 3) for k in (0, 1))
    apart: set[frozenset[str]] = set()
    pitch_mm = lattice_pitch_mm(solids[name] for name in names)
    points = cache(lambda name: inner_points(solids[name], pitch_mm))

    def surely_mm3(one: str, other: str) -> float:
        return pitch_mm**3 * points(one).shared_n(points(other))

    for k, name in enumerate(names[:-1]):
        sides = np.minimum(highs[k], highs[k + 1 :]) - np.maximum(lows[k], lows[k + 1 :])
        for j in np.flatnonzero((sides >= -ROOM_MOST_MM).all(axis=1)):
            other = names[k + 1 + int(j)]
            box_mm3 = float(np.prod(np.maximum(sides[j], 0.0)))
            if not _overlap(solids[name], solids[other], box_mm3, partial(surely_mm3, name, other)):
                apart.add(frozenset((name, other)))
    return [pair for pair in permutations(names, 2) if frozenset(pair) in apart]


def _curved_fits(
    pairs: Sequence[tuple[str, str]], solids: Mapping[str, Solid], surveys: Mapping[str, Survey]
) -> Iterator[CloseFit]:
    """Yield every part that lies in curved faces of another one whichever way it looks."""
    samples: dict[str, tuple[Floats, Floats, Floats]] = {}
    for inner, outer in pairs:
        if inner not in samples:
            samples[inner] = curved_points(solids[inner], surveys[inner])
        points, normals, areas = samples[inner]
        near = _near(points, normals, solids[outer], CURVED_COS)
        fit = None if near is None else tightest(near.points, near.normals, near.gaps_mm, areas[near.ray])
        if near is None or fit is None or _inward(near):
            continue
        room_mm, width_mm, k = fit
        at, way = near.points[k], near.normals[k]
        yield CloseFit(
            inner=inner,
            outer=outer,
            width_mm=width_mm,
            room_mm=room_mm,
            way=(float(way[0]), float(way[1]), float(way[2])),
            at_mm=(float(at[0]), float(at[1]), float(at[2])),
            sloped=False,
            curved=True,
        )


def _inward(near: _Near) -> bool:
    """Return whether the faces look toward each other: they are those of a socket, and the other part lies in them."""
    middle = near.points.mean(axis=0)
    return float(np.einsum("ij,ij->i", near.points - middle, near.normals).mean()) < 0.0


def _overlap(one: Solid, other: Solid, boxes_share_mm3: float, surely_mm3: Callable[[], float]) -> bool:
    """Return whether two bodies are drawn over each other, as those about their own origins are.

    ``surely_mm3`` is what they share at least.
    """
    if one.manifold is None or other.manifold is None:
        return True
    most_mm3 = OVERLAP_SHARE * min(float(one.manifold.volume()), float(other.manifold.volume()))
    if boxes_share_mm3 <= most_mm3:
        return False
    return surely_mm3() > most_mm3 or float((one.manifold ^ other.manifold).volume()) > most_mm3


def _points(solid: Solid, survey: Survey) -> tuple[Floats, Floats]:
    """Return points of a solid's flat faces, (n, 3), and the normals there; none of its round pegs and bores."""
    corners = solid.corners_mm
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    doubled = np.linalg.norm(cross, axis=1)
    kept = np.flatnonzero((doubled > 2 * AREA_LEAST_MM2) & ~curved(solid))
    rounds: list[Bore | Peg] = [*survey.bores, *survey.possible_bores, *survey.pegs]
    for round_one in rounds:
        kept = kept[~on_round(corners[kept], round_one)]
    sides = np.linalg.norm(corners[kept] - np.roll(corners[kept], 1, axis=1), axis=2)
    steps = np.clip(np.ceil(sides.max(axis=1) / STEP_MM), 1, int((2 * POINTS_MOST) ** 0.5)).astype(np.int64)
    points, normals = [np.zeros((0, 3))], [np.zeros((0, 3))]
    for n in np.unique(steps):
        faces = kept[steps == n]
        i, j = (grid.ravel() for grid in np.meshgrid(np.arange(n), np.arange(n)))
        inside = i + j < n
        u, v = (i[inside, None] + 1 / 3) / n, (j[inside, None] + 1 / 3) / n
        a, b, c = (corners[faces, None, k] for k in range(3))
        points.append((a + u * (b - a) + v * (c - a)).reshape(-1, 3))
        normals.append(np.repeat(cross[faces] / doubled[faces, None], len(u), axis=0))
    return np.vstack(points), np.vstack(normals)


def _near(points: Floats, normals: Floats, other: Solid, faces_cos: float = FACES_COS) -> _Near | None:
    """Return the points before which another solid lies near by, and faces them; None where there are none."""
    low, high = other.vertices_mm.min(axis=0) - 1.0, other.vertices_mm.max(axis=0) + 1.0
    inside = ((points >= low) & (points <= high)).all(axis=1)
    points, normals = points[inside], normals[inside]
    if not len(points):
        return None
    faces = face_normals(other)
    hits = first_hits(other, faces, points - SUNK_MM * normals, normals)
    gaps = hits.distance_mm - SUNK_MM
    good = (gaps <= ROOM_MOST_MM) & (np.einsum("ij,ij->i", faces[hits.face], normals[hits.ray]) < faces_cos)
    if not good.any():
        return None
    ray = hits.ray[good]
    return _Near(points=points[ray], normals=normals[ray], gaps_mm=gaps[good], ray=np.flatnonzero(inside)[ray])


def _between(inner: str, outer: str, near: _Near) -> Iterator[CloseFit]:
    """Yield the tightest place in every direction in which a part lies between two faces."""
    ways = _ways(near.normals)
    done: list[Floats] = []
    for a, b in permutations(range(len(ways)), 2):
        if a > b or float(ways[a] @ ways[b]) > UNDERCUT_COS:
            continue
        sloped = float(ways[a] @ ways[b]) > OPPOSITE_COS
        if sloped and not any(float(way @ (ways[a] + ways[b])) < UNDERCUT_COS for way in ways):
            continue  # a wedge in a groove can be lifted out
        across = (ways[a] - ways[b]) / np.linalg.norm(ways[a] - ways[b])
        if any(abs(float(across @ other)) > LIKE_COS for other in done):
            continue
        found = _tightest(near, (ways[a], ways[b]), across)
        if found is not None:
            room_mm, width_mm, at = found
            done.append(across)
            yield CloseFit(
                inner=inner,
                outer=outer,
                width_mm=width_mm,
                room_mm=room_mm,
                way=(float(across[0]), float(across[1]), float(across[2])),
                at_mm=(float(at[0]), float(at[1]), float(at[2])),
                sloped=sloped,
            )


def _ways(normals: Floats) -> list[Floats]:
    """Return the different directions among normals."""
    found: list[Floats] = []
    _, first = np.unique(np.round(normals, 3), axis=0, return_index=True)
    for normal in normals[np.sort(first)]:
        if all(float(normal @ other) < LIKE_COS for other in found):
            found.append(normal)
    return found


def _tightest(near: _Near, ways: tuple[Floats, Floats], across: Floats) -> tuple[float, float, Floats] | None:
    """Return the least room between two sides that lie opposite each other, the width there, and the place."""
    one, other = (np.flatnonzero(near.normals @ way > LIKE_COS) for way in ways)
    points = near.points[one], near.points[other]
    flat_one, flat_other = (cKDTree(mine - np.outer(mine @ across, across)) for mine in points)
    found = flat_one.sparse_distance_matrix(flat_other, 2.0 * STEP_MM, output_type="coo_matrix")
    i, j = found.row, found.col
    along = (points[1][j] - points[0][i]) @ across
    slope = float(np.sqrt((1.0 - ways[0] @ ways[1]) / 2.0))
    rooms = (near.gaps_mm[one[i]] + near.gaps_mm[other[j]]) / slope
    fits = np.flatnonzero((found.data < 2.0 * STEP_MM) & (along < 0.0) & (rooms <= ROOM_MOST_MM))
    if not len(fits):
        return None
    k = fits[np.lexsort((j[fits], i[fits], rooms[fits]))[0]]
    return float(rooms[k]), float(-along[k]), (points[0][i[k]] + points[1][j[k]]) / 2
