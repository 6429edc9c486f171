"""Shapes of cuts across a solid, at places of a straight way."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.layers import shape_of
from planner.mesh import Solid
from planner.strength.beam.cut_forces import Cut, cut_at
from planner.strength.beam.cut_pieces import Pieces, pieces_of
from planner.strength.beam.grazing import end_faces, runs_out
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.beam.skin_and_core import Zones, zones_of

Floats = NDArray[np.float64]
STRAIGHT_MM = 1e-6
"""A corner of an outline this near to the line between its neighbours is none."""
KEPT_N = 256
"""So many ways are kept cut: trying remedies cuts the same parts again and again."""


def cuts_along(
    solid: Solid, from_mm: Floats, to_mm: Floats, shares: Sequence[float], necks: Collection[float] = ()
) -> Iterator[tuple[Cut, shapely.Geometry, Pieces]]:
    """Yield a cut, its flat shape in the cut's two axes, and its pieces, for places between two points (0 to 1).

    A shape lies about the cut's own point. Places where nothing is cut are left out, and those where a cut runs out
    through an end of the part, but for ``necks``, on whose both sides the part is wider; the solid must be sound.
    """
    body = solid.manifold
    if body is None:
        return
    first = cut_at(from_mm, to_mm - from_mm)
    turned_mm = np.column_stack([first.axes, -first.axes @ from_mm])
    turned = body.transform(turned_mm)
    long = float(np.linalg.norm(to_mm - from_mm))
    edges = np.concatenate([solid.faces[:, [0, 1]], solid.faces[:, [1, 2]]])
    corners = (solid.corners_mm - from_mm) @ first.axes.T
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    ends = end_faces(corners, normals, np.linalg.norm(normals, axis=1))
    for share in sorted({*shares, *necks}):
        # Every triangle leaves a corner on the outlines it crosses: nine of ten lie on a straight line.
        shape = shapely.simplify(shape_of(turned.slice(share * long)), STRAIGHT_MM)
        if not shape.is_empty and shape.area > 0.0 and (share in necks or not runs_out(ends, share * long, shape)):
            cut = Cut(at_mm=from_mm + share * (to_mm - from_mm), axes=first.axes)
            yield cut, shape, pieces_of(turned, turned_mm, share * long, shape, edges, solid.vertices_mm)


@lru_cache(maxsize=KEPT_N)
def cuts_of_way(
    solid: Solid, way: tuple[Vec3, Vec3], shares: tuple[float, ...], necks: tuple[float, ...] = ()
) -> tuple[tuple[Cut, shapely.Geometry, Pieces], ...]:
    """Return the cuts at some places of a way, made once: they are the same whatever a part is printed of."""
    return tuple(cuts_along(solid, np.array(way[0]), np.array(way[1]), shares, necks))


def printed_zones(shape: shapely.Geometry, cut: Cut, stuff: BeamStuff, factor: float) -> Zones:
    """Return a cut's skin and core at a scale, drawn at 100 %: the skin keeps its thickness as printed.

    Above and below the skin is as thick as the solid layers are, at the sides as contours are: the shape is stretched
    along the layer normal so that both are one thickness, shrunk, and brought back.
    """
    lies = cut.axes[:2] @ np.array(stuff.normal)
    lean = float(np.linalg.norm(lies))
    stretch = 1.0 + (stuff.side_mm / stuff.level_mm - 1.0) * lean if stuff.level_mm > 0.0 else 1.0
    if lean < 1e-9 or abs(stretch - 1.0) < 1e-9:
        return zones_of(shape, stuff.side_mm / factor, stuff.infill_share)
    way = lies / lean
    forth = np.eye(2) + (stretch - 1.0) * np.outer(way, way)
    back = np.linalg.inv(forth)
    wide = shapely.transform(shape, lambda points: points @ forth)
    core = zones_of(wide, stuff.side_mm / factor, stuff.infill_share)
    return Zones(
        whole=shape, core=shapely.transform(core.core, lambda points: points @ back), core_share=core.core_share
    )
