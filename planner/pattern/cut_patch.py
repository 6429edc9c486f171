"""A patch cut open along lines: its triangles are split where planes cross them, then parted along chains of edges."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from planner.pattern.patch import Floats, Ints, Patch

NEAR_SHARE = 0.02
"""A vertex within this share of a usual edge from a plane is taken to lie on it: no slivers."""
Edge = tuple[int, int]


def near_mm(patch: Patch) -> float:
    """Return how near a plane a vertex of a patch must be to count as on it."""
    sides = np.linalg.norm(patch.corners_mm - np.roll(patch.corners_mm, 1, axis=1), axis=2)
    return NEAR_SHARE * float(np.median(sides))


def split(patch: Patch, at_mm: Floats, normal: Floats, near_to_mm: float) -> Patch:
    """Return the same surface with an edge wherever a plane crosses a triangle."""
    away = (patch.vertices_mm - at_mm) @ normal
    side = np.where(np.abs(away) <= near_to_mm, 0, np.sign(away)).astype(int)
    of_face = side[patch.faces]
    crossed = (of_face.max(axis=1) > 0) & (of_face.min(axis=1) < 0)
    vertices, new = list(patch.vertices_mm), dict[Edge, int]()

    def between(one: int, other: int) -> int:
        """Return the vertex in which the plane meets an edge."""
        key = (min(one, other), max(one, other))
        if key not in new:
            share = away[one] / (away[one] - away[other])
            new[key] = len(vertices)
            vertices.append(patch.vertices_mm[one] + share * (patch.vertices_mm[other] - patch.vertices_mm[one]))
        return new[key]

    faces = list(map(tuple, patch.faces[~crossed]))
    for face, sides in zip(patch.faces[crossed].tolist(), of_face[crossed].tolist(), strict=True):
        # The corner that is alone on its side comes first; or the one on the plane, with the others apart.
        alone = next(
            (k for k in range(3) if sides[k] == 0), next((k for k in range(3) if sides.count(sides[k]) == 1), 0)
        )
        a, b, c = (face[(alone + k) % 3] for k in range(3))
        if sides[alone] == 0:
            p = between(b, c)
            faces += [(a, b, p), (a, p, c)]
        else:
            p, q = between(a, b), between(a, c)
            faces += [(a, p, q), (p, b, c), (p, c, q)]
    return Patch(vertices_mm=np.array(vertices), faces=np.array(faces, dtype=np.int64))


def walk(patch: Patch, start: int, on: NDArray[np.bool_], ends: NDArray[np.bool_]) -> list[int]:
    """Return the chain of edges between vertices that are ``on``, from one of them until one that ``ends`` it."""
    edges = np.concatenate([patch.faces[:, [0, 1]], patch.faces[:, [1, 2]], patch.faces[:, [2, 0]]])
    known = edges[on[edges].all(axis=1)]
    beside: dict[int, set[int]] = {}
    for one, other in known.tolist():
        beside.setdefault(one, set()).add(other)
        beside.setdefault(other, set()).add(one)
    chain, seen = [start], {start}
    while not ends[chain[-1]]:
        here = patch.vertices_mm[chain[-1]]
        ways = beside.get(chain[-1], set()) - seen
        if not ways:
            break
        after = min(ways, key=lambda one: float(np.linalg.norm(patch.vertices_mm[one] - here)))
        seen |= ways
        chain.append(after)
    return chain


def parted(patch: Patch, chains: Iterable[Sequence[int]]) -> tuple[Patch, list[tuple[Ints, Ints]]]:
    """Return a patch parted along chains of its edges, and both sides of each: from the rim to the tip that they share.

    A vertex is doubled where the triangles round it hang together in two groups once the chain's edges part them.
    """
    chains = [list(chain) for chain in chains]
    cut = {(min(pair), max(pair)) for chain in chains for pair in itertools.pairwise(chain)}
    faces, vertices = patch.faces.copy(), list(patch.vertices_mm)
    for vertex in sorted({one for chain in chains for one in chain}):
        for group in _groups(patch.faces, vertex, cut)[1:]:
            for face in group:
                faces[face][patch.faces[face] == vertex] = len(vertices)
            vertices.append(patch.vertices_mm[vertex])
    whole = Patch(vertices_mm=np.array(vertices), faces=faces)
    return whole, [_sides(patch.faces, faces, chain) for chain in chains]


def _groups(faces: Ints, vertex: int, cut: set[Edge]) -> list[list[int]]:
    """Return the triangles round a vertex, in groups that hang together without crossing an edge that is cut."""
    left = np.flatnonzero((faces == vertex).any(axis=1)).tolist()
    groups = []
    while left:
        group = [left.pop()]
        for face in group:
            for other in list(left):
                shared = set(faces[face].tolist()) & set(faces[other].tolist()) - {vertex}
                if any((min(vertex, one), max(vertex, one)) not in cut for one in shared):
                    left.remove(other)
                    group.append(other)
        groups.append(group)
    return groups


def _sides(before: Ints, after: Ints, chain: Sequence[int]) -> tuple[Ints, Ints]:
    """Return what became of a chain's vertices at its left and at its right, each from the rim to the tip."""
    sides: tuple[list[int], list[int]] = ([], [])
    last: list[int] = [0, 0]
    for one, other in itertools.pairwise(chain):
        for face in np.flatnonzero((before == one).any(axis=1) & (before == other).any(axis=1)).tolist():
            corners = before[face].tolist()
            k = corners.index(one)
            right = int(corners[(k + 1) % 3] != other)  # its triangle lies at the left of an edge that it goes along
            sides[right].append(int(after[face][k]))
            last[right] = int(after[face][corners.index(other)])
    return np.array([*sides[0], last[0]]), np.array([*sides[1], last[1]])
