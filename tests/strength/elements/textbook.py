"""Textbook cases by elements, and how fast each comes to its closed form: ``python -m tests.strength.elements.textbook``.

It takes minutes, so what it found is kept in ``tests/data/strength/orders.toml``: the error with three edges, each 1.41
times shorter, and the order of convergence between them: the power of the edge that the error falls with. All
sources are from memory.
"""

from __future__ import annotations

import math
import sys
import tomllib
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import manifold3d
import numpy as np
from numpy.typing import NDArray

from planner.strength.elements.nodal_forces import Press, arc_pressure, pressed, surface_of
from planner.strength.elements.tetrahedra import EDGES, Tetrahedra, tetrahedra_of
from tests.shapes import bored_plate, cuboid, cylinder, solid_of, tube
from tests.strength.elements.bars import stressed
from tests.strength.pin_contact import frocht_hill

Floats = NDArray[np.float64]
ORDERS = Path(__file__).parents[2] / "data" / "strength" / "orders.toml"
BAR = cuboid(60.0, 6.0, 6.0)


def cantilever(edge_mm: float) -> float:
    """Timoshenko, Strength of Materials: s = M z / I between the ends; error as a share of the stress at the root."""
    loads = [
        Press(at_mm=(60.0, 3.0, 3.0), force_n=(0.0, 0.0, -10.0), patch_mm=2.5),
        Press(at_mm=(0.0, 3.0, 3.0), force_n=(0.0, 0.0, 10.0), couple_n_mm=(0.0, -600.0, 0.0), patch_mm=2.5),
    ]
    at, stress, _ = stressed(BAR, loads, edge_mm)
    between = (at[:, 0] > 12.0) & (at[:, 0] < 48.0)
    wanted = 10.0 * (60.0 - at[:, 0]) * (at[:, 2] - 3.0) / (6.0**4 / 12.0)
    return float(np.abs(stress[:, 0] - wanted)[between].max()) / (600.0 / 36.0)


def three_points(edge_mm: float) -> float:
    """Roark: M = F L / 4 under the middle load; a bar's height away from the loads the side shows M z / I."""
    loads = [
        Press(at_mm=(30.0, 3.0, 6.0), force_n=(0.0, 0.0, -20.0), patch_mm=2.0),
        Press(at_mm=(5.0, 3.0, 0.0), force_n=(0.0, 0.0, 10.0), patch_mm=2.0),
        Press(at_mm=(55.0, 3.0, 0.0), force_n=(0.0, 0.0, 10.0), patch_mm=2.0),
    ]
    at, stress, _ = stressed(BAR, loads, edge_mm)
    arm = np.where(at[:, 0] < 30.0, at[:, 0] - 5.0, 55.0 - at[:, 0])
    away = (arm > 8.0) & (np.abs(at[:, 0] - 30.0) > 8.0)
    wanted = 10.0 * arm * (3.0 - at[:, 2]) / (6.0**4 / 12.0)
    return float(np.abs(stress[:, 0] - wanted)[away].max()) / (10.0 * 25.0 / 36.0)


def twisted(edge_mm: float) -> float:
    """Timoshenko, Theory of Elasticity: the greatest shear of a square bar is T / (0.208 a³), at a side's middle."""
    loads = [
        Press(at_mm=(x, 3.0, 3.0), force_n=(0.0, 0.0, 0.0), couple_n_mm=(couple, 0.0, 0.0), patch_mm=2.9)
        for x, couple in ((0.0, -100.0), (30.0, 100.0))
    ]
    nodes = np.concatenate([np.eye(4), [(np.eye(4)[a] + np.eye(4)[b]) / 2.0 for a, b in EDGES]])
    at, stress, _ = stressed(cuboid(30.0, 6.0, 6.0), loads, edge_mm, points=nodes)
    far, near = np.abs(at[:, 1:] - 3.0).max(axis=1), np.abs(at[:, 1:] - 3.0).min(axis=1)
    side = (np.abs(at[:, 0] - 15.0) < 6.0) & (far > 2.99) & (near < 0.5)
    return _off(np.hypot(stress[side, 4], stress[side, 5]), 100.0 / (0.208 * 6.0**3))


def bored(edge_mm: float) -> float:
    """Peterson (Howland 1930): 3.03 times the pull beside a bore of d / W = 0.1, at the surface, not averaged."""
    plate = bored_plate(60.0, 40.0, 3.0, [(30.0, 20.0, 4.0, 96)])
    finer = [((x, y, z), edge_mm) for x in (29.6, 30.0, 30.4) for y in (18.0, 22.0) for z in (0.0, 1.0, 2.0, 3.0)]
    cells = tetrahedra_of(plate, 4.0, finer)
    force = _pulled(cells, {0.0: -120.0, 60.0: 120.0})  # an even pull on the whole end
    at, stress, _ = stressed(plate, force, 4.0, points=np.eye(4), cells=cells)
    beside = (np.abs(at[:, 0] - 30.0) < 0.15) & (np.abs(np.abs(at[:, 1] - 20.0) - 2.0) < 0.02)
    return _off(stress[beside, 0], 3.03)


def lug(edge_mm: float) -> float:
    """Frocht and Hill 1940 (Peterson; Roark, table 17.1): beside a pin in a strip with d / W = 0.5, at the surface.

    They measured a real pin. Ours presses an arc of 45 degrees each way, the contact of a loose pin; that this comes to
    their curve is worked out apart from these elements in :mod:`tests.strength.pin_contact`.
    """
    strip = bored_plate(70.0, 20.0, 3.0, [(20.0, 10.0, 10.0, 96)])
    places = [(20.0 + 5.0 * math.cos(turn), 10.0 + 5.0 * math.sin(turn)) for turn in np.radians(np.arange(70, 111, 5))]
    finer = [((x, at), edge_mm) for x, y in places for at in (y, 20.0 - y)]
    cells = tetrahedra_of(strip, 3.0, [((*at, z), short) for at, short in finer for z in (0.0, 1.5, 3.0)])
    far = Press(at_mm=(70.0, 10.0, 1.5), force_n=(30.0, 0.0, 0.0), patch_mm=4.0)
    pin = Press(at_mm=(20.0, 10.0, 1.5), force_n=(-30.0, 0.0, 0.0), axis=(0.0, 0.0, 1.0), radius_mm=5.0, deep_mm=3.0)
    at, stress, _ = stressed(strip, [pin, far], 3.0, points=np.eye(4), cells=cells)
    wall = np.abs(np.hypot(at[:, 0] - 20.0, at[:, 1] - 10.0) - 5.0) < 0.05
    angle = np.arctan2(np.abs(at[:, 1] - 10.0), at[:, 0] - 20.0)[wall]
    hoop = stress[wall, 0] * np.sin(angle) ** 2 + stress[wall, 1] * np.cos(angle) ** 2
    hoop -= 2.0 * stress[wall, 5] * np.sin(angle) * np.cos(angle) * np.sign(at[wall, 1] - 10.0)
    step = np.round(np.degrees(angle) / 4.0)
    found = max(float(hoop[step == one].mean()) for one in np.unique(step))
    return _off(np.array([found]), frocht_hill(0.5))


def pinned(edge_mm: float) -> float:
    """Pressure on an arc of a bore in a plate without end: 0.69 of P / (d t) beside it; a cosine over half of it gives 8 / π².

    Worked out from Michell's stress functions (1899; Timoshenko, Theory of Elasticity, sections 42 and 43; Bickley
    1928 did so first): with the pressure as a Fourier series, every term but the first two pulls round the bore
    with minus its pressure, the even one with plus it, and the cosine's, which has the resultant, with (1 - v) / 2 of
    itself, so that displacements have one value. At an angle a from P that is twice the even term and (3 - v) / 2 times
    the cosine's, less the pressure there. Half of P is taken up at each end, which shows least of the ends.
    """
    wide, thick, bore = 100.0, 3.0, 2.0
    plate = bored_plate(wide, wide, thick, [(wide / 2.0, wide / 2.0, 2.0 * bore, 96)])
    turns = np.radians(np.arange(0, 360, 15))
    round_it = [(wide / 2.0 + bore * math.cos(turn), wide / 2.0 + bore * math.sin(turn)) for turn in turns]
    cells = tetrahedra_of(plate, 4.0, [((*at, z), edge_mm) for at in round_it for z in (0.0, 1.5, 3.0)])
    middle = (wide / 2.0, wide / 2.0, thick / 2.0)
    pin = Press(at_mm=middle, force_n=(120.0, 0.0, 0.0), axis=(0.0, 0.0, 1.0), radius_mm=bore, deep_mm=thick)
    force = _pulled(cells, {0.0: -60.0, wide: -60.0}) + pressed(cells, [pin])[0]
    at, stress, _ = stressed(plate, force, 4.0, points=np.eye(4), cells=cells)
    x, y = (at[:, :2] - wide / 2.0).T
    angle = np.arctan2(y, x)
    beside = (np.abs(np.hypot(x, y) - bore) < 0.02) & (np.abs(np.abs(angle) - np.pi / 2.0) < np.radians(8.0))
    s, c = np.sin(angle[beside]), np.cos(angle[beside])
    hoop = stress[beside, 0] * s**2 + stress[beside, 1] * c**2 - 2.0 * stress[beside, 5] * s * c
    wanted = _pinned_mpa(angle[beside], 120.0 / (bore * thick))
    return _off(hoop, float(wanted.mean()))


def _pinned_mpa(angle: Floats, push_mpa: float) -> Floats:
    """Return the stress round a bore at angles from a push, over radius and thickness, by Michell's series."""
    turn = np.linspace(-np.pi, np.pi, 200_001)[1:]
    pressure, step = arc_pressure(np.cos(turn)), 2.0 * np.pi / 200_000
    peak_mpa = push_mpa / float((pressure * np.cos(turn)).sum() * step)
    even, first = float(pressure.mean()), float((pressure * np.cos(turn)).sum() * step) / np.pi
    return peak_mpa * (2.0 * even + first * np.cos(angle) * (1.0 + 0.7 / 2.0) - arc_pressure(np.cos(angle)))


def ring(edge_mm: float) -> float:
    """Lamé 1852: the hoop stress under pressure is p (b² + a²) / (b² - a²) at the bore, and 2 p a² / (b² - a²) outside."""
    solid = tube(20.0, 10.0, 3.0)
    cells = tetrahedra_of(solid, edge_mm)
    sides = surface_of(cells)
    corners = cells.nodes_mm[sides[:, :3]]
    wall = (np.abs(np.linalg.norm(corners[..., :2], axis=-1) - 5.0) < 0.1).all(axis=1)
    normal = np.cross(corners[wall, 1] - corners[wall, 0], corners[wall, 2] - corners[wall, 0]) / 2.0
    outward = normal * np.sign((normal * corners[wall].mean(axis=1) * [1, 1, 0]).sum(axis=1))[:, None]
    force = np.zeros_like(cells.nodes_mm)
    np.add.at(force, sides[wall, 3:].ravel(), np.repeat(outward / 3.0, 3, axis=0))
    at, stress, _ = stressed(solid, force, edge_mm, points=np.eye(4), cells=cells)
    radius, angle = np.hypot(at[:, 0], at[:, 1]), np.arctan2(at[:, 1], at[:, 0])
    s, c = np.sin(angle), np.cos(angle)
    hoop = stress[:, 0] * s**2 + stress[:, 1] * c**2 - 2.0 * stress[:, 5] * s * c
    return max(_off(hoop[radius < 5.02], 125.0 / 75.0), _off(hoop[radius > 9.98], 50.0 / 75.0))


def curved(edge_mm: float) -> float:
    """Winkler 1858 (Timoshenko): M (rn - ri) / (A e ri) inside, 29 % over the straight bar's 6 M / (t h²)."""
    whole = cylinder(20.0, 4.0, 96) - cylinder(10.0, 4.0, 96)
    half = solid_of(whole ^ manifold3d.Manifold.cube((40.0, 20.0, 20.0)).translate((-20.0, 0.0, -10.0)))
    middle = float(half.bounds_mm[:, 2].mean())
    loads = [
        Press(at_mm=(x, 0.0, middle), force_n=(0.0, 0.0, 0.0), couple_n_mm=(0.0, 0.0, couple), patch_mm=2.9)
        for x, couple in ((-7.5, 100.0), (7.5, -100.0))
    ]
    at, stress, _ = stressed(half, loads, edge_mm, points=np.eye(4))
    top = (np.abs(at[:, 0]) < 1.5) & (np.hypot(at[:, 0], at[:, 1]) < 5.02)
    neutral = 5.0 / np.log(2.0)
    return _off(np.abs(stress[top, 0]), 100.0 * (neutral - 5.0) / (20.0 * (7.5 - neutral) * 5.0))


CASES: dict[str, tuple[Callable[[float], float], float]] = {
    "cantilever": (cantilever, 3.0),
    "three-point bending": (three_points, 3.0),
    "plate with a bore": (bored, 0.6),
    "pin in a wide plate": (pinned, 0.8),
    "ring under pressure": (ring, 2.5),
    "curved bar": (curved, 2.8),
    "square bar in torsion": (twisted, 3.0),
    "lug in tension": (lug, 1.2),
}
"""Each case, and the longest edge that it is solved with."""
STEPS_N, SHRINK = 3, 2.0**0.5
"""So many meshes, each with edges so many times shorter."""


def _off(found: Floats, wanted: float) -> float:
    """Return by which share the mean of stresses is off; places there must be."""
    assert len(found)
    return abs(float(found.mean()) / wanted - 1.0)


def _pulled(cells: Tetrahedra, pulls_n: dict[float, float]) -> Floats:
    """Return forces on nodes that pull evenly on the whole ends of a plate, each at its x."""
    sides, force = surface_of(cells), np.zeros_like(cells.nodes_mm)
    for x, pull_n in pulls_n.items():
        end = np.abs(cells.nodes_mm[sides[:, :3], 0] - x).max(axis=1) < 1e-6
        corners = cells.nodes_mm[sides[end, :3]]
        area = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1) / 2.0
        share = np.bincount(sides[end, 3:].ravel(), np.repeat(area / 3.0, 3), minlength=len(force)) / area.sum()
        force[:, 0] += share * pull_n
    return force


def main(names: list[str]) -> None:
    """Solve cases with ever shorter edges, and keep what was found."""
    rows = tomllib.loads(ORDERS.read_text(encoding="utf-8")) if ORDERS.exists() else {}
    for name in names or CASES:
        solve, edge_mm = CASES[name]
        edges = [edge_mm / SHRINK**n for n in range(STEPS_N)]
        off = [solve(edge) for edge in edges]
        rows[name] = {
            "edges_mm": edges,
            "off_percent": [round(100.0 * float(one), 3) for one in off],
            "orders": [round(math.log(a / b) / math.log(SHRINK), 2) for a, b in pairwise(off)],
        }
        told = "".join(
            f'["{each}"]\n' + "".join(f"{key} = {value}\n" for key, value in row.items()) + "\n"
            for each, row in rows.items()
        )
        head = "# Errors of textbook cases with ever shorter edges: written by tests.strength.elements.textbook.\n"
        ORDERS.write_text(head + told.rstrip() + "\n", encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
