"""A written plate is read back by itself: every copy is there once, at its place, standing on the bed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from stl import mesh as stl_mesh

from planner.errors import MeshError
from planner.job import Bed
from planner.packing.layout.plate import Placement
from planner.phrases import listed

try:
    import lib3mf
except ImportError:  # no wheel for this platform; nothing was written either
    lib3mf = None

NEAR_MM = 0.05
"""An outline is simplified by 0.02 mm, which moves the middle of its box by no more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadCopy:
    """One copy in a file: its name, its box and the middle of that, how low it reaches, and its triangles."""

    name: str
    box_mm: tuple[float, float, float, float]
    middle_mm: tuple[float, float]
    low_mm: float
    triangles_n: int


def copies_in_3mf(path: Path) -> list[ReadCopy]:
    """Return the build items of a 3MF, named by their part numbers."""
    model = lib3mf.get_wrapper().CreateModel()
    model.QueryReader("3mf").ReadFromFile(str(path))
    found, items = list[ReadCopy](), model.GetBuildItems()
    bodies: dict[int, tuple[NDArray[np.float64], int]] = {}
    while items.MoveNext():
        item = items.GetCurrent()
        number = item.GetObjectResourceID()
        if number not in bodies:
            body = model.GetMeshObjectByID(number)
            corners = np.array([list(vertex.Coordinates) for vertex in body.GetVertices()])
            bodies[number] = corners, body.GetTriangleCount()
        points, triangles = bodies[number]
        fields = np.array([list(row) for row in item.GetObjectTransform().Fields])
        points = points @ fields[:3] + fields[3]  # points are rows in the standard
        found.append(_copy(item.GetPartNumber(), points, triangles))
    return found


def copies_in_stl(path: Path, placements: Sequence[Placement], triangles_n: Sequence[int]) -> list[ReadCopy]:
    """Return the copies of an STL, which has no names: its triangles in the order and number of the placements."""
    corners = stl_mesh.Mesh.from_file(str(path), remove_empty_areas=False).vectors
    ends = np.cumsum(triangles_n)
    if len(corners) != ends[-1]:
        _refuse(path, f"it holds {len(corners)} triangles instead of {ends[-1]}")
    parts = np.split(corners.astype(np.float64), ends[:-1])
    names = [f"{place.part} {place.copy}" for place in placements]
    return [_copy(name, part.reshape(-1, 3), len(part)) for name, part in zip(names, parts, strict=True)]


def compare(
    path: Path,
    found: Sequence[ReadCopy],
    meant: Sequence[Placement],
    triangles_n: Sequence[int],
    bed: Bed | None = None,
) -> None:
    """Refuse a file whose copies are not those meant; ``bed`` is that of the printer that the plate is for.

    Raises
    ------
    MeshError
        A copy is missing, one too many, elsewhere, off the bed, or has other triangles.
    """
    counted, asked = Counter(copy.name for copy in found), Counter(f"{p.part} {p.copy}" for p in meant)
    if counted != asked:
        names = sorted({*(counted - asked), *(asked - counted)})
        _refuse(path, f"it does not hold {listed(names)} as often as the plan does")
    by_name = {copy.name: copy for copy in found}
    for place, triangles in zip(meant, triangles_n, strict=True):
        copy = by_name[f"{place.part} {place.copy}"]
        off = max(abs(copy.middle_mm[0] - place.x_mm), abs(copy.middle_mm[1] - place.y_mm))
        if off > NEAR_MM:
            _refuse(path, f"{copy.name} lies {off:.3f} mm off its place")
        if abs(copy.low_mm) > NEAR_MM:
            _refuse(path, f"{copy.name} stands {copy.low_mm:.3f} mm off the bed")
        if bed is not None and (min(copy.box_mm[:2]) < -NEAR_MM or _over(copy, bed) > NEAR_MM):
            _refuse(path, f"{copy.name} extends beyond the bed of {bed.size_mm[0]:g} x {bed.size_mm[1]:g} mm")
        if copy.triangles_n != triangles:
            _refuse(path, f"{copy.name} has {copy.triangles_n} triangles instead of {triangles}")


def _copy(name: str, points_mm: NDArray[np.float64], triangles_n: int) -> ReadCopy:
    """Return what is compared of one copy."""
    low, high = points_mm.min(axis=0), points_mm.max(axis=0)
    middle = (float(low[0] + high[0]) / 2, float(low[1] + high[1]) / 2)
    box = float(low[0]), float(low[1]), float(high[0]), float(high[1])
    return ReadCopy(name=name, box_mm=box, middle_mm=middle, low_mm=float(low[2]), triangles_n=triangles_n)


def _over(copy: ReadCopy, bed: Bed) -> float:
    """Return by how much a copy reaches beyond the far edges of a bed's box."""
    return max(copy.box_mm[2] - bed.size_mm[0], copy.box_mm[3] - bed.size_mm[1])


def _refuse(path: Path, wrong: str) -> None:
    """Refuse a file, and take it away: nobody should print it."""
    path.unlink(missing_ok=True)
    raise MeshError(
        where=path.name, wrong=f"the file that was written is not the plate: {wrong}", todo="report this, with the job"
    )
