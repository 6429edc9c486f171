"""Axes that are parallel or square to each other but for what a mesh and its rounding lose, made exactly so.

A planar loop of four joints closes over its range only where its axes are exactly parallel: bores that are surveyed to
a millionth of a degree would already lock it. What is really out by less than a pin's play lets it is no lock, either.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from planner.mechanism.joints.moving_joint import MovingJoint

ALIKE_COS = 0.9999
"""Axes within 0.8 degrees are parallel: a pin with 0.1 mm of play in a bore 7 mm deep tilts as far; own judgement."""
SQUARE_COS = 0.014
"""Axes as near to a right angle are square to each other."""
Floats = NDArray[np.float64]


def straight_axes(joints: Sequence[MovingJoint]) -> tuple[MovingJoint, ...]:
    """Return the joints with axes that are nearly parallel made parallel, and those nearly square made square.

    A direction that most joints share stays; the others follow.
    """
    clusters: list[list[int]] = []
    lines = [(n, "axis", joint.axis) for n, joint in enumerate(joints)]
    lines += [(n, "about", joint.about) for n, joint in enumerate(joints) if joint.about is not None]
    axes = [np.asarray(line) for _, _, line in lines]
    for n, axis in enumerate(axes):
        mine = next((one for one in clusters if abs(float(axes[one[0]] @ axis)) > ALIKE_COS), None)
        if mine is None:
            clusters.append([n])
        else:
            mine.append(n)
    found = list(joints)
    settled: list[Floats] = []
    for cluster in sorted(clusters, key=len, reverse=True):
        way = _squared(_mean([axes[n] for n in cluster]), settled)
        settled.append(way)
        for n in cluster:
            x, y, z = way if float(way @ axes[n]) > 0 else -way
            at, name, _ = lines[n]
            line = (float(x), float(y), float(z))
            found[at] = replace(found[at], axis=line) if name == "axis" else replace(found[at], about=line)
    return tuple(found)


def _mean(axes: Sequence[Floats]) -> Floats:
    """Return the direction of several, each taken in the sense of the first."""
    total = np.sum([axis if float(axis @ axes[0]) > 0 else -axis for axis in axes], axis=0)
    found: Floats = total / np.linalg.norm(total)
    return found


def _squared(way: Floats, settled: Sequence[Floats]) -> Floats:
    """Return a direction made square to those that it is nearly square to."""
    near = [other for other in settled if abs(float(other @ way)) < SQUARE_COS]
    if not near:
        return way
    _, sizes, basis = np.linalg.svd(np.array(near))
    for other in basis[: int(np.sum(sizes > 0.1))]:
        way = way - other * float(other @ way)
    found: Floats = way / np.linalg.norm(way)
    return found
