"""Stress towards the centre of a bend: a moment that opens it pulls its layers apart from inside to outside.

What the fibres inside a radius carry turns with the bend, and the material at that radius must hold it: their force
over the radius and the width there (equilibrium; Boresi and Schmidt, Advanced Mechanics of Materials, curved beams,
from memory). The exact plane solution for a rectangle (Golovin 1881; Timoshenko and Goodier, section 29, from memory)
comes out within 5 %. Of a pull along the bend the change of the shear takes up the turn, so that bending counts alone.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.strength.beam.curved.curved_bending import fibre_stress_mpa
from planner.strength.beam.curved.curved_way import Curve
from planner.strength.beam.flat_moments import beyond_line
from planner.strength.beam.skin_and_core import Zones

Floats = NDArray[np.float64]
STATIONS_N = 17
"""Radii between the inside and the outside of a section: the greatest stress of a rectangle is found within 1 %."""
LEAST_WIDE = 0.05
"""Next to its ends, where a section is under this share of its mean width, nothing is told: it is its surface."""


def radial_stress_mpa(zones: Zones, curve: Curve, bends_n_mm: Floats) -> float:
    """Return the greatest stress towards the centre of a bend, by size; it pulls where the bend is opened.

    ``bends_n_mm`` are the sums of stress times x and times y about the centroid.
    """
    centre, inward = zones.moments.centre_mm, curve.inward
    reach = (zones.points_mm - centre) @ inward
    ends = np.linspace(reach.min(), reach.max(), STATIONS_N + 1)
    places = (ends[1:] + ends[:-1]) / 2.0
    points = centre + places[:, None] * inward
    wide = np.array([_wide_mm(zones, point, inward) for point in points])
    bent = fibre_stress_mpa(zones, curve, 0.0, float(bends_n_mm @ inward) * inward, points)
    force = np.cumsum((bent * wide)[::-1])[::-1] * (ends[1] - ends[0])  # of all fibres from a station inward
    inner = centre + ends[1:-1, None] * inward
    between = (wide[1:] + wide[:-1]) / 2.0
    told = between > LEAST_WIDE * wide.mean()
    stress = force[1:][told] / (between[told] * curve.radius_mm(inner)[told])
    return float(stress[np.abs(stress).argmax()]) if told.any() else 0.0


def _wide_mm(zones: Zones, point: Floats, inward: Floats) -> float:
    """Return how wide a section is at a place square to a direction, its core by its stiffness."""
    (_, whole), (_, core) = (beyond_line(edges, point, inward) for edges in zones.edges_mm)
    return float(whole + (zones.core_share - 1.0) * core)
