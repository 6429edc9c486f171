"""The weakest cut of a part as lines in its mesh, to be drawn."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.strength.beam.beam_pass import Weakest
from planner.strength.beam.cut_shapes import cuts_along
from planner.strength.beam.flat_moments import polygons_of

Floats = NDArray[np.float64]
LINE_MM = 0.05
"""So far a drawn line may lie off the true outline."""


def weakest_section(weak: Weakest, solid: Solid) -> tuple[Floats, ...]:
    """Return the closed outlines (n, 3) of the weakest cut, holes too, in the frame of the drawn mesh."""
    at, normal = np.array(weak.cut_at_mm), np.array(weak.normal)
    return tuple(
        cut.at_mm + np.asarray(ring.coords)[:-1, :2] @ cut.axes[:2]
        for cut, shape, _ in cuts_along(solid, at, at + normal, (0.0,))
        for polygon in polygons_of(shapely.simplify(shape, LINE_MM))
        for ring in (polygon.exterior, *polygon.interiors)
    )
