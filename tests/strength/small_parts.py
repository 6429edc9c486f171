"""Twelve small parts under loads, and where a fine mesh finds each weakest: ``python -m tests.strength.small_parts``.

It takes minutes, so what it found is kept in ``tests/data/strength/weakest.toml``: with names as arguments, for these
parts alone. The reference is one mesh of its own with shorter edges everywhere, and at the hottest places edges of a
sixth of a line's width, which nothing of the search for the weakest place has chosen.
"""

from __future__ import annotations

import sys
import tomllib
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from manifold3d import CrossSection, Manifold

from planner.finding import Vec3
from planner.mesh import Solid
from planner.strength import Strengths
from planner.strength.elements.nodal_forces import Press
from planner.strength.elements.one_mesh import OnMesh, Stuff, on_mesh
from planner.strength.elements.refined_elements import ELEMENTS_VERSION, Solved, first_edge_mm, solved
from planner.strength.elements.stiffness import Moduli
from planner.strength.elements.tetrahedra import tetrahedra_of
from planner.strength.elements.unresolved import inward_deg
from tests.shapes import solid_of

FOUND = Path(__file__).parent.parent / "data" / "strength" / "weakest.toml"
LINE_MM = 0.45
FINER = 1.5
INNER_DEG = 30.0
"""From so sharp a turn on an edge is an inner corner."""
NEARLY = 0.85
STUFF = Stuff(
    moduli=Moduli(along_mpa=1900.0, across_mpa=1600.0, poisson_ratio=0.38),
    strengths=Strengths(along_mpa=40.0, across_mpa=25.0, shear_mpa=15.0),
    normal=(0.0, 0.0, 1.0),
    side_mm=1.35,
    level_mm=0.8,
    infill_share=1.0,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallPart:
    """A part from x = 0 to its far end, clamped about its left end and pushed at a place."""

    shape: Callable[[], Manifold]
    at_mm: Vec3
    force_n: Vec3
    normal: Vec3 = (0.0, 0.0, 1.0)
    held_mm: Vec3 = (0.0, 5.0, 3.0)
    alike: tuple[tuple[int, float], ...] = ((2, 3.0),)
    """Planes, as axis and place, on whose both sides part and load are alike."""

    def presses(self) -> tuple[Press, ...]:
        """Return its load, and what holds it in balance."""
        couple = -np.cross(np.subtract(self.at_mm, self.held_mm), self.force_n)
        x, y, z = (float(value) for value in couple)
        back = tuple(-value for value in self.force_n)
        held = Press(at_mm=self.held_mm, force_n=(back[0], back[1], back[2]), couple_n_mm=(x, y, z), patch_mm=2.5)
        return Press(at_mm=self.at_mm, force_n=self.force_n, patch_mm=1.5), held


def _box(low: Vec3, high: Vec3) -> Manifold:
    """Return a box between two corners."""
    x, y, z = (b - a for a, b in zip(low, high, strict=True))
    return Manifold.cube((x, y, z)).translate(low)


def _bar(long_mm: float = 40.0) -> Manifold:
    """Return a bar of 10 by 6."""
    return _box((0, 0, 0), (long_mm, 10, 6))


def _bore(x_mm: float, y_mm: float, wide_mm: float) -> Manifold:
    """Return what a bore along z takes away."""
    return Manifold.cylinder(40.0, wide_mm / 2.0, wide_mm / 2.0, 48).translate((x_mm, y_mm, -10.0))


def _outline(points: list[tuple[float, float]], deep_mm: float = 6.0) -> Manifold:
    """Return a flat part."""
    return Manifold.extrude(CrossSection([points]), deep_mm)


DOWN: Vec3 = (0.0, 0.0, -10.0)
PARTS: dict[str, SmallPart] = {
    "bored near its root": SmallPart(shape=lambda: _bar() - _bore(14, 4, 4), at_mm=(39, 5, 6), force_n=DOWN),
    "bored, pushed sideways": SmallPart(shape=lambda: _bar() - _bore(16, 4, 5), at_mm=(39, 10, 3), force_n=(0, -15, 0)),
    "stepped": SmallPart(
        shape=lambda: _bar(22) + _box((22, 3, 1), (40, 8, 4)), at_mm=(39, 7.5, 4), force_n=(0, 0, -8), alike=()
    ),
    "thin tongue": SmallPart(
        shape=lambda: _bar(20) + _box((20, 3, 0), (38, 7, 2)), at_mm=(37, 5, 2), force_n=(0, 0, -3), alike=((1, 5.0),)
    ),
    "waisted": SmallPart(
        shape=lambda: _outline([(0, 0), (14, 0), (18, 3), (24, 3), (28, 0), (40, 0), (40, 10), (0, 10)]),
        at_mm=(39, 10, 3),
        force_n=(0, -15, 0),
    ),
    "notched": SmallPart(shape=lambda: _bar() - _box((15, -1, -1), (17, 3, 7)), at_mm=(39, 10, 3), force_n=(0, -15, 0)),
    "angle": SmallPart(
        shape=lambda: _bar(30) + _box((24, 0, 0), (30, 10, 30)),
        at_mm=(30, 5, 28),
        force_n=(-12, 0, 0),
        normal=(0.0, 1.0, 0.0),
        alike=((1, 5.0),),
    ),
    "hook": SmallPart(shape=lambda: _bar(40) + _box((34, 0, 0), (40, 26, 6)), at_mm=(34, 24, 3), force_n=(12, 0, 0)),
    "slotted": SmallPart(
        shape=lambda: _bar() - _box((14, 4, -1), (26, 6.5, 7)), at_mm=(39, 10, 3), force_n=(0, -15, 0)
    ),
    "tapered": SmallPart(
        shape=lambda: _outline([(0, 0), (26, 3), (40, 3), (40, 10), (0, 10)]), at_mm=(39, 10, 3), force_n=(0, -15, 0)
    ),
    "layers across": SmallPart(
        shape=lambda: _bar() - _bore(18, 4, 4), at_mm=(39, 5, 6), force_n=(0, 0, -6), normal=(1.0, 0.0, 0.0)
    ),
    "pulled off its middle": SmallPart(shape=lambda: _bar() - _bore(20, 3, 4), at_mm=(40, 7, 3), force_n=(60, 0, 0)),
}
"""All invented. A part that is bent square to a plane through its middle counts as alike on both of its sides."""


def solid_for(name: str) -> Solid:
    """Return the solid of a part."""
    return replace(solid_of(PARTS[name].shape()), name=name)


def search(name: str) -> Solved:
    """Return what the search for its weakest place says."""
    part = PARTS[name]
    return solved(solid_for(name), replace(STUFF, normal=part.normal), [part.presses()], LINE_MM)


def reference(name: str) -> OnMesh:
    """Return where a fine mesh finds it weakest, and what it finds there.

    Every inner corner has edges of a third of a line's width from end to end, and every place on the surface that
    takes nearly as much as the most on that mesh has half of these.
    """
    part, solid = PARTS[name], solid_for(name)
    stuff = replace(STUFF, normal=part.normal)
    edge_mm = first_edge_mm(solid) / FINER
    cells, finer = tetrahedra_of(solid, edge_mm), list[tuple[Vec3, float]]()
    for short_mm in (LINE_MM, LINE_MM / 3.0):
        finer = _places(cells.nodes_mm[inward_deg(cells) > INNER_DEG], short_mm)
        cells = tetrahedra_of(solid, edge_mm, finer)
    first = next(on_mesh(cells, stuff, [part.presses()], LINE_MM))
    assert first is not None
    hot = first.skin_mm[first.skin_share_percent > NEARLY * first.share_percent]
    cells = tetrahedra_of(solid, edge_mm, [*finer, *_places(hot, LINE_MM / 6.0)])
    fine = next(on_mesh(cells, stuff, [part.presses()], LINE_MM))
    assert fine is not None
    return fine


def _places(points_mm: np.ndarray, short_mm: float) -> list[tuple[Vec3, float]]:
    """Return places where edges are that short, one in each cell of a grid of twice their length."""
    _, first = np.unique(np.floor(points_mm / (2.0 * short_mm)), axis=0, return_index=True)
    return [((float(x), float(y), float(z)), short_mm) for x, y, z in points_mm[np.sort(first)]]


def apart_mm(name: str, one: Vec3, other: Vec3) -> float:
    """Return how far two places of a part are apart; where part and load are alike on both sides, so are places."""
    mirrors = [one]
    for axis, middle_mm in PARTS[name].alike:
        mirrored = [list(at) for at in mirrors]
        for at in mirrored:
            at[axis] = 2.0 * middle_mm - at[axis]
        mirrors += [(at[0], at[1], at[2]) for at in mirrored]
    return float(min(np.linalg.norm(np.subtract(at, other)) for at in mirrors))


def main(names: list[str]) -> None:
    """Solve parts, and keep what was found."""
    rows = tomllib.loads(FOUND.read_text(encoding="utf-8")) if FOUND.exists() else {}
    for name in names or PARTS:
        one = search(name)
        fine = reference(name)
        rows[name] = {
            "elements_version": ELEMENTS_VERSION,
            "weakest_mm": [round(value, 2) for value in one.weakest_mm],
            "ties_mm": [[round(value, 2) for value in at] for at in one.ties_mm],
            "share_percent": round(one.share_percent, 2),
            "converged_percent": round(one.converged_percent, 2),
            "stands": one.stands,
            "unknowns_n": one.unknowns_n,
            "meshes_n": one.meshes_n,
            "hides": round(one.hides_ratio, 2),
            "seconds": round(one.seconds, 1),
            "reference_mm": [round(value, 2) for value in fine.weakest_mm],
            "reference_percent": round(fine.share_percent, 2),
        }
        told = "".join(
            f'["{each}"]\n' + "".join(f"{key} = {str(value).lower()}\n" for key, value in row.items()) + "\n"
            for each, row in rows.items()
        )
        FOUND.write_text(
            "# Where elements find twelve small parts weakest, and where a finer mesh does: written by "
            "tests.strength.small_parts.\n" + told.rstrip() + "\n",
            encoding="utf-8",
        )


if __name__ == "__main__":
    main(sys.argv[1:])
