"""What must be kept in mind where a device is printed mirrored: answers are as drawn."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

import numpy as np

from planner.cache import kept, key_of
from planner.job import Job
from planner.mesh import Solid
from planner.phrases import listed

SYMMETRY_VERSION = 1
"""Raised whenever a result changes, so that kept ones are not trusted."""
ALIKE_SHARE = 0.995
"""A body that shares so much with its mirror image is alike on both sides."""


def mirrored_notes(job: Job, solids: Mapping[str, Solid]) -> tuple[str, ...]:
    """Return notes about a mirrored device: which way it turns, and parts that stay as drawn and are not symmetric."""
    if not job.size.mirrored or not any(part.handed for part in job.parts):
        return ()
    printed = f"the device is printed mirrored for the {job.size.side}"
    notes = [
        f"angles and places here are as drawn; {printed}, so the printed joint turns the other way for a positive angle"
    ]
    odd = [part.name for part in job.parts if not part.handed and not symmetric(solids[part.name])]
    if odd:
        notes.append(
            f"not symmetric, and not marked as handed: {listed(odd)}. The results hold only if they fit the "
            "mirrored parts as well as the drawn ones"
        )
    return tuple(notes)


@lru_cache(maxsize=256)
def symmetric(solid: Solid) -> bool:
    """Return whether a body is its own mirror image; a mesh with faults is taken as one that is not.

    A plane of symmetry goes through the centre of mass, square to a principal axis (textbook); where two of these are
    alike, the mesh's own axes are tried as well.
    """
    key = key_of("symmetric", SYMMETRY_VERSION, solid.vertices_mm, solid.faces, solid.faults)
    return kept("mechanism", key, bool, lambda: _symmetric(solid))


def _symmetric(solid: Solid) -> bool:
    """Look for a plane of symmetry."""
    shape = solid.manifold
    if shape is None:
        return False
    centre = np.asarray(solid.trimesh.center_mass)
    _, axes = np.linalg.eigh(np.asarray(solid.trimesh.moment_inertia))
    moved = shape.translate(tuple(-centre))
    for axis in (*axes.T, *np.eye(3)):
        shared = float((moved ^ moved.mirror(tuple(axis))).volume())
        if shared > ALIKE_SHARE * float(moved.volume()):
            return True
    return False
