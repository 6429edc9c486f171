"""What one mesh says of a part under each of several load cases, with stress averaged over a line's width."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from planner.finding import Vec3
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.criterion import share_percent
from planner.strength.elements.averaged import over_a_line
from planner.strength.elements.displacements import displaced_each, held_lightly
from planner.strength.elements.nodal_forces import Press, pressed, surface_of
from planner.strength.elements.stiffness import Moduli, as_tensors, stiffness_mpa
from planner.strength.elements.stiffness_matrix import POINTS, assembled, stresses_mpa
from planner.strength.elements.tetrahedra import Tetrahedra
from planner.strength.elements.ties import ties_mm
from planner.strength.elements.unresolved import Hidden, hidden_in
from planner.strength.elements.zones import zone_share

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stuff(BeamStuff):
    """What a part is made of: what the beam pass takes, and its stiffness by direction."""

    moduli: Moduli


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # arrays do not compare
class OnMesh:
    """What one mesh says under one load case; what each figure is stands with :class:`Solved`."""

    weakest_mm: Vec3
    ties_mm: tuple[Vec3, ...]
    stress_mpa: Floats
    share_percent: float
    skin_mm: Singles
    skin_share_percent: Singles
    skin_shift_mm: Singles
    hidden: Hidden
    """Where the next mesh must be finer."""


def on_mesh(
    cells: Tetrahedra, stuff: Stuff, cases: Sequence[Sequence[Press]], line_width_mm: float
) -> Iterator[OnMesh | None]:
    """Yield what one mesh says under each of several load cases: stiffness and solver are set up once.

    None where all of the solid lies near to where its loads enter, so that nothing is left to tell.

    Raises
    ------
    UnsolvedError
        No displacement was found.
    """
    stiffness, zone = stiffness_mpa(stuff.moduli, stuff.normal), zone_share(cells, stuff)
    matrix, pushed = assembled(cells, stiffness, zone), [pressed(cells, loads) for loads in cases]
    shifts = displaced_each(matrix, cells, [force for force, _ in pushed], held_lightly(cells.nodes_mm))
    for shift, (_, near) in zip(shifts, pushed, strict=True):
        stress = stresses_mpa(cells, stiffness, zone, shift).reshape(-1, 6)
        yield _averaged(cells, stuff, stress, zone, near, shift, line_width_mm)


def _averaged(
    cells: Tetrahedra,
    stuff: Stuff,
    stress: Floats,
    zone: Floats,
    near: Flags,
    shift: Floats,
    line_width_mm: float,
) -> OnMesh | None:
    """Return the weakest place with stress averaged over a line's width, and where the next mesh must be finer."""
    at_mm = (POINTS @ cells.corners_mm).reshape(-1, 3)
    volume = np.repeat(cells.volumes_mm3 / 4.0, 4)
    # Strength falls as share^1.5 where stiffness falls as share² (Gibson and Ashby 1997, chapter 5).
    stress = stress / zone.ravel()[:, None] ** 0.75
    share = _share(stress, stuff)
    kept_points = ~np.repeat(near[cells.cells].any(axis=1), 4)
    if not kept_points.any():
        return None
    mean, averaged = over_a_line(
        at_mm, volume, stress, np.where(kept_points, share, 0.0), lambda six: _share(six, stuff), line_width_mm
    )
    weakest = int(np.argmax(averaged))
    skin = np.unique(surface_of(cells)[:, :3])
    nearest = cKDTree(at_mm).query(cells.nodes_mm[skin])[1]
    x, y, z = (float(value) for value in at_mm[weakest])
    return OnMesh(
        weakest_mm=(x, y, z),
        ties_mm=ties_mm(at_mm, averaged),
        stress_mpa=as_tensors(mean[weakest]),
        share_percent=float(averaged[weakest]),
        skin_mm=cells.nodes_mm[skin].astype(np.float32),
        skin_share_percent=np.where(kept_points, averaged, np.nan)[nearest].astype(np.float32),
        skin_shift_mm=shift[skin].astype(np.float32),
        hidden=hidden_in(cells, at_mm, averaged, line_width_mm),
    )


def _share(stress: Floats, stuff: Stuff) -> Floats:
    """Return the criterion's share of six stresses, in percent."""
    return share_percent(as_tensors(stress), np.array(stuff.normal), stuff.strengths)
