"""Strength: sections in pull, bending, shear and torsion, and the criterion, against handbooks."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
import shapely

from planner.strength import Strengths, index, off_axis_strength_mpa
from planner.strength.beam.cut_stress import stress_in
from planner.strength.beam.skin_and_core import core_stiffness_share, zones_of
from planner.strength.beam.torsion import solid_torsion
from tests.accuracy.row import Row

TORSION = (
    (1.0, 0.208, 0.1406),
    (1.2, 0.219, 0.166),
    (1.5, 0.231, 0.196),
    (2.0, 0.246, 0.229),
    (3.0, 0.267, 0.263),
    (5.0, 0.291, 0.291),
)
"""Long side over short, then alpha and beta."""
ROUND = shapely.Point(0, 0).buffer(4, quad_segs=64)
TUBE = shapely.Point(0, 0).buffer(10.5, quad_segs=64).difference(shapely.Point(0, 0).buffer(9.5, quad_segs=64))
SOLID = zones_of(shapely.box(-3, -5, 3, 5), 9.0, 1.0)
UP = np.array([0.0, 1.0])
STUFF = Strengths(along_mpa=50.0, across_mpa=30.0, shear_mpa=24.0)
ALIKE = Strengths(along_mpa=40.0, across_mpa=40.0, shear_mpa=40.0 / math.sqrt(3.0))
STRESSES = ((20.0, 0.0, 0.0, 0.0), (20.0, -10.0, 5.0, 0.0), (0.0, 0.0, 0.0, 12.0))
"""Three normal stresses and a shear."""


def _index(stress: tuple[float, float, float, float]) -> float:
    """Return the index of a solid that is alike in all directions."""
    a, b, c, d = stress
    return float(index(np.array([[a, d, 0.0], [d, b, 0.0], [0.0, 0.0, c]]), np.array([0.0, 0.0, 1.0]), ALIKE))


def _shear(shape: shapely.Polygon) -> float:
    """Return the greatest shear over the mean one."""
    return float(zones_of(shape, 99.0, 1.0).shear_mpa_per_n(UP) * shape.area)


def strength_rows() -> Iterator[Row]:
    """Yield torsion, bending, shear, infill and criterion."""
    for ratio, alpha, beta in TORSION:
        bar = shapely.box(0, 0, 3 * ratio, 3)
        yield Row(
            source="timoshenko",
            what=f"beta of a bar {ratio:g} : 1",
            expected=beta,
            unit="",
            within=0.01 * beta,
            ours=lambda bar=bar, ratio=ratio: solid_torsion(bar).constant_mm4 / (81 * ratio),  # type: ignore[misc]
        )
        yield Row(
            source="timoshenko",
            what=f"alpha of a bar {ratio:g} : 1",
            expected=alpha,
            unit="",
            within=0.015 * alpha,
            ours=lambda bar=bar, ratio=ratio: 1 / (27 * ratio * solid_torsion(bar).shear_mpa_per_n_mm),  # type: ignore[misc]
        )
    yield Row(
        source="coulomb",
        what="J of a round bar of 8 mm",
        expected=math.pi * 128,
        unit="mm4",
        within=4.0,
        ours=lambda: solid_torsion(ROUND).constant_mm4,
    )
    yield Row(
        source="bredt",
        what="J of a tube, radius 10 mm, wall 1 mm",
        expected=2 * math.pi * 1000,
        unit="mm4",
        within=63.0,
        ours=lambda: solid_torsion(TUBE).constant_mm4,
    )
    for what, shape, ratio in (
        ("rectangle", shapely.box(0, 0, 4, 8), 1.5),
        ("circle", ROUND, 4 / 3),
        ("thin tube", shapely.Point(0, 0).buffer(10).difference(shapely.Point(0, 0).buffer(9.9)), 2.0),
    ):
        yield Row(
            source="jourawski",
            what=f"greatest shear over the mean, {what}",
            expected=ratio,
            unit="",
            within=0.02 * ratio,
            ours=lambda shape=shape: _shear(shape),  # type: ignore[misc]
        )
    yield Row(
        source="navier",
        what="600 N and 2000 N mm on 6 x 10 mm",
        expected=30.0,
        unit="MPa",
        within=1e-6,
        ours=lambda: float(
            stress_in(SOLID, np.array([0.0, 0.0, 600.0]), np.array([2000.0, 0.0, 0.0])).tensors_mpa[:, 2, 2].max()
        ),
    )
    for share in (0.2, 0.5):
        yield Row(
            source="gibson",
            what=f"stiffness of {share:.0%} infill over solid",
            expected=share**2,
            unit="",
            within=1e-9,
            ours=lambda share=share: core_stiffness_share(share),  # type: ignore[misc]
        )
    for stress in STRESSES:
        a, b, c, d = stress
        yield Row(
            source="mises",
            what=f"index of {a:g}, {b:g}, {c:g} and shear {d:g} MPa at 40 MPa",
            expected=(0.5 * ((a - b) ** 2 + (b - c) ** 2 + (c - a) ** 2) + 3 * d * d) / 1600.0,
            unit="",
            within=1e-9,
            ours=lambda stress=stress: _index(stress),  # type: ignore[misc]
        )
    for deg in (30.0, 45.0, 60.0):
        flat, up = math.cos(math.radians(deg)), math.sin(math.radians(deg))
        yield Row(
            source="azzi",
            what=f"strength at {deg:g} degrees to the layers",
            expected=(flat**4 / 50**2 + (1 / 24**2 - 1 / 50**2) * (flat * up) ** 2 + up**4 / 30**2) ** -0.5,
            unit="MPa",
            within=1e-6,
            ours=lambda deg=deg: off_axis_strength_mpa(deg, STUFF),  # type: ignore[misc]
        )
