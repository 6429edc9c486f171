"""Stiffness of a printed solid: alike in every direction of its layers' plane, softer across them.

Engineering constants as in Jones (1999, Mechanics of Composite Materials, chapter 2, from memory), 3 the layer normal.
The shear modulus between layers follows from both moduli by Huber's estimate (Lekhnitskii 1963, from memory):
1/G = 1/E along + (1 + 2 v)/E across, which is exact for a solid alike in all directions. Stresses and strains are
written xx, yy, zz, yz, xz, xy, strains of shear as engineers count them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3

Floats = NDArray[np.float64]
PAIRS = ((0, 0), (1, 1), (2, 2), (1, 2), (0, 2), (0, 1))
"""Which two directions each of the six stresses has."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moduli:
    """Elastic constants of a printed solid."""

    along_mpa: float
    """Young's modulus in the plane of the layers."""
    across_mpa: float
    """Young's modulus along the layer normal."""
    poisson_ratio: float
    """In the plane of the layers; from layer to layer it is the same share of a pull along them."""


def stiffness_mpa(moduli: Moduli, normal: Vec3) -> Floats:
    """Return the 6 by 6 stiffness in the mesh's frame: stress = stiffness times strain.

    >>> alike = stiffness_mpa(Moduli(along_mpa=1000.0, across_mpa=1000.0, poisson_ratio=0.0), (0.0, 0.0, 1.0))
    >>> [round(float(value), 6) for value in np.diag(alike)]
    [1000.0, 1000.0, 1000.0, 500.0, 500.0, 500.0]
    """
    along, across, nu = moduli.along_mpa, moduli.across_mpa, moduli.poisson_ratio
    if min(along, across) <= 0.0 or 1.0 - nu - 2.0 * nu**2 * across / along <= 0.0:
        raise ValueError(f"no solid has these moduli: {moduli}")
    between = 1.0 / (1.0 / along + (1.0 + 2.0 * nu) / across)
    own = np.diag([1.0 / along, 1.0 / along, 1.0 / across, 1.0 / between, 1.0 / between, 2.0 * (1.0 + nu) / along])
    own[0, 1] = own[1, 0] = own[0, 2] = own[2, 0] = own[1, 2] = own[2, 1] = -nu / along
    turn = strain_turn(frame_of(normal))
    return np.asarray(turn.T @ np.linalg.inv(own) @ turn)


def frame_of(normal: Vec3) -> Floats:
    """Return three directions as rows, the last one the layer normal."""
    axis = np.array(normal) / math.sqrt(sum(part**2 for part in normal))
    first = np.cross(axis, np.eye(3)[int(np.argmin(np.abs(axis)))])
    first /= np.linalg.norm(first)
    return np.array([first, np.cross(axis, first), axis])


def strain_turn(rows: Floats) -> Floats:
    """Return what takes six strains from the mesh's frame into that of ``rows``: e' = R e R^T, column by column."""
    columns = []
    for i, j in PAIRS:
        strain = np.zeros((3, 3))
        strain[i, j] = strain[j, i] = 1.0 if i == j else 0.5
        turned = rows @ strain @ rows.T
        columns.append([turned[a, b] * (1.0 if a == b else 2.0) for a, b in PAIRS])
    return np.array(columns).T


def as_tensors(six: Floats) -> Floats:
    """Return stresses (..., 6) as (..., 3, 3)."""
    places = np.array([[0, 5, 4], [5, 1, 3], [4, 3, 2]])
    return np.asarray(six[..., places])
