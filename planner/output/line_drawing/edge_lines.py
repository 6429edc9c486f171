"""Edges worth a line, where a solid turns sharply or turns away from the eye, cut where something hides them."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.output.line_drawing.view_grid import Floats, Grid, Ints, View
from planner.survey import face_normals

SHARP_COS = float(np.cos(np.radians(25.0)))
"""Faces that meet at more than this show an edge: a bore of 15 facets or more stays smooth (our choice)."""
OUT_PX, NEARER_PX = 1.0, 1.0
"""An edge is tried so far outside its solid and so much nearer to the eye, or its own faces would hide it."""
SPECK_PX = 2.0
"""A shorter rest of a longer edge is the grid's doing, and is left out."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # arrays do not compare
class MeshEdges:
    """The edges (n, 2) of a mesh; the normals of the two faces at each, the same one twice at a rim."""

    pairs: Ints
    one: Floats
    other: Floats

    @property
    def sharp(self) -> NDArray[np.bool_]:
        """Which edges show from every side."""
        found: NDArray[np.bool_] = np.einsum("ij,ij->i", self.one, self.other) < SHARP_COS
        return found


def mesh_edges(solid: Solid) -> MeshEdges:
    """Return the edges of a mesh at which two faces meet, and the rims of one that is not closed."""
    normals = face_normals(solid)
    faces = np.asarray(solid.faces, dtype=np.int64)
    sides = np.sort(faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    owner = np.repeat(np.arange(len(faces)), 3)
    order = np.lexsort((owner, sides[:, 1], sides[:, 0]))
    sides, owner = sides[order], owner[order]
    first = np.r_[True, np.any(sides[1:] != sides[:-1], axis=1)]
    start = np.flatnonzero(first)
    twin = np.minimum(start + 1, len(sides) - 1)
    paired = (twin > start) & ~first[twin]
    one, other = normals[owner[start]], normals[owner[np.where(paired, twin, start)]]
    other = np.where(paired[:, None], other, -one)  # a rim shows from every side
    return MeshEdges(pairs=sides[start], one=one, other=other)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class EdgeSamples:
    """The edges of one placed solid in a view: ends in pixels, and points along them to ask the grid about."""

    ends: Floats
    """(n, 4): x, y of both ends."""
    owner: Ints
    """The edge of each point, in order."""
    share: Floats
    """Where on its edge it stands, 0 to 1."""
    pixel: Ints
    """Index of its pixel in the grid's rows; -1 outside."""
    depth_mm: Floats
    count: Ints
    """Points of each edge."""

    def seen(self, nearest_mm: Floats) -> Floats:
        """Return the lines (n, 4) that stand before the nearest depth at their pixels."""
        visible = (self.pixel >= 0) & (self.depth_mm <= nearest_mm.ravel()[self.pixel])
        return self._runs(visible)

    def _runs(self, visible: NDArray[np.bool_]) -> Floats:
        """Return the stretches of edges whose points are all visible."""
        if not visible.any():
            return np.zeros((0, 4))
        change = np.r_[True, self.owner[1:] != self.owner[:-1]]
        begins = visible & (change | ~np.r_[False, visible[:-1]])
        ends = visible & (np.r_[change[1:], True] | ~np.r_[visible[1:], False])
        edge, count = self.owner[begins], self.count[self.owner[begins]]
        low, high = self.share[begins] - 0.5 / count, self.share[ends] + 0.5 / count
        a, b = self.ends[edge, :2], self.ends[edge, 2:]
        lines = np.column_stack([a + low[:, None] * (b - a), a + high[:, None] * (b - a)])
        whole = (low < 1e-9) & (high > 1.0 - 1e-9)
        long = np.hypot(*(lines[:, 2:] - lines[:, :2]).T) >= SPECK_PX
        kept: Floats = lines[whole | long]
        return kept


def edge_samples(grid: Grid, view: View, points_mm: Floats, edges: MeshEdges, turn: Floats) -> EdgeSamples:
    """Return the edges of a placed solid that show in a view; ``turn`` takes the mesh's directions to the device's."""
    one, other = edges.one @ turn.T, edges.other @ turn.T
    rim = (one @ view.sight) * (other @ view.sight) < 0.0
    shown = rim | edges.sharp
    pairs, outward = edges.pairs[shown], one[shown] + other[shown]
    outward /= np.maximum(np.linalg.norm(outward, axis=1), 1e-9)[:, None]
    flat = grid.px(view.flat(points_mm))
    a, b = flat[pairs[:, 0]], flat[pairs[:, 1]]
    count = np.maximum(np.ceil(np.hypot(*(b - a)[:, :2].T)), 1).astype(np.int64)
    owner = np.repeat(np.arange(len(pairs)), count)
    share = (np.arange(len(owner)) - (np.cumsum(count) - count)[owner] + 0.5) / count[owner]
    out = view.flat(outward)[owner] * OUT_PX
    at = a[owner] + share[:, None] * (b - a)[owner]
    x, y = (np.rint(at[:, k] + out[:, k]).astype(np.int64) for k in (0, 1))
    inside = (x >= 0) & (x < grid.wide_n) & (y >= 0) & (y < grid.high_n)
    return EdgeSamples(
        ends=np.column_stack([a[:, :2], b[:, :2]]),
        owner=owner,
        share=share,
        pixel=np.where(inside, y * grid.wide_n + x, -1),
        depth_mm=at[:, 2] + (out[:, 2] - NEARER_PX) * grid.step_mm,
        count=count,
    )


def chained(lines: Floats, fine_mm: float) -> list[Floats]:
    """Return lines joined end to end where they meet, without points that lie within ``fine_mm`` of a straight line."""
    if not len(lines):
        return []
    ends = np.rint(lines.reshape(-1, 2) / (0.25 * fine_mm)).astype(np.int64)
    keys = [(int(x), int(y)) for x, y in ends]
    at: defaultdict[tuple[int, int], list[int]] = defaultdict(list)
    for index, key in enumerate(keys):
        at[key].append(index)
    points = lines.reshape(-1, 2)
    used = np.zeros(len(lines), dtype=bool)
    chains = []
    for line in range(len(lines)):
        if used[line]:
            continue
        used[line] = True
        chain = [2 * line, 2 * line + 1]
        for end in (1, 0):
            while True:
                tip = chain[-1] if end else chain[0]
                following = next((i for i in at[keys[tip]] if not used[i // 2]), None)
                if following is None:
                    break
                used[following // 2] = True
                far = following ^ 1
                if end:
                    chain.append(far)
                else:
                    chain.insert(0, far)
        chains.append(points[chain])
    drawn = shapely.simplify([shapely.LineString(chain) for chain in chains], fine_mm)
    return [np.asarray(line.coords, dtype=np.float64) for line in drawn]
