"""Bores cut by the mesh engine: keyed, slotted, crossed, rounded, threaded, through a faceted tube."""

from __future__ import annotations

import math
from dataclasses import replace

import manifold3d
import numpy as np

from tests.shapes import Manifold, cylinder, solid_of
from tests.survey.drawn.drawn_bores import Drawing, Meant

Rng = np.random.Generator


def _cut(kind: str, body: manifold3d.Manifold, rng: Rng, meant: list[Meant]) -> Drawing:
    """Return a drawing made by cutting, turned about its origin."""
    angles = rng.uniform(-180, 180, 3)
    unit = solid_of(Manifold.tetrahedron().rotate(tuple(angles))).vertices_mm
    plain = solid_of(Manifold.tetrahedron()).vertices_mm
    turn = np.linalg.lstsq(plain, unit, rcond=None)[0].T

    def turned(vector: tuple[float, float, float]) -> tuple[float, float, float]:
        x, y, z = turn @ np.array(vector)
        return float(x), float(y), float(z)

    placed = [
        Meant(
            drawn_mm=m.drawn_mm,
            inscribed_mm=m.inscribed_mm,
            depth_mm=m.depth_mm,
            axis=turned(m.axis),
            at_mm=turned(m.at_mm),
            through=m.through,
            turned_deg=m.turned_deg,
        )
        for m in meant
    ]
    return Drawing(kind=kind, solid=solid_of(body.rotate(tuple(angles)), kind), meant=tuple(placed))


def _upright(diameter: float, n: int, low: float, high: float, *, turned: float = 360.0, through: bool = True) -> Meant:
    return Meant(
        drawn_mm=diameter,
        inscribed_mm=diameter * math.cos(math.pi / n),
        depth_mm=high - low,
        axis=(0.0, 0.0, 1.0),
        at_mm=(0.0, 0.0, (low + high) / 2),
        through=through,
        turned_deg=turned,
    )


def radial_cut(rng: Rng) -> Drawing:
    """Cut a prism through a faceted tube's wall: corners of the mouths lie on the prism's flats."""
    outer, n, m = float(rng.uniform(20, 50)), int(rng.integers(12, 65)), int(rng.integers(48, 200))
    thick, diameter = float(rng.uniform(1.5, 4.0)), float(rng.uniform(2.0, 7.0))
    tube = cylinder(outer, 30, m) - cylinder(outer - 2 * thick, 40, m).translate((0, 0, -5))
    tube = (
        tube.translate((0, 0, -15)).rotate((90, 0, 0)).trim_by_plane((0, 0, 1), 1.0)
    )  # less than half: no bore itself
    cut = tube - cylinder(diameter, 100, n).rotate((0, 0, float(rng.uniform(0, 90))))
    wall = solid_of(cut).vertices_mm
    wall = wall[(np.hypot(wall[:, 0], wall[:, 1]) < diameter / 2 + 1e-6) & (wall[:, 2] > 0)]
    return _cut("radial cut", cut, rng, [_upright(diameter, n, float(wall[:, 2].min()), float(wall[:, 2].max()))])


def crossed(rng: Rng) -> Drawing:
    """Cut a narrower bore through a wider one's wall, at any angle."""
    wide, n, m = float(rng.uniform(5, 12)), int(rng.integers(12, 65)), int(rng.integers(12, 65))
    narrow = wide * float(rng.uniform(0.3, 0.7))
    block = Manifold.cube((30, 30, 24), True) - cylinder(wide, 40, n).translate((0, 0, -20))
    cross = cylinder(narrow, 60, m).rotate((90, float(rng.uniform(-30, 30)), float(rng.uniform(0, 90))))
    half = wide / 2 + 4.0
    cross = cross ^ Manifold.cube((2 * half, 2 * half, 20), True)
    # Only the wider bore is judged: the narrower one's stub may be reported too, its depth is a matter of taste.
    cut = _cut("crossed", block - (cross ^ _beside(wide)), rng, [_upright(wide, n, -12.0, 12.0)])
    return replace(cut, also_mm=(narrow,))


def _beside(wide: float) -> manifold3d.Manifold:
    """Return the half space beyond a bore's axis, so that a crossing bore has one stub only."""
    return Manifold.cube((100, 100, 100), True).translate((50 + 0.1 * wide, 0, 0))


def merged(rng: Rng) -> Drawing:
    """Stack plates with one bore: coplanar neighbours are merged, corners stay where the plates meet."""
    diameter, n = float(rng.uniform(2, 10)), int(rng.integers(12, 65))
    body, z = Manifold(), 0.0
    for _ in range(int(rng.integers(2, 4))):
        step = float(rng.uniform(0.5, 4.0))
        side = diameter * float(rng.uniform(1.6, 3.0))
        body += Manifold.cube((side, side, step), True).translate((0, 0, z + step / 2))
        z += step
    body -= cylinder(diameter, z + 2, n).translate((0, 0, -1))
    body -= Manifold.cube((diameter * 0.2, diameter * 4, z * 0.3), True).translate((diameter * 0.2, 0, z))
    return _cut("merged", body, rng, [_upright(diameter, n, 0.0, z)])


def keyed(rng: Rng) -> Drawing:
    """Take one to four arcs out of the wall by keyways; from 345 degrees it is a bore, from 185 a possible one."""
    diameter, n = float(rng.uniform(4, 14)), int(rng.integers(36, 97))
    keys, deep = int(rng.integers(1, 5)), float(rng.uniform(1.5, 12.0))
    wide = diameter * float(rng.uniform(0.03, 0.3))
    body = Manifold.cube((3 * diameter, 3 * diameter, deep), True) - cylinder(diameter, 40, n).translate((0, 0, -20))
    lost = 0.0
    for k in range(keys):
        body -= (
            Manifold.cube((0.7 * diameter, wide, 40), True)
            .translate((0.35 * diameter, 0, 0))
            .rotate((0, 0, 360.0 * k / keys + 7.0))
        )
        lost += math.degrees(2 * math.asin(wide / diameter))
    return _cut("keyed", body, rng, [_upright(diameter, n, -deep / 2, deep / 2, turned=360.0 - lost)])


def slotted(rng: Rng) -> Drawing:
    """Leave by a slot across the bore two arcs of one circle; both together reach 200 to 320 degrees."""
    diameter, n = float(rng.uniform(4, 14)), int(rng.integers(36, 97))
    deep, open_deg = float(rng.uniform(1.5, 12.0)), float(rng.uniform(40, 150))
    wide = diameter * math.sin(math.radians(open_deg / 4))
    body = Manifold.cube((3 * diameter, 3 * diameter, deep), True) - cylinder(diameter, 40, n).translate((0, 0, -20))
    body -= Manifold.cube((2 * diameter, wide, 40), True).rotate((0, 0, 11.0))
    return _cut("slotted", body, rng, [_upright(diameter, n, -deep / 2, deep / 2, turned=360.0 - open_deg)])


def rounded(rng: Rng) -> Drawing:
    """Round both mouths; a blind one's floor runs out in a fillet."""
    diameter, n, blind = float(rng.uniform(3, 12)), int(rng.integers(16, 65)), rng.random() < 0.4
    edge = diameter * float(rng.uniform(0.05, 0.2))
    deep = diameter * float(rng.uniform(0.5, 2.0)) + 2 * edge
    arc = np.linspace(0, math.pi / 2, int(rng.integers(4, 9)))
    r = diameter / 2
    up = [(r + edge * (1 - math.cos(a)), deep - edge + edge * math.sin(a)) for a in arc]
    down = [
        (r - edge * (1 - math.cos(a)), edge - edge * math.sin(a))
        if blind
        else (r + edge * (1 - math.cos(a)), edge - edge * math.sin(a))
        for a in arc
    ]
    outline = [(0.0, down[-1][1]), *down[::-1], *up, (up[-1][0], deep + 1), (0.0, deep + 1)]
    if not blind:
        outline = [(0.0, -1.0), (down[-1][0], -1.0), *outline[1:]]
    side = 3 * diameter
    block = Manifold.cube((side, side, deep + (2.0 if blind else 0.0)), True).translate(
        (0, 0, deep / 2 - (1.0 if blind else 0.0))
    )
    section = manifold3d.CrossSection([np.array(outline)])
    body = block - Manifold.revolve(section, n)
    return _cut("rounded", body, rng, [_upright(diameter, n, edge, deep - edge, through=not blind)])


def threaded(rng: Rng) -> Drawing:
    """Cut grooves at even steps, with lands between them: the bore is its lands."""
    diameter, n = float(rng.uniform(3, 10)), int(rng.integers(24, 65))
    pitch, turns = diameter * float(rng.uniform(0.12, 0.2)), int(rng.integers(4, 9))
    land, deep = pitch * float(rng.uniform(0.2, 0.4)), pitch * turns
    r, root = diameter / 2, diameter / 2 + 0.5 * pitch
    outline = [(0.0, -1.0), (r, -1.0)]
    for k in range(turns):
        z = k * pitch
        outline += [(r, z + land), (root, z + (land + pitch) / 2), (r, z + pitch)]
    outline += [(r, deep + land + 1.0), (0.0, deep + land + 1.0)]
    side = 3 * diameter
    block = Manifold.cube((side, side, deep + land), True).translate((0, 0, (deep + land) / 2))
    body = block - Manifold.revolve(manifold3d.CrossSection([np.array(outline)]), n)
    return _cut("threaded", body, rng, [_upright(diameter, n, 0.0, deep + land)])
