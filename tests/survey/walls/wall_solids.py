"""Solids of known least wall, by closed form, and solids that only run out to edges."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, radians, sin, tan

import manifold3d
import numpy as np
from numpy.typing import NDArray

from tests.shapes import Manifold, cylinder

Corners = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """A solid, its least wall in mm, and whether that wall is the web beside a bore."""

    name: str
    body: manifold3d.Manifold
    least_mm: float


def block(x: float, y: float, z: float, at: tuple[float, float, float] = (0, 0, 0)) -> manifold3d.Manifold:
    """Return a cuboid with its lowest corner at a place."""
    return Manifold.cube((x, y, z)).translate(at)


def wedge_cut(width: float, deep: float, long: float) -> manifold3d.Manifold:
    """Return a V along y, its point on the origin, opening upward to a width at a height."""
    corners = np.array([[0.0, 0.0, 0.0], [width / 2, 0.0, deep], [-width / 2, 0.0, deep]])
    return Manifold.hull_points(_swept(corners, long))


def groove(angle_deg: float, wall: float, *, ends: float = -1.0) -> manifold3d.Manifold:
    """Return a plate of 30 x 20 x 6 with a V over a wall; ``ends`` is where it begins along y (through at -1)."""
    deep = 8.0
    v = wedge_cut(2 * deep * tan(radians(angle_deg) / 2), deep, 20 - 2 * ends).translate((15.3, ends, wall))
    return block(30, 20, 6) - v


def hexagon(gap: float, *, corner: bool, deep: float = 4.0) -> manifold3d.Manifold:
    """Return a block with a hexagonal pocket, a corner or a flat this far from the face x = 0."""
    radius = 4.0
    reach = radius if corner else radius * cos(pi / 6)
    pocket = Manifold.cylinder(deep + 1, radius, radius, 6).rotate((0, 0, 0 if corner else 30))
    return block(20, 20, 8) - pocket.translate((gap + reach, 10.2, 8 - deep))


def on_corner(wall: float) -> manifold3d.Manifold:
    """Return a block with a square pocket sunk corner first, this far from the floor."""
    ways = [
        np.array([cos(a) * np.sqrt(2 / 3), sin(a) * np.sqrt(2 / 3), 1 / np.sqrt(3)])
        for a in (0.3, 0.3 + 2 * pi / 3, 0.3 + 4 * pi / 3)
    ]
    corners = [sum((w for k, w in enumerate(ways) if bits >> k & 1), np.zeros(3)) for bits in range(8)]
    cube = Manifold.hull_points(20.0 * np.array(corners))
    return block(44, 44, 12) - cube.translate((22.2, 21.9, wall))


def drilled(wall: float, angle_deg: float, n: int, *, diameter: float = 6.0) -> manifold3d.Manifold:
    """Return a block with a blind bore whose point lies this far from the lower face."""
    point = diameter / 2 / tan(radians(angle_deg) / 2)
    drill = Manifold.cylinder(point, 0.0, diameter / 2, n) + cylinder(diameter, 12, n).translate((0, 0, point))
    return block(20, 20, 10) - drill.translate((10.1, 9.8, wall))


def oblique(tilt_deg: float, gap: float, *, diameter: float = 5.0, n: int = 64) -> manifold3d.Manifold:
    """Return a block whose tilted bore leaves through the top this far from the face x = 0 (measured on the top)."""
    tilt = radians(tilt_deg)
    bore = cylinder(diameter, 120, n).translate((0, 0, -60)).rotate((0, -tilt_deg, 0))
    return block(40, 20, 15) - bore.translate((gap + diameter / 2 / cos(tilt), 10, 15))


def _swept(corners: Corners, long: float) -> Corners:
    """Return corners in the plane y = 0, and once more at y = long."""
    return np.concatenate([corners, corners + np.array([0.0, long, 0.0])])


def plates() -> list[Known]:
    """Plates, tubes, shells and ribs."""
    found = [Known(name=f"plate {t}", body=block(40, 30, t), least_mm=t) for t in (0.4, 1.2, 6.0)]
    for wall in (0.5, 2.0):
        body = cylinder(20, 30, 96) - cylinder(20 - 2 * wall, 32, 96).translate((0, 0, -1))
        found.append(Known(name=f"tube {wall}", body=body, least_mm=wall * cos(pi / 96)))
    shell = Manifold.sphere(15, 96) - Manifold.sphere(14.2, 96)
    found.append(Known(name="rod", body=cylinder(1.0, 20, 64), least_mm=cos(pi / 64)))
    pin = cylinder(4.0, 30, 128) + cylinder(14.0, 4, 64)
    found.append(Known(name="pin with a head", body=pin, least_mm=4.0 * cos(pi / 128)))
    found.append(Known(name="hollow ball", body=shell, least_mm=0.8))
    found.append(Known(name="hollow block", body=block(30, 30, 30) - block(20, 20, 20, (0.7, 5, 5)), least_mm=0.7))
    found.append(Known(name="rib", body=block(40, 30, 3) + block(0.6, 30, 12, (20, 0, 0)), least_mm=0.6))
    drafted = np.array([[0, 0, 0], [1.6, 0, 0], [0.3, 0, 10], [1.3, 0, 10.0]])
    fin = Manifold.hull_points(_swept(drafted, 30))
    found.append(Known(name="drafted rib", body=block(40, 30, 3) + fin.translate((20, 0, 2)), least_mm=1.0))
    boss = Manifold.cylinder(12, 5.8, 4.2, 64) - cylinder(6.4, 14, 64).translate((0, 0, -1))
    found.append(Known(name="drafted boss", body=boss, least_mm=1.0 * cos(pi / 64)))
    blunt = np.array([[0, 0, 0], [50, 0, 0], [0, 0, 8], [50, 0, 1.0]])
    wedge = Manifold.hull_points(_swept(blunt, 30))
    found.append(Known(name="blunt wedge", body=wedge, least_mm=1.0))
    comb = block(30, 10, 10) - block(0.9, 12, 8, (8, -1, 4)) - block(0.9, 12, 8, (9.7, -1, 4))
    found.append(Known(name="comb tooth", body=comb, least_mm=0.8))
    window = block(30, 30, 3) - block(8, 8, 9, (5, 5, -1)) - block(8, 8, 9, (13.45, 5, -1))
    found.append(Known(name="bar between windows", body=window, least_mm=0.45))
    return found


def inner_corners() -> list[Known]:
    """Walls of which one side is an edge or a corner that points inwards."""
    found = [Known(name=f"hexagon corner {g}", body=hexagon(g, corner=True), least_mm=g) for g in (0.255, 0.6, 1.5)]
    found.append(Known(name="hexagon corner, through", body=hexagon(0.5, corner=True, deep=9), least_mm=0.5))
    found.append(Known(name="hexagon flat", body=hexagon(0.4, corner=False), least_mm=0.4))
    for angle, wall in ((20, 0.5), (35, 0.3), (50, 0.8), (70, 1.0), (90, 0.6), (110, 1.4)):
        found.append(Known(name=f"groove {angle}", body=groove(angle, wall), least_mm=wall))
    found.append(Known(name="groove with ends", body=groove(60, 0.7, ends=4.0), least_mm=0.7))
    found.append(Known(name="narrow groove with ends", body=groove(24, 0.45, ends=7.0), least_mm=0.45))
    cross = groove(60, 3.4) - wedge_cut(8, 7, 40).rotate((180, 0, 0)).rotate((0, 0, 90)).translate((-5, 9.7, 3.0))
    found.append(Known(name="grooves across each other", body=cross, least_mm=0.4))
    found.append(Known(name="square pocket on its corner 0.5", body=on_corner(0.5), least_mm=0.5))
    found.append(Known(name="square pocket on its corner 1.1", body=on_corner(1.1), least_mm=1.1))
    turned = block(30, 30, 6) - block(8, 8, 9).rotate((0, 0, 45)).translate(
        (0.35 + 8 / np.sqrt(2), 15 - 8 / np.sqrt(2), 2)
    )
    found.append(Known(name="square pocket, edge to the face", body=turned, least_mm=0.35))
    for wall, angle, n in ((0.5, 118, 64), (0.3, 90, 24), (1.0, 140, 96), (0.7, 118, 12)):
        found.append(Known(name=f"drill point {angle} over {wall}", body=drilled(wall, angle, n), least_mm=wall))
    tip = drilled(4.5, 118, 48) - block(30, 6, 3.8, (-1, 7, -1))
    found.append(Known(name="drill point over a slot", body=tip, least_mm=1.7))
    facing = drilled(5.2, 118, 48) - Manifold.cylinder(5, 3, 0, 48).translate((10.1, 9.8, 0))
    found.append(Known(name="point to point", body=facing, least_mm=0.2))
    ball = block(20, 20, 10) - Manifold.sphere(4, 64).translate((10, 10, 4.6))
    found.append(Known(name="ball in a block", body=ball, least_mm=0.6))
    sunk = block(24, 24, 10) - Manifold.sphere(6, 96).translate((12.2, 11.9, 6.9))
    found.append(Known(name="ball socket over the floor", body=sunk, least_mm=0.9))
    step = block(30, 20, 10) - block(20, 22, 10, (-1, -1, 5)) - block(12, 22, 6, (19.6, -1, -1.7))
    found.append(Known(name="two steps corner to corner", body=step, least_mm=float(np.hypot(0.6, 0.7))))
    return found


def beside_bores() -> list[Known]:
    """Webs beside bores, straight and oblique."""
    found = []
    for gap in (0.8, 1.5):
        body = block(40, 30, 6) - cylinder(5, 9, 64).translate((gap + 2.5, 15, -1))
        found.append(Known(name=f"bore beside an edge {gap}", body=body, least_mm=gap))
    for tilt, gap in ((10, 0.81), (20, 0.77), (30, 0.7), (40, 0.9)):
        found.append(Known(name=f"oblique bore {tilt}", body=oblique(tilt, gap), least_mm=gap))
    pair = block(40, 30, 6) - cylinder(5, 9, 64).translate((12, 15, -1)) - cylinder(4, 9, 64).translate((17.1, 15, -1))
    found.append(Known(name="two bores", body=pair, least_mm=0.6))
    crossing = block(30, 30, 12) - cylinder(4, 40, 64).translate((0, 0, -5)).rotate((90, 0, 0)).translate((15, 30, 3))
    crossing -= cylinder(4, 40, 64).rotate((0, 90, 0)).translate((-5, 15, 7.5))
    found.append(Known(name="bores across each other", body=crossing, least_mm=0.5))
    floor = block(20, 20, 8) - cylinder(6, 9, 64).translate((10, 10, 0.65))
    found.append(Known(name="flat floor under a bore", body=floor, least_mm=0.65))
    slant = np.array([[0, 0, -30 * tan(radians(15))], [30, 0, 0], [0, 0, 12], [30, 0, 12.0]])
    roof = Manifold.hull_points(_swept(slant, 20))
    low = 1.2 / cos(radians(15)) - (30 - 22 - 3) * tan(radians(15))
    bored = roof - cylinder(6, 30, 64).translate((22, 10, low))
    foot = -(30 - 25) * tan(radians(15))
    found.append(Known(name="bore over a slanted face", body=bored, least_mm=(low - foot) * cos(radians(15))))
    return found


def run_outs() -> list[Known]:
    """Matter that ends at its own convex edge; ``least_mm`` is what stands elsewhere, at least."""
    found = []
    for angle in (5, 10, 20, 30, 45):
        base = np.array([[0, 0, 0], [40, 0, 0], [0, 0, 40 * tan(radians(angle))]])
        body = Manifold.hull_points(_swept(base, 30)) + block(20, 30, 12, (-20, 0, 0))
        found.append(Known(name=f"knife edge {angle}", body=body, least_mm=12.0 if angle > 20 else 2.0))
    for land in (0.0, 0.3):
        base = np.array([[0, 0, 0], [40, 0, 0], [40, 0, land], [34 + land, 0, 6], [0, 0, 6.0]])
        body = Manifold.hull_points(_swept(base, 30))
        found.append(Known(name=f"chamfer with a land of {land}", body=body, least_mm=6.0))
    cove = block(40, 30, 5) - cylinder(10, 32, 96).rotate((-90, 0, 0)).translate((40.0, -1, 5.0))
    found.append(Known(name="cove that runs out", body=cove, least_mm=5.0))
    tangent = block(60, 30, 5) - cylinder(60, 32, 256).rotate((-90, 0, 0)).translate((60, -1, 30.0))
    found.append(Known(name="fillet tangent to the floor", body=tangent, least_mm=5.0))
    sink = block(30, 30, 4) - Manifold.cylinder(4.002, 2.0, 6.0, 64).translate((15, 15, -0.001))
    found.append(Known(name="countersink through the plate", body=sink, least_mm=4.0))
    lens = Manifold.sphere(30, 128).translate((0, 0, -27)) ^ Manifold.sphere(30, 128).translate((0, 0, 27))
    found.append(Known(name="lens", body=lens, least_mm=5.9))
    needle = Manifold.cylinder(25, 6, 0, 48) + cylinder(30, 5, 64).translate((0, 0, -5))
    found.append(Known(name="needle", body=needle, least_mm=5.0))
    spire = Manifold.hull_points(np.array([[-4, -4, 0], [4, -4, 0], [4, 4, 0], [-4, 4, 0], [0, 0, 20.0]]))
    found.append(Known(name="spire", body=spire + block(20, 20, 5, (-10, -10, -5)), least_mm=5.0))
    steep = block(40, 20, 15) - cylinder(5, 120, 64).translate((0, 0, -60)).rotate((0, -45, 0)).translate((15, 10, 15))
    found.append(Known(name="oblique bore far from any face", body=steep, least_mm=4.0))
    torn = block(30, 20, 6) - cylinder(8, 9, 64).translate((3.2, 10, -1))
    found.append(Known(name="bore that breaks out", body=torn, least_mm=6.0))
    side = np.array([[0, 0, 0], [10, 0, 0], [5, 0, 10 * sin(pi / 3)]])
    prism = Manifold.hull_points(_swept(side, 30))
    found.append(Known(name="three-sided bar", body=prism, least_mm=5.0))
    return found


KNOWN = [*plates(), *inner_corners(), *beside_bores()]
RUN_OUTS = run_outs()
