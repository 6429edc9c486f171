"""From loose triangles to a closed surface: only what is unambiguous is repaired, and each repair is named."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.mesh.formats.soup import Soup
from planner.mesh.repair.bodies import bodies, outward, united
from planner.mesh.repair.edges import crowded_n, open_edges
from planner.mesh.repair.seams import dropped, merged_equal, merged_seams
from planner.mesh.repair.winding import closed_holes, wound
from planner.mesh.solid import Solid

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Healed:
    """A surface in the file's unit, what was repaired, and what is still wrong."""

    vertices: Floats
    faces: Ints
    healed: tuple[str, ...]
    faults: tuple[str, ...]
    bodies_n: int


def healed(soup: Soup) -> Healed:
    """Merge seams, drop triangles without area, set the winding, close tiny holes; name what stays wrong."""
    told: list[str] = []
    vertices, faces = merged_equal(soup.vertices, soup.faces)
    if len(open_edges(faces)):
        vertices, faces = merged_seams(vertices, faces, told)
    faces = dropped(faces, told)
    if not len(faces):
        return Healed(
            vertices=vertices, faces=faces, healed=tuple(told), faults=("it has no surface left",), bodies_n=0
        )
    faces = wound(faces, told)
    vertices, faces = closed_holes(vertices, faces, told)
    bodies_n, body = bodies(vertices, faces)
    faults = _gaps(faces)
    if not faults:
        faces = outward(vertices, faces, body, told)
        faults = _faults(vertices, faces)
    if not faults:
        vertices, faces, bodies_n = united(vertices, faces, body, told)
    used = np.zeros(len(vertices), dtype=bool)  # points that no triangle uses have no say in the size
    used[faces] = True
    place = np.cumsum(used) - 1
    return Healed(vertices=vertices[used], faces=place[faces], healed=tuple(told), faults=faults, bodies_n=bodies_n)


def _gaps(faces: Ints) -> tuple[str, ...]:
    """Name the edges where a surface is open."""
    gaps = len(open_edges(faces))
    return (f"open at {gaps} edges",) if gaps else ()


def _faults(vertices: Floats, faces: Ints) -> tuple[str, ...]:
    """Name what keeps a closed surface from enclosing a volume."""
    probe = Solid(name="", vertices_mm=vertices, faces=faces, sha256="")
    if abs(probe.volume_mm3) < 1e-12 * float(np.ptp(vertices, axis=0).max()) ** 3:
        return ("it encloses no volume",)
    if probe.manifold is None:
        many = crowded_n(faces)
        told = f"{many} edges join more than two faces" if many else "its surface touches itself"
        return (f"{told} (not a manifold)",)
    return ()
