"""Walls: how much matter lies between two sides, each a face, or an edge or corner that points inwards."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.around_axis import vec3
from planner.survey.survey import Bore, WallPoint, Walls
from planner.survey.walls.between_faces import between_faces, samples, stand_ins
from planner.survey.walls.inner_edges import from_inner_edges
from planner.survey.walls.least_distance import settled
from planner.survey.walls.run_outs import run_outs_of, running_out
from planner.survey.walls.sides import bore_of
from planner.survey.walls.solid_for_walls import Pairs, Shape, shape_of, together
from planner.survey.walls.thin_places import thin_places

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def walls_of(solid: Solid, bores: tuple[Bore, ...]) -> Walls:
    """Measure the walls of a solid; ``bores`` tell which samples are webs beside a bore."""
    shape = shape_of(solid)
    faces = between_faces(shape, *samples(shape))
    feather = running_out(shape, faces)
    pairs = together(faces.only(~feather), from_inner_edges(shape))
    clear = (bore_of(pairs.here, bores) < 0) & (bore_of(pairs.there, bores) < 0)
    order = np.argsort(pairs.thickness_mm, kind="stable")
    return Walls(
        least=_least(_thinnest(shape, pairs), bores),
        least_clear=_thinnest(shape, pairs.only(clear)),
        places=thin_places(shape, pairs.only(clear), bores),
        run_outs=run_outs_of(shape),
        thickness_mm=pairs.thickness_mm[order],
        area_mm2=pairs.area_mm2[order],
        feather_n=int(feather.sum()),
        of_face_mm=_of_face(shape, pairs),
    )


def _of_face(shape: Shape, pairs: Pairs) -> NDArray[np.float32]:
    """Return the thinnest sample of every face, or of the one that stands in for it; NaN where it has none."""
    least = np.full(len(shape.normals), np.inf, dtype=np.float32)
    own = pairs.only(~pairs.inner)
    np.minimum.at(least, own.face, own.thickness_mm.astype(np.float32))
    least[np.isinf(least)] = np.nan
    return least[stand_ins(shape)]


def _thinnest(shape: Shape, pairs: Pairs) -> WallPoint | None:
    """Return the thinnest of all pairs, settled, placed in the middle of its wall."""
    if not len(pairs):
        return None
    first = pairs.only(np.array([int(np.argmin(pairs.thickness_mm))]))
    pair = settled(shape, first)
    return WallPoint(thickness_mm=float(pair.thickness_mm[0]), at_mm=vec3(pair.middle[0]))


def _least(found: WallPoint | None, bores: tuple[Bore, ...]) -> WallPoint | None:
    """Return the thinner of what was found and the matter beside all bores."""
    webs = [
        WallPoint(thickness_mm=b.edge_wall_mm, at_mm=b.edge_at_mm) for b in bores if b.edge_wall_mm and b.edge_at_mm
    ]
    return min((web for web in (found, *webs) if web), key=lambda web: web.thickness_mm, default=None)
