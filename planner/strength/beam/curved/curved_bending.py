"""Stress of pull and bending in a curved bar, by Winkler and Bach: fibres nearer to the centre are shorter.

Plane sections stay plane, so that a fibre grows by a + b x + c y whatever its length; its stress is that over its
radius r. The three constants follow from the pull and the two moments. Bent in its plane that is the textbook's
M y / (A e (r_n - y)) with r_n = A / ∫dA/r (Winkler 1858, Bach 1889; Timoshenko, Strength of Materials, part II; Young
and Budynas, Roark's Formulas for Stress and Strain, chapter 9; all from memory), and with no curve Navier's.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.strength.beam.curved.curved_way import Curve
from planner.strength.beam.skin_and_core import Zones

Floats = NDArray[np.float64]
GAUSS_N = 8
"""Points on every edge: 1 / r from 0.1 to 1.1 of a depth comes out within 0.1 %."""


def fibre_stress_mpa(zones: Zones, curve: Curve, pull_n: float, bends_n_mm: Floats, places_mm: Floats) -> Floats:
    """Return stress (n,) along the fibres at places (n, 2) of a section.

    ``bends_n_mm`` are the sums of stress times x and times y about the centroid.
    """
    centre = zones.moments.centre_mm
    radius_mm = float(curve.radius_mm(centre[None])[0])
    constants = fibre_constants(zones, curve, pull_n, bends_n_mm)
    off = np.column_stack([np.ones(len(places_mm)), places_mm - centre])
    return np.asarray(off @ constants * radius_mm / curve.radius_mm(places_mm))


def fibre_constants(zones: Zones, curve: Curve, pull_n: float, bends_n_mm: Floats) -> Floats:
    """Return a in MPa, b and c in MPa/mm: a + b x + c y from the centroid, times its radius over r, is the stress."""
    centre = zones.moments.centre_mm
    radius_mm = float(curve.radius_mm(centre[None])[0])
    whole, core = (_shortened(edges, curve, centre, radius_mm) for edges in zones.edges_mm)
    return np.asarray(np.linalg.solve(whole + (zones.core_share - 1.0) * core, np.array([pull_n, *bends_n_mm])))


def _shortened(edges: Floats, curve: Curve, centre: Floats, radius_mm: float) -> Floats:
    """Return integrals (3, 3) of R / r times 1, x, y by 1, x, y about a centre, in what edges go round.

    Along ``inward`` r changes and across it not: by Green's theorem the integral over a strip is taken on its edges.
    """
    inward = curve.inward
    across = np.array([inward[1], -inward[0]])  # across, inward: right-handed
    share, weight = np.polynomial.legendre.leggauss(GAUSS_N)
    share, weight = (share + 1.0) / 2.0, weight / 2.0
    points = edges[:, :1] + share[:, None] * (edges[:, 1:] - edges[:, :1])
    s, t = (points - centre) @ across, (points - centre) @ inward
    step = ((edges[:, 1] - edges[:, 0]) @ inward)[:, None] * weight
    each = step * radius_mm / curve.radius_mm(points)
    own = np.zeros((3, 3))
    for row, column in np.ndindex(3, 3):
        power_s, power_t = (row == 1) + (column == 1), (row == 2) + (column == 2)
        own[row, column] = float((each * s ** (power_s + 1) / (power_s + 1) * t**power_t).sum())
    turn = np.eye(3)
    turn[1:, 1:] = np.array([across, inward])
    return np.asarray(turn.T @ own @ turn)
