"""Reach of a drill: what of a part stands before each mouth of a bore, and beside it where the chuck turns."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import manifold3d
import numpy as np

from planner.mesh import Solid
from planner.survey import Bore

CHUCK_MM = 36.0
"""Outside diameter of the chuck of a hand drill; common practice, no source."""
LOOK_MM = 150.0
"""So far before a mouth a jobber drill and its chuck stand."""
START_MM = 0.3
"""The way begins so far outside the bore, so that the face beside it is not in it."""
TOUCH_MM3 = 0.1
"""Less than this of a part in the way is its rounding."""
DRILL_SHARE = 0.9
"""Share of the bore's diameter in which the way must be free: a bore before it on its axis is in no drill's way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreEnd:
    """What the part itself puts in a drill's way at one mouth, in mm from it outward, as drawn.

    ``way`` is the unit vector out of the mouth; ``free_mm`` is None where the axis is free, 0 where the bore ends
    there; ``beside_mm`` is how far matter stands out beside the axis, within the chuck's radius.
    """

    way: tuple[float, float, float]
    free_mm: float | None
    beside_mm: float


@dataclass(frozen=True, slots=True)
class DrillReach:
    """Measures the mouths of bores in single parts, as they are drilled; each once, when it is asked for."""

    solids: Mapping[str, Solid]
    _found: dict[tuple[str, Bore], tuple[BoreEnd, ...]] = field(default_factory=dict)

    def ends(self, part: str, bore: Bore) -> tuple[BoreEnd, ...]:
        """Return both mouths of a bore; none where its part is no closed body (its mesh is a hold then)."""
        key = part, bore
        if key not in self._found:
            body = self.solids[part].manifold
            self._found[key] = () if body is None else tuple(_end(body, bore, sign) for sign in (1.0, -1.0))
        return self._found[key]


def _end(body: manifold3d.Manifold, bore: Bore, sign: float) -> BoreEnd:
    """Return what stands before and beside one mouth."""
    way = sign * np.asarray(bore.axis, dtype=np.float64)
    mouth = np.asarray(bore.centre_mm, dtype=np.float64) + way * bore.depth_mm / 2
    before = _along(body, mouth, way, DRILL_SHARE * bore.diameter_mm / 2)
    beside = _along(body, mouth, way, CHUCK_MM / 2)
    floor = 2 * START_MM if bore.through else bore.diameter_mm  # a blind bore may end in a cone or a ball
    free = None if before is None else 0.0 if before[0] < floor else before[0]
    return BoreEnd(
        way=(float(way[0]), float(way[1]), float(way[2])),
        free_mm=free,
        beside_mm=0.0 if beside is None else beside[1],
    )


def _along(
    body: manifold3d.Manifold, mouth: np.ndarray, way: np.ndarray, radius_mm: float
) -> tuple[float, float] | None:
    """Return where matter begins and ends in a round way out of a mouth, in mm; None where there is none."""
    across = np.eye(3)[int(np.argmin(np.abs(way)))]
    x = np.cross(across, way)
    x /= np.linalg.norm(x)
    turn = np.column_stack([x, np.cross(way, x), way, mouth + way * START_MM])
    inside = body ^ manifold3d.Manifold.cylinder(LOOK_MM, radius_mm, radius_mm, 32).transform(turn)
    if float(inside.volume()) <= TOUCH_MM3:
        return None
    ahead = (np.asarray(inside.to_mesh().vert_properties)[:, :3] - mouth) @ way
    return float(ahead.min()), float(ahead.max())
