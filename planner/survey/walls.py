"""Walls: how much matter lies between two faces that look away from each other.

Every face is sampled, densest on the largest; a ray goes from the sample into the matter, and where it
leaves through a face within 60 degrees of opposed, the ball that touches both faces is the thickness there.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.rays import face_areas, face_normals, first_hits
from planner.survey.survey import Bore, WallPoint, Walls

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SAMPLES_N = 30_000
"""Samples on a whole part, besides three near the corners of every triangle."""
OPPOSED_COS = 0.5
"""Faces within 60 degrees of opposed have a wall between them."""
STEEP_COS = float(np.cos(np.radians(12.0)))
"""Faces leaning more than 12 degrees toward each other may be an edge and no wall; a draft is less."""
LEANING_COS = float(np.cos(np.radians(8.0)))
"""Between faces that lean more than this the inscribed ball is looked at once more: it must touch both."""
NEAR_CORNER = 0.01
"""Barycentric distance of corner samples from the triangle's sides."""


def walls_of(solid: Solid, bores: tuple[Bore, ...]) -> Walls:
    """Measure the walls of a solid; ``bores`` tell which samples are webs beside a bore.

    Notes
    -----
    For a ray of length d from one plane to another at angle phi from parallel, the inscribed ball that
    touches the first plane at the ray's start has the diameter 2 d cos(phi) / (1 + cos(phi)) (geometry).
    It equals d between parallel faces. Where the two faces meet in an edge the matter tapers to nothing
    there; such feather edges are counted apart and are no walls.
    """
    normals, areas = face_normals(solid), face_areas(solid)
    points, face, weight = _samples(solid, areas)
    lift = 1e-6 * float(np.max(solid.size_mm))  # start just inside, past the engine's single precision
    hits = first_hits(solid, normals, points - lift * normals[face], -normals[face])
    start = hits.ray
    cos = -np.einsum("ij,ij->i", normals[face[start]], normals[hits.face])
    opposed = cos >= OPPOSED_COS
    start, hit, cos = start[opposed], hits.face[opposed], cos[opposed]
    distance = hits.distance_mm[opposed] + lift
    feather = _touching(solid, normals, face[start], hit)
    steep = np.flatnonzero(~feather & (cos < STEEP_COS) & (distance > 0))
    tapers = _Taper(points[start[steep]], normals[face[start[steep]]], normals[hit[steep]], distance[steep], cos[steep])
    feather[steep] = tapers.to_an_edge(solid, normals)
    thickness = 2.0 * distance * cos / (1.0 + cos)
    leaning = np.flatnonzero(~feather & (cos < LEANING_COS) & (distance > 0))
    middles = points[start[leaning]] - thickness[leaning, None] / 2 * normals[face[start[leaning]]]
    touches = np.ones(len(start), dtype=bool)
    touches[leaning] = _touches(solid, normals, middles, normals[hit[leaning]], thickness[leaning] / 2)
    keep = ~feather & (distance > 0) & touches
    start, distance, thickness = start[keep], distance[keep], thickness[keep]
    order = np.argsort(thickness, kind="stable")
    here = points[start]
    there = here - normals[face[start]] * distance[:, None]
    at_bore = np.zeros(len(start), dtype=bool)
    for bore in bores:
        at_bore |= _on_bore(here, bore) | _on_bore(there, bore)
    return Walls(
        least=_thinnest(thickness, here, there, np.ones(len(start), dtype=bool)),
        least_clear=_thinnest(thickness, here, there, ~at_bore),
        thickness_mm=thickness[order],
        area_mm2=weight[start][order],
        feather_n=int(feather.sum()),
        of_face_mm=_of_face(face[start], thickness, len(solid.faces)),
    )


def _of_face(face: Ints, thickness: Floats, faces_n: int) -> NDArray[np.float32]:
    """Return the thinnest sample of every face, NaN where it has none."""
    least = np.full(faces_n, np.inf, dtype=np.float32)
    np.minimum.at(least, face, thickness.astype(np.float32))
    least[np.isinf(least)] = np.nan
    return least


def _samples(solid: Solid, areas: Floats) -> tuple[Floats, Ints, Floats]:
    """Return points (n, 3), their faces (n,) and the area each stands for (n,)."""
    total = float(areas.sum())
    count = (
        np.maximum(1, np.ceil(areas / total * SAMPLES_N)).astype(np.int64) if total > 0 else np.ones(len(areas), int)
    )
    face = np.repeat(np.arange(len(areas)), count)
    within = np.arange(len(face)) - np.repeat(np.cumsum(count) - count, count)
    # A rank-1 lattice (Roberts 2018, the "R2" sequence), folded into the triangle: even, and the same every time.
    u = (0.5 + within * 0.7548776662466927) % 1.0
    v = (0.5 + within * 0.5698402909980532) % 1.0
    over = u + v > 1.0
    u, v = np.where(over, 1.0 - u, u), np.where(over, 1.0 - v, v)
    corners = solid.corners_mm[face]
    points = corners[:, 0] + u[:, None] * (corners[:, 1] - corners[:, 0]) + v[:, None] * (corners[:, 2] - corners[:, 0])
    # Tapering walls are thinnest at a face's border, so each triangle is also sampled near its corners.
    shares = np.full((3, 3), NEAR_CORNER) + np.eye(3) * (1.0 - 3.0 * NEAR_CORNER)
    near = np.einsum("ck,fkx->fcx", shares, solid.corners_mm).reshape(-1, 3)
    near_face = np.repeat(np.arange(len(areas)), 3)
    weight = np.concatenate([(areas / count)[face], np.zeros(len(near))])
    return np.concatenate([points, near]), np.concatenate([face, near_face]), weight


def _touching(solid: Solid, normals: Floats, first: Ints, second: Ints) -> NDArray[np.bool_]:
    """Return where two faces share a corner without being parallel: the matter between them ends there."""
    shared = (solid.faces[first][:, :, None] == solid.faces[second][:, None, :]).any(axis=(1, 2))
    parallel = np.einsum("ij,ij->i", normals[first], normals[second]) < -0.9999
    touching: NDArray[np.bool_] = shared & ~parallel
    return touching


def _on_bore(points: Floats, bore: Bore) -> NDArray[np.bool_]:
    """Return which points lie on a bore's wall."""
    axis = np.array(bore.axis)
    away = points - np.array(bore.centre_mm)
    along = away @ axis
    radius = np.linalg.norm(away - along[:, None] * axis, axis=1)
    slack = 0.02 + 0.02 * bore.drawn_diameter_mm
    near = (radius > bore.diameter_mm / 2 - slack) & (radius < bore.drawn_diameter_mm / 2 + slack)
    on: NDArray[np.bool_] = near & (np.abs(along) <= bore.depth_mm / 2 + slack)
    return on


def _touches(solid: Solid, normals: Floats, middles: Floats, toward: Floats, radius: Floats) -> NDArray[np.bool_]:
    """Return whether the ball about each middle really touches the leaning face, and not only its plane."""
    hits = first_hits(solid, normals, middles, toward)
    touches = np.zeros(len(middles), dtype=bool)
    on_plane = np.einsum("ij,ij->i", normals[hits.face], toward[hits.ray]) > LEANING_COS
    near = np.abs(hits.distance_mm - radius[hits.ray]) < 0.02 * radius[hits.ray] + 0.002
    touches[hits.ray[on_plane & near]] = True
    return touches


@dataclass(frozen=True)
class _Taper:
    """Samples between two faces that lean toward each other: (k, 3) points and normals, (k,) distance and cosine."""

    here: Floats
    normal: Floats
    opposite: Floats
    distance_mm: Floats
    cos: Floats

    def to_an_edge(self, solid: Solid, normals: Floats) -> NDArray[np.bool_]:
        """Return where the matter runs out to an edge, told by a ray along the face toward the thin side.

        Both planes meet at d / tan(phi) from the sample (geometry); a wall that is cut off by a face of its
        own before half of that keeps half its thickness there, and stays a wall.
        """
        toward = self.opposite - np.einsum("ij,ij->i", self.opposite, self.normal)[:, None] * self.normal
        toward /= np.maximum(np.linalg.norm(toward, axis=1, keepdims=True), 1e-12)
        apex = self.distance_mm * self.cos / np.sqrt(np.maximum(1.0 - self.cos**2, 1e-12))
        hits = first_hits(solid, normals, self.here - 0.02 * self.distance_mm[:, None] * self.normal, toward)
        faces_away = np.einsum("ij,ij->i", normals[hits.face], toward[hits.ray]) > 0.6
        ends = np.ones(len(self.here), dtype=bool)
        ends[hits.ray[faces_away & (hits.distance_mm < 0.5 * apex[hits.ray])]] = False
        return ends


def _thinnest(thickness: Floats, here: Floats, there: Floats, among: NDArray[np.bool_]) -> WallPoint | None:
    """Return the thinnest sample among some, placed in the middle of its wall."""
    if not among.any():
        return None
    index = int(np.argmin(np.where(among, thickness, np.inf)))
    x, y, z = (here[index] + there[index]) / 2.0
    return WallPoint(thickness_mm=float(thickness[index]), at_mm=(float(x), float(y), float(z)))
