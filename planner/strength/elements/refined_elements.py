"""The weakest place of a part under loads in balance, by elements that are made finer there until its share stands."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from planner.cache import holds, kept, key_of
from planner.finding import Vec3
from planner.mesh import Solid
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.beam.skin_and_core import core_stiffness_share
from planner.strength.criterion import share_percent
from planner.strength.elements.averaged import over_a_line
from planner.strength.elements.displacements import UnsolvedError, displaced_each, held_lightly
from planner.strength.elements.nodal_forces import Press, pressed, surface_of
from planner.strength.elements.stiffness import Moduli, as_tensors, stiffness_mpa
from planner.strength.elements.stiffness_matrix import POINTS, assembled, stresses_mpa
from planner.strength.elements.tetrahedra import Tetrahedra, tetrahedra_of
from planner.strength.elements.unresolved import STANDS_PERCENT, Hidden, hidden_in

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]
Flags = NDArray[np.bool_]
ELEMENTS_VERSION = 6
ROOM = "elements"
"""Where answers are kept."""
UNKNOWNS_MOST_N = 300_000
ROUNDS_MOST_N = 7
SHRINKS = 1.5
"""Where infill is softer than the skin all edges shrink so much from mesh to mesh, as far as there is room for more,
not those at the hottest places alone: tetrahedra across the border of both zones gave 24 % too much stress in a bent
bar, with edges of twice the skin's thickness, and 4 % with edges of half of it."""
ROOM_SHARE = 0.7
"""Of the most unknowns, so many are aimed at: a mesh grows by more than its edges tell."""
PLACE_UNKNOWNS_N = 500
"""So many unknowns a place that is made finer costs, as measured on bars with inner corners."""
FIRST_N = 4000
"""Tetrahedra that the first mesh aims at."""
LEVEL_LEAST_MM = 0.1
"""Solid layers count as at least so thick, so that none does not stretch without end."""
BALANCE_SHARE = 0.01
"""Loads may be out of balance by this share of the greatest; what is left is taken up at three nodes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stuff(BeamStuff):
    """What a part is made of: what the beam pass takes, and its stiffness by direction."""

    moduli: Moduli


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # arrays do not compare
class Solved:
    """What elements found; ``share_percent`` is the root of the criterion's index, averaged over one line width."""

    weakest_mm: Vec3
    stress_mpa: Floats
    """Averaged stress there, (3, 3)."""
    share_percent: float
    converged_percent: float
    """By how much the share changed with the last, finer mesh."""
    unknowns_n: int
    seconds: float
    """Of processor time, the mesher's with it."""
    settled: bool = True
    """Whether no place may hide a greater share, because edges are too long there for an average over a line's width,
    in the last mesh; and whether they were short enough at the weakest place in the one before."""
    skin_mm: Singles
    """Places on the surface (n, 3), for pictures."""
    skin_share_percent: Singles
    """Share there; not a number where stress is left out, near to where loads enter."""
    skin_shift_mm: Singles
    """How far they move (n, 3), rigid motion included."""

    @property
    def stands(self) -> bool:
        """Whether the share stood when a mesh that was fine enough was made finer, and nothing is hidden elsewhere."""
        return self.settled and self.converged_percent <= STANDS_PERCENT


def solved(solid: Solid, stuff: Stuff, loads: Sequence[Press], line_width_mm: float) -> Solved:
    """Return the weakest place of a sound solid under loads that balance each other; kept by content.

    Raises
    ------
    UnmeshedError
        No usable tetrahedra could be made.
    UnsolvedError
        Loads out of balance, or no solution.
    """
    key = _key(solid, stuff, loads, line_width_mm)
    return kept(ROOM, key, Solved, lambda: _solved(solid, stuff, loads, line_width_mm))


def solved_before(solid: Solid, stuff: Stuff, loads: Sequence[Press], line_width_mm: float) -> bool:
    """Return whether the answer is kept."""
    return holds(ROOM, _key(solid, stuff, loads, line_width_mm))


def _key(solid: Solid, stuff: Stuff, loads: Sequence[Press], line_width_mm: float) -> str:
    """Return the content key of an answer."""
    shape = solid.vertices_mm.tobytes(), solid.faces.tobytes()
    return key_of(ELEMENTS_VERSION, *shape, stuff, tuple(loads), line_width_mm)


def _solved(solid: Solid, stuff: Stuff, loads: Sequence[Press], line_width_mm: float) -> Solved:
    """Solve on ever finer meshes; see :func:`solved`."""
    _refuse_unbalanced(loads)
    started_s, shrinks = _processor_s(), SHRINKS if stuff.infill_share < 1.0 else 1.0
    edge_mm = first_edge_mm(solid)
    finer: list[tuple[Vec3, float]] = []
    before, found, was_fine = np.inf, None, False
    for number in range(ROUNDS_MOST_N):
        cells = tetrahedra_of(solid, edge_mm, finer)
        unknowns_n = 3 * len(cells.nodes_mm)
        if number and unknowns_n > UNKNOWNS_MOST_N:
            break
        found, hidden = _one_mesh(solid, cells, stuff, loads, line_width_mm)
        change = 100.0 * abs(found["share_percent"] / before - 1.0) if np.isfinite(before) else 100.0
        found |= {"converged_percent": change, "unknowns_n": unknowns_n, "settled": was_fine and not hidden.elsewhere}
        if found["settled"] and change <= STANDS_PERCENT:
            break
        before, was_fine = found["share_percent"], hidden.fine
        edge_mm /= min(shrinks, max((ROOM_SHARE * UNKNOWNS_MOST_N / unknowns_n) ** (1.0 / 3.0), 1.0))
        room_n = int((ROOM_SHARE * UNKNOWNS_MOST_N - unknowns_n) / PLACE_UNKNOWNS_N)
        finer = [*finer, *hidden.places[: max(room_n, 1)]]
    if found is None:
        raise UnsolvedError(f"{solid.name}: no mesh could be solved")
    return Solved(**found, seconds=_processor_s() - started_s)


def first_edge_mm(solid: Solid) -> float:
    """Return the edge of the first mesh."""
    return float((solid.volume_mm3 / (0.1 * FIRST_N)) ** (1.0 / 3.0))


def worst_of(solid: Solid, stuff: Stuff, cases: Sequence[Sequence[Press]], line_width_mm: float) -> int:
    """Return which of several load cases takes the greatest share on the first mesh; kept by content.

    Raises
    ------
    UnmeshedError, UnsolvedError
        As :func:`solved`.
    """
    if len(cases) == 1:
        return 0
    key = _cases_key(solid, stuff, cases, line_width_mm)
    return kept(ROOM, key, int, lambda: _worst_of(solid, stuff, cases, line_width_mm))


def worst_before(solid: Solid, stuff: Stuff, cases: Sequence[Sequence[Press]], line_width_mm: float) -> bool:
    """Return whether it is kept which case is worst."""
    return len(cases) == 1 or holds(ROOM, _cases_key(solid, stuff, cases, line_width_mm))


def _cases_key(solid: Solid, stuff: Stuff, cases: Sequence[Sequence[Press]], line_width_mm: float) -> str:
    """Return the content key of which case is worst."""
    shape = solid.vertices_mm.tobytes(), solid.faces.tobytes()
    return key_of("cases", ELEMENTS_VERSION, *shape, stuff, tuple(tuple(one) for one in cases), line_width_mm)


def _worst_of(solid: Solid, stuff: Stuff, cases: Sequence[Sequence[Press]], line_width_mm: float) -> int:
    """Solve all cases on the first mesh."""
    for loads in cases:
        _refuse_unbalanced(loads)
    cells = tetrahedra_of(solid, first_edge_mm(solid))
    shares = [found["share_percent"] for found, _ in _each_case(solid, cells, stuff, cases, line_width_mm)]
    return int(np.argmax(shares))


def _processor_s() -> float:
    """Return the processor time of this process and of those that it ended."""
    return sum(os.times()[:4])


def _one_mesh(
    solid: Solid, cells: Tetrahedra, stuff: Stuff, loads: Sequence[Press], line_width_mm: float
) -> tuple[dict[str, Any], Hidden]:
    """Return what one mesh gives, and where the next must be finer."""
    return next(_each_case(solid, cells, stuff, [loads], line_width_mm))


def _each_case(
    solid: Solid, cells: Tetrahedra, stuff: Stuff, cases: Sequence[Sequence[Press]], line_width_mm: float
) -> Iterator[tuple[dict[str, Any], Hidden]]:
    """Yield what one mesh gives for each of several load cases."""
    stiffness, zone = stiffness_mpa(stuff.moduli, stuff.normal), zone_share(cells, stuff)
    matrix, pushed = assembled(cells, stiffness, zone), [pressed(cells, loads) for loads in cases]
    shifts = displaced_each(matrix, cells.nodes_mm, [force for force, _ in pushed], held_lightly(cells.nodes_mm))
    for shift, (_, near) in zip(shifts, pushed, strict=True):
        stress = stresses_mpa(cells, stiffness, zone, shift).reshape(-1, 6)
        yield _averaged(solid, cells, stuff, stress, zone, near, shift, line_width_mm)


def _averaged(
    solid: Solid,
    cells: Tetrahedra,
    stuff: Stuff,
    stress: Floats,
    zone: Floats,
    near: Flags,
    shift: Floats,
    line_width_mm: float,
) -> tuple[dict[str, Any], Hidden]:
    """Return the weakest place with stress averaged over a line's width, and where the next mesh must be finer."""
    at_mm = (POINTS @ cells.corners_mm).reshape(-1, 3)
    volume = np.repeat(cells.volumes_mm3 / 4.0, 4)
    # Strength falls as share^1.5 where stiffness falls as share² (Gibson and Ashby 1997, chapter 5).
    stress = stress / zone.ravel()[:, None] ** 0.75
    share = _share(stress, stuff)
    kept_points = ~np.repeat(near[cells.cells].any(axis=1), 4)
    if not kept_points.any():
        raise UnsolvedError(f"all of {solid.name} lies near to where its loads enter")
    mean, averaged = over_a_line(
        at_mm, volume, stress, np.where(kept_points, share, 0.0), lambda six: _share(six, stuff), line_width_mm
    )
    weakest = int(np.argmax(averaged))
    tree = cKDTree(at_mm)
    skin = np.unique(surface_of(cells)[:, :3])
    nearest = tree.query(cells.nodes_mm[skin])[1]
    found = {
        "weakest_mm": tuple(float(x) for x in at_mm[weakest]),
        "stress_mpa": as_tensors(mean[weakest]),
        "share_percent": float(averaged[weakest]),
        "skin_mm": cells.nodes_mm[skin].astype(np.float32),
        "skin_share_percent": np.where(kept_points, averaged, np.nan)[nearest].astype(np.float32),
        "skin_shift_mm": shift[skin].astype(np.float32),
    }
    return found, hidden_in(cells, at_mm, averaged, line_width_mm)


def _share(stress: Floats, stuff: Stuff) -> Floats:
    """Return the criterion's share of six stresses, in percent."""
    return share_percent(as_tensors(stress), np.array(stuff.normal), stuff.strengths)


def zone_share(cells: Tetrahedra, stuff: Stuff) -> Floats:
    """Return the stiffness at the four points of tetrahedra as a share of the solid's: 1 in the skin, less inside.

    Point by point, so that a tetrahedron across the border of both zones belongs to both.
    """
    core = max(core_stiffness_share(stuff.infill_share), 1e-3)
    if core >= 1.0:
        return np.ones((len(cells.cells), 4))
    # Stretched along the layer normal, so that contours and solid layers are one thickness, as the beam pass does.
    normal = np.array(stuff.normal) / np.linalg.norm(stuff.normal)
    stretch = np.eye(3) + (stuff.side_mm / max(stuff.level_mm, LEVEL_LEAST_MM) - 1.0) * np.outer(normal, normal)
    sides = cells.nodes_mm[surface_of(cells)[:, :3]] @ stretch
    steps_n = int(np.ceil(np.linalg.norm(sides[:, 1] - sides[:, 0], axis=1).max() / max(stuff.side_mm / 2.0, 0.2)))
    a, b = np.meshgrid(np.arange(steps_n + 1), np.arange(steps_n + 1))
    grid = np.stack([a, b, steps_n - a - b], axis=-1)[a + b <= steps_n] / steps_n
    depth = cKDTree((grid @ sides).reshape(-1, 3)).query(POINTS @ cells.corners_mm @ stretch)[0]
    return np.asarray(np.where(depth <= stuff.side_mm, 1.0, core))


def _refuse_unbalanced(loads: Sequence[Press]) -> None:
    """Refuse loads whose forces or moments do not add up to nothing."""
    force, at = np.array([one.force_n for one in loads]), np.array([one.at_mm for one in loads])
    moment = np.cross(at - at.mean(axis=0), force) + np.array([one.couple_n_mm for one in loads])
    size = np.linalg.norm(force, axis=1).max()
    reach = np.linalg.norm(at - at.mean(axis=0), axis=1).max()
    most = max(size * reach, np.linalg.norm(moment, axis=1).max())
    if np.linalg.norm(force.sum(axis=0)) > BALANCE_SHARE * max(size, 1e-9) or np.linalg.norm(
        moment.sum(axis=0)
    ) > BALANCE_SHARE * max(most, 1e-9):
        raise UnsolvedError("the loads are out of balance")
