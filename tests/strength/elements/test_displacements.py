"""Elements against closed forms: each promise names its textbook, all from memory."""

from __future__ import annotations

import os

import manifold3d
import numpy as np
import pytest

from planner.strength.elements.nodal_forces import Press, surface_of
from planner.strength.elements.tetrahedra import tetrahedra_of
from tests.shapes import bored_plate, cuboid, cylinder, solid_of, tube
from tests.strength.elements.bars import stressed

WHOLE = os.environ.get("FITWRIGHT_WHOLE_GRID", "") not in ("", "0")
"""The finest mesh of the bored plate takes eight seconds."""
BAR = cuboid(60.0, 6.0, 6.0)


def test_a_cantilever_bends_as_the_beam_formula_says() -> None:
    """Timoshenko, Strength of Materials: s = M z / I between the ends, within 5 % of the stress at the root."""
    loads = [
        Press(at_mm=(60.0, 3.0, 3.0), force_n=(0.0, 0.0, -10.0), patch_mm=2.5),
        Press(at_mm=(0.0, 3.0, 3.0), force_n=(0.0, 0.0, 10.0), couple_n_mm=(0.0, -600.0, 0.0), patch_mm=2.5),
    ]
    at, stress, _ = stressed(BAR, loads, 3.0)
    between = (at[:, 0] > 12.0) & (at[:, 0] < 48.0)
    wanted = 10.0 * (60.0 - at[:, 0]) * (at[:, 2] - 3.0) / (6.0**4 / 12.0)

    assert np.abs(stress[:, 0] - wanted)[between].max() < 0.05 * 600.0 / 36.0


def test_three_points_bend_a_bar_to_f_l_over_4_w() -> None:
    """Roark: M = F L / 4 under the middle load; the pulled side a bar's height away from the load shows M z / I."""
    loads = [
        Press(at_mm=(30.0, 3.0, 6.0), force_n=(0.0, 0.0, -20.0), patch_mm=2.0),
        Press(at_mm=(5.0, 3.0, 0.0), force_n=(0.0, 0.0, 10.0), patch_mm=2.0),
        Press(at_mm=(55.0, 3.0, 0.0), force_n=(0.0, 0.0, 10.0), patch_mm=2.0),
    ]
    at, stress, _ = stressed(BAR, loads, 3.0)
    arm = np.where(at[:, 0] < 30.0, at[:, 0] - 5.0, 55.0 - at[:, 0])
    away = (arm > 8.0) & (np.abs(at[:, 0] - 30.0) > 8.0)
    wanted = 10.0 * arm * (3.0 - at[:, 2]) / (6.0**4 / 12.0)

    assert np.abs(stress[:, 0] - wanted)[away].max() < 0.05 * 10.0 * 25.0 / 36.0


@pytest.mark.parametrize(("edge_mm", "within"), [(3.0, 0.15), (1.5, 0.05)])
def test_a_square_bar_is_twisted_to_t_over_0_208_a3(edge_mm: float, within: float) -> None:
    """Timoshenko, Theory of Elasticity: the greatest shear at the middle of a side; the finer mesh is nearer."""
    loads = [
        Press(at_mm=(x, 3.0, 3.0), force_n=(0.0, 0.0, 0.0), couple_n_mm=(couple, 0.0, 0.0), patch_mm=2.9)
        for x, couple in ((0.0, -100.0), (30.0, 100.0))
    ]
    at, stress, _ = stressed(cuboid(30.0, 6.0, 6.0), loads, edge_mm, points=np.eye(4))
    side = (np.abs(at[:, 0] - 15.0) < 5.0) & (np.abs(at[:, 1] - 3.0) < 0.5) & (at[:, 2] > 5.99)
    found = np.abs(stress[side, 5])

    assert side.any()
    assert found.mean() == pytest.approx(100.0 / (0.208 * 6.0**3), rel=within)


@pytest.mark.parametrize(("edge_mm", "within"), [(0.6, 0.12), *([(0.3, 0.05)] if WHOLE else [])])
def test_a_bore_in_a_pulled_plate_triples_the_stress(edge_mm: float, within: float) -> None:
    """Peterson (Howland 1930): 3.03 times the pull at the bore's side for d / W = 0.1, at the surface, not averaged."""
    plate = bored_plate(60.0, 40.0, 3.0, [(30.0, 20.0, 4.0, 96)])
    finer = [((x, y, z), edge_mm) for x in (29.6, 30.0, 30.4) for y in (18.0, 22.0) for z in (0.0, 1.0, 2.0, 3.0)]
    cells = tetrahedra_of(plate, 4.0, finer)
    sides = surface_of(cells)
    force = np.zeros_like(cells.nodes_mm)
    for x, pull_n in ((0.0, -120.0), (60.0, 120.0)):  # an even pull on the whole end
        end = np.abs(cells.nodes_mm[sides[:, :3], 0] - x).max(axis=1) < 1e-6
        corners = cells.nodes_mm[sides[end, :3]]
        area = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1) / 2.0
        share = np.bincount(sides[end, 3:].ravel(), np.repeat(area / 3.0, 3), minlength=len(force)) / area.sum()
        force[:, 0] += share * pull_n
    at, stress, _ = stressed(plate, force, 4.0, points=np.eye(4), cells=cells)
    beside = (np.abs(at[:, 0] - 30.0) < 0.15) & (np.abs(np.abs(at[:, 1] - 20.0) - 2.0) < 0.02)

    assert beside.any()
    assert stress[beside, 0].mean() == pytest.approx(3.03, rel=within)


def test_a_ring_under_pressure_is_lames() -> None:
    """Lamé 1852: the hoop stress at the bore is p (b² + a²) / (b² - a²), and at the rim 2 p a² / (b² - a²)."""
    ring = tube(20.0, 10.0, 3.0)
    cells = tetrahedra_of(ring, 2.0)
    sides = surface_of(cells)
    corners = cells.nodes_mm[sides[:, :3]]
    wall = (np.abs(np.linalg.norm(corners[..., :2], axis=-1) - 5.0) < 0.1).all(axis=1)
    normal = np.cross(corners[wall, 1] - corners[wall, 0], corners[wall, 2] - corners[wall, 0]) / 2.0
    outward = normal * np.sign((normal * corners[wall].mean(axis=1) * [1, 1, 0]).sum(axis=1))[:, None]
    force = np.zeros_like(cells.nodes_mm)
    np.add.at(force, sides[wall, 3:].ravel(), np.repeat(outward / 3.0, 3, axis=0))
    at, stress, _ = stressed(ring, force, 2.0, points=np.eye(4), cells=cells)
    radius, angle = np.hypot(at[:, 0], at[:, 1]), np.arctan2(at[:, 1], at[:, 0])
    s, c = np.sin(angle), np.cos(angle)
    hoop = stress[:, 0] * s**2 + stress[:, 1] * c**2 - 2.0 * stress[:, 5] * s * c

    assert hoop[radius < 5.02].mean() == pytest.approx(125.0 / 75.0, rel=0.05)
    assert hoop[radius > 9.98].mean() == pytest.approx(50.0 / 75.0, rel=0.05)


def test_a_curved_bar_bends_as_winkler_says() -> None:
    """Winkler 1858 (Timoshenko): M (rn - ri) / (A e ri) inside, 29 % over the straight bar's 6 M / (t h²), within 5 %."""
    ring = cylinder(20.0, 4.0, 96) - cylinder(10.0, 4.0, 96)
    half = solid_of(ring ^ manifold3d.Manifold.cube((40.0, 20.0, 20.0)).translate((-20.0, 0.0, -10.0)))
    middle = float(half.bounds_mm[:, 2].mean())
    loads = [
        Press(at_mm=(x, 0.0, middle), force_n=(0.0, 0.0, 0.0), couple_n_mm=(0.0, 0.0, couple), patch_mm=2.9)
        for x, couple in ((-7.5, 100.0), (7.5, -100.0))
    ]
    at, stress, _ = stressed(half, loads, 1.4, points=np.eye(4))
    top = (np.abs(at[:, 0]) < 1.5) & (np.hypot(at[:, 0], at[:, 1]) < 5.02)
    neutral = 5.0 / np.log(2.0)
    wanted = 100.0 * (neutral - 5.0) / (20.0 * (7.5 - neutral) * 5.0)

    assert top.any()
    assert np.abs(stress[top, 0]).mean() == pytest.approx(wanted, rel=0.05)
