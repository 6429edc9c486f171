"""The weakest place of a part under loads in balance, by elements that are made finer there until its share stands."""

from __future__ import annotations

import math
import os
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from planner.cache import holds, kept, key_of
from planner.finding import Vec3
from planner.mesh import Solid
from planner.strength.elements.displacements import UnsolvedError
from planner.strength.elements.nodal_forces import Press, refuse_unbalanced
from planner.strength.elements.one_mesh import OnMesh, Stuff, on_mesh
from planner.strength.elements.tetrahedra import UnmeshedError, tetrahedra_of
from planner.strength.elements.unresolved import STANDS_PERCENT

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]
ELEMENTS_VERSION = 8
ROOM = "elements"
"""Where answers are kept."""
UNKNOWNS_MOST_N = 360_000
"""Unknowns of all meshes of a part together: about 0.13 ms of processor time each, the mesher's with it, as measured on
a plate of 300 mm (40 000 to 187 000 unknowns a mesh, two cores, 2026): a part ends within a minute."""
CASE_COST = 1.0 / 3.0
"""Another load case on the same mesh costs so much of the first one: the mesher and the solver's set-up are shared."""
GROWS_LEAST = 1.1
"""A mesh that cannot have so many times the unknowns of the one before tells nothing."""
SHRINKS = 1.5
"""Where infill is softer than the skin all edges shrink so much from mesh to mesh, as far as there is room for more,
not those at the hottest places alone: tetrahedra across the border of both zones gave 24 % too much stress in a bent
bar, with edges of twice the skin's thickness, and 4 % with edges of half of it."""
ROOM_SHARE = 0.7
"""Of the unknowns that are left, so many are aimed at: a mesh grows by more than its edges tell."""
PLACE_UNKNOWNS_N = 500
"""So many unknowns a place that is made finer costs, as measured on bars with inner corners."""
FIRST_N = 4000
"""Tetrahedra that the first mesh aims at."""
WORST_SHARE = 0.8
"""Load cases are solved on the next, finer mesh, too, that take so much of the worst on the one before."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # arrays do not compare
class Solved:
    """What elements found; ``share_percent`` is the root of the criterion's index, averaged over one line width."""

    case_n: int = 0
    """Which of the load cases takes the most."""
    cases_n: int = 1
    """How many were solved on the last mesh."""
    untold_n: int = 0
    """How many press all of the part, so that nothing away from them is left to tell."""
    weakest_mm: Vec3
    ties_mm: tuple[Vec3, ...] = ()
    """Other places that take as much, within what counts as standing."""
    stress_mpa: Floats
    """Averaged stress there, (3, 3)."""
    share_percent: float
    converged_percent: float
    """By how much the share changed with the last, finer mesh; 100 after one mesh alone."""
    meshes_n: int = 2
    unknowns_n: int
    """Of the last mesh."""
    seconds: float
    """Of processor time, the mesher's with it."""
    settled: bool = True
    """Whether no place may hide a greater share, because edges are too long there for an average over a line's width,
    in the last mesh; and whether they were short enough at the weakest place in the one before."""
    hides_ratio: float = 1.0
    """How many times its share the last mesh may hide."""
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


def solved(solid: Solid, stuff: Stuff, cases: Sequence[Sequence[Press]], line_width_mm: float) -> Solved:
    """Return the weakest place of a sound solid under the worst of load cases, each in balance; kept by content.

    Every case is solved on the first mesh; those that take nearly as much as the worst, on every finer one.

    Raises
    ------
    UnmeshedError
        No usable tetrahedra could be made.
    UnsolvedError
        Loads out of balance, or no solution.
    """
    key = _key(solid, stuff, cases, line_width_mm)
    return kept(ROOM, key, Solved, lambda: _solved(solid, stuff, cases, line_width_mm))


def solved_before(solid: Solid, stuff: Stuff, cases: Sequence[Sequence[Press]], line_width_mm: float) -> bool:
    """Return whether the answer is kept."""
    return holds(ROOM, _key(solid, stuff, cases, line_width_mm))


def _key(solid: Solid, stuff: Stuff, cases: Sequence[Sequence[Press]], line_width_mm: float) -> str:
    """Return the content key of an answer."""
    shape = solid.vertices_mm.tobytes(), solid.faces.tobytes()
    return key_of(ELEMENTS_VERSION, *shape, stuff, tuple(tuple(one) for one in cases), line_width_mm)


def _solved(solid: Solid, stuff: Stuff, cases: Sequence[Sequence[Press]], line_width_mm: float) -> Solved:
    """Solve on ever finer meshes, until the share stands or the unknowns are spent; see :func:`solved`."""
    for loads in cases:
        refuse_unbalanced(loads)
    started_s, shrinks = _processor_s(), SHRINKS if stuff.infill_share < 1.0 else 1.0
    edge_mm, left_n = first_edge_mm(solid), float(UNKNOWNS_MOST_N)
    finer: list[tuple[Vec3, float]] = []
    found: Solved | None = None
    alive, was_fine, untold_n = list(range(len(cases))), False, 0
    while True:
        cost = 1.0 + CASE_COST * (len(alive) - 1)
        try:
            cells = tetrahedra_of(solid, edge_mm, finer, most_n=int(left_n / cost))
            told = on_mesh(cells, stuff, [cases[k] for k in alive], line_width_mm)
            answers = {k: one for k, one in zip(alive, told, strict=True) if one is not None}
        except (UnmeshedError, UnsolvedError):
            if found is None:
                raise
            break  # what the mesh before says stays, as not settled
        if found is None:
            untold_n = len(cases) - len(answers)
            if not answers:
                raise UnsolvedError(f"all of {solid.name} lies near to where its loads enter")
        if not answers:
            break
        worst = max(answers, key=lambda k: answers[k].share_percent)
        unknowns_n, one = 3 * len(cells.nodes_mm), answers[worst]
        found = _found(found, one, worst, answers, unknowns_n, was_fine=was_fine)
        if found.stands:
            break
        left_n -= cost * unknowns_n
        alive = [k for k in answers if answers[k].share_percent >= WORST_SHARE * one.share_percent]
        room_n = ROOM_SHARE * left_n / (1.0 + CASE_COST * (len(alive) - 1))
        if room_n < GROWS_LEAST * unknowns_n:
            break
        was_fine = one.hidden.fine
        edge_mm /= min(shrinks, (room_n / unknowns_n) ** (1.0 / 3.0))
        places = [place for k in alive for place in answers[k].hidden.places]
        finer = [*finer, *places[: max(int((room_n - unknowns_n) / PLACE_UNKNOWNS_N), 1)]]
    assert found is not None  # the loop ends with an answer or an error
    return replace(found, seconds=_processor_s() - started_s, untold_n=untold_n)


def _found(
    before: Solved | None, one: OnMesh, worst: int, answers: dict[int, OnMesh], unknowns_n: int, *, was_fine: bool
) -> Solved:
    """Return what is found with a mesh after the one before it."""
    change = 100.0 if before is None else 100.0 * abs(_ratio(one.share_percent, before.share_percent) - 1.0)
    hides = _ratio(max(each.hidden.most_percent for each in answers.values()), one.share_percent)
    return Solved(
        case_n=worst,
        cases_n=len(answers),
        weakest_mm=one.weakest_mm,
        ties_mm=one.ties_mm,
        stress_mpa=one.stress_mpa,
        share_percent=one.share_percent,
        converged_percent=change,
        meshes_n=1 if before is None else before.meshes_n + 1,
        unknowns_n=unknowns_n,
        seconds=0.0,
        settled=was_fine and hides <= 1.0 + STANDS_PERCENT / 100.0,
        hides_ratio=hides,
        skin_mm=one.skin_mm,
        skin_share_percent=one.skin_share_percent,
        skin_shift_mm=one.skin_shift_mm,
    )


def first_edge_mm(solid: Solid) -> float:
    """Return the edge of the first mesh."""
    return float((solid.volume_mm3 / (0.1 * FIRST_N)) ** (1.0 / 3.0))


def _processor_s() -> float:
    """Return the processor time of this process and of those that it ended."""
    return sum(os.times()[:4])


def _ratio(share_percent: float, to_percent: float) -> float:
    """Return how many times one share is another; 1 where loads cancel out and neither is any."""
    if to_percent > 0.0:
        return share_percent / to_percent
    return 1.0 if share_percent <= 0.0 else math.inf
