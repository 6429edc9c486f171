"""How near a stress is to breaking a printed solid: one quadratic index over strengths by direction.

A print is weaker from layer to layer than in the layers' plane, and alike in every direction of that plane. The index
is the quadratic one of Hill (1948, "A theory of the yielding and plastic flow of anisotropic metals", Proc. R. Soc. A
193, doi 10.1098/rspa.1948.0045) as Azzi and Tsai (1965, "Anisotropic strength of composites", Experimental Mechanics
5, doi 10.1007/BF02326292) wrote it for a plane; here for all six stresses, with 3 as the layer normal::

    (s1² - s1 s2 + s2² + 3 t12²) / X² - (s1 + s2) s3 / max(X, Z)² + s3² / Z² + (t13² + t23²) / S²

A pull at an angle to the layers gives Azzi and Tsai's formula; X = Z = √3 S gives von Mises. Hill's own form for a
solid whose one odd axis is the weak one is not used: where Z is under half of X its shear term in the layers' plane
is negative. This index is never negative. Signs do not count: a push is taken to break as a pull does, which is on the
careful side across the layers.

On printed PETG at 45°, Popa, Galatanu and Marsavina (2025, Fracture and Structural Integrity 73, doi
10.3221/IGF-ESIS.73.11) found the formula within 3.5 % of what broke with contours and 0.6 % without, from strengths at
0° and 90° and a measured shear strength; those are lines in a layer, and excerpts alone were read. Printed PLA at 0°,
45° and 90°, again lines in a layer, broke at 58, 64 and 54 MPa (Letcher and Waytashek 2014, doi
10.1115/IMECE2014-39379, from the abstract): the tests come within 6 % of the 64. No table at angles to the layers could
be read, and none of ABS: of Zohdi, Nguyen and Yang (2024, doi 10.3390/app14051870) the beginning alone, no figures.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Strengths:
    """Strengths of a printed solid by direction."""

    along_mpa: float
    """Pulled in the plane of the layers."""
    across_mpa: float
    """Pulled along the layer normal."""
    shear_mpa: float
    """Sheared from layer to layer."""

    def __post_init__(self) -> None:
        if min(self.along_mpa, self.across_mpa, self.shear_mpa) <= 0.0:
            raise ValueError(f"a strength must be above zero: {self}")


def index(stress_mpa: Floats, normal: Floats, strengths: Strengths) -> Floats:
    """Return the quadratic index of stresses (..., 3, 3), 1 at the strength, for layers stacked along ``normal``.

    It needs no axes in the plane: with p = S n, s3 = n p, the squared shear between layers is p p - s3², and the terms
    in the plane follow from the trace of S and of S².

    >>> x, z = np.array([1.0, 0.0, 0.0]), np.array([0.0, 0.0, 1.0])
    >>> float(index(np.diag([0.0, 0.0, 30.0]), z, Strengths(along_mpa=50.0, across_mpa=30.0, shear_mpa=25.0)))
    1.0
    >>> float(index(np.diag([0.0, 0.0, 25.0]), x, Strengths(along_mpa=50.0, across_mpa=30.0, shear_mpa=25.0)))
    0.25
    """
    axis = np.asarray(normal, dtype=float)
    axis = axis / math.sqrt(axis @ axis)
    on_layer = stress_mpa @ axis
    across = on_layer @ axis
    shear_squared = np.einsum("...i,...i->...", on_layer, on_layer) - across**2
    in_plane_sum = (stress_mpa[..., 0, 0] + stress_mpa[..., 1, 1] + stress_mpa[..., 2, 2]) - across
    squares = np.einsum("...ij,...ij->...", stress_mpa, stress_mpa) - across**2 - 2.0 * shear_squared
    # s1² + s2² + 2 t12² = squares, so s1² - s1 s2 + s2² + 3 t12² = (3 squares - sum²) / 2.
    in_plane = 1.5 * squares - 0.5 * in_plane_sum**2
    together = max(strengths.along_mpa, strengths.across_mpa)
    found = (
        in_plane / strengths.along_mpa**2
        - in_plane_sum * across / together**2
        + (across / strengths.across_mpa) ** 2
        + np.maximum(shear_squared, 0.0) / strengths.shear_mpa**2
    )
    return np.asarray(np.maximum(found, 0.0))


def share_percent(stress_mpa: Floats, normal: Floats, strengths: Strengths) -> Floats:
    """Return stresses as a share of the strength, in percent: twice the load gives twice the share.

    >>> z = np.array([0.0, 0.0, 1.0])
    >>> float(share_percent(np.diag([0.0, 0.0, 15.0]), z, Strengths(along_mpa=50.0, across_mpa=30.0, shear_mpa=25.0)))
    50.0
    """
    return np.asarray(100.0 * np.sqrt(index(stress_mpa, normal, strengths)))


def torn(stress_mpa: Floats, normal: Floats, strengths: Strengths) -> Literal["along", "across"]:
    """Say whether layers come apart: whether the stress (3, 3) on the layers' plane gives most of the index.

    >>> z = np.array([0.0, 0.0, 1.0])
    >>> torn(np.diag([0.0, 0.0, 15.0]), z, Strengths(along_mpa=50.0, across_mpa=30.0, shear_mpa=25.0))
    'across'
    """
    flat = np.eye(3) - np.outer(normal, normal)
    whole, in_plane = (float(index(one, normal, strengths)) for one in (stress_mpa, flat @ stress_mpa @ flat))
    return "across" if in_plane < whole / 2.0 else "along"


def off_axis_strength_mpa(off_plane_deg: float, strengths: Strengths) -> float:
    """Return the strength under a pull at an angle to the layers' plane: 0° along the layers, 90° across them.

    1 / s² = c⁴ / X² + c² s² (1 / S² - 1 / X²) + s⁴ / Z² (Azzi and Tsai 1965; X the greater of X and Z in the middle).

    >>> off_axis_strength_mpa(90.0, Strengths(along_mpa=50.0, across_mpa=30.0, shear_mpa=25.0))
    30.0
    """
    along, across = math.cos(math.radians(off_plane_deg)) ** 2, math.sin(math.radians(off_plane_deg)) ** 2
    together = max(strengths.along_mpa, strengths.across_mpa)
    at_one = (
        (along / strengths.along_mpa) ** 2
        + along * across * (1.0 / strengths.shear_mpa**2 - 1.0 / together**2)
        + (across / strengths.across_mpa) ** 2
    )
    return round(1.0 / math.sqrt(at_one), 9)
