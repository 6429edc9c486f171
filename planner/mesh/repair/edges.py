"""Edges of a triangle mesh, by sorting keys: which are open, doubled, or shared by which faces."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]


def directed(faces: Ints) -> Ints:
    """Return the three directed edges of every face, (3 m, 2), face by face."""
    edges: Ints = faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2)
    return edges


def _keys(edges: Ints) -> tuple[Ints, Ints]:
    """Return one number for each directed edge, and one for its reverse."""
    base = int(edges.max()) + 1 if len(edges) else 1
    return edges[:, 0] * base + edges[:, 1], edges[:, 1] * base + edges[:, 0]


def open_edges(faces: Ints) -> Ints:
    """Return the directed edges (k, 2) that no face meets from the other side."""
    edges = directed(faces)
    there, back = _keys(edges)
    known = np.sort(there)
    if np.array_equal(known, np.sort(back)):  # closed, as most are: no key need be looked for, each at a far place
        return np.empty((0, 2), dtype=edges.dtype)
    at = np.minimum(np.searchsorted(known, back), max(len(known) - 1, 0))
    met = known[at] == back if len(known) else np.empty(0, dtype=bool)
    gaps: Ints = edges[~met]
    return gaps


def some_doubled(faces: Ints) -> bool:
    """Return whether two faces run along an edge in the same direction: their windings disagree."""
    known = np.sort(_keys(directed(faces))[0])
    return bool((known[1:] == known[:-1]).any())


def neighbours(faces: Ints) -> tuple[Ints, NDArray[np.bool_]]:
    """Return pairs of faces (p, 2) that alone share an edge, and whether their windings agree there (p,)."""
    edges = directed(faces)
    there, back = _keys(edges)
    either = np.minimum(there, back)
    order = np.argsort(either, kind="stable")
    start = np.flatnonzero(np.diff(either[order], prepend=-1))
    count = np.diff(np.append(start, len(order)))
    two = start[count == 2]
    first, second = order[two], order[two + 1]
    return np.column_stack([first // 3, second // 3]), there[first] != there[second]


def crowded_n(faces: Ints) -> int:
    """Return the number of edges that join more than two faces."""
    there, back = _keys(directed(faces))
    _, count = np.unique(np.minimum(there, back), return_counts=True)
    return int((count > 2).sum())
