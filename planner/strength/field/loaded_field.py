"""One loaded part all over: by elements where their answer is kept, else by beam formulas."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from planner.cache import kept, key_of
from planner.mesh import Solid
from planner.strength.beam.beam_pass import BEAM_VERSION
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.by_elements import question_of
from planner.strength.elements.case_forces import presses_of
from planner.strength.elements.nodal_forces import Press
from planner.strength.elements.refined_elements import Solved
from planner.strength.field.beam_field import BeamWay, beam_shares, beam_ways
from planner.strength.field.bend import Bend, held_still
from planner.strength.screened import Screened
from planner.survey import Survey

Floats = NDArray[np.float64]
FIELD_VERSION = 5
"""Raised whenever a result changes, so that kept ones are not trusted."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LoadedField:
    """What a load does all over a part, at size.

    Parameters
    ----------
    factor
        The scale.
    stuff, ways
        What the part is made of, and its cuts: what tells where elements were not asked.
    answer
        What elements found; None where they were not asked.
    bend
        How it bends; None where elements were not asked.
    """

    factor: float
    stuff: BeamStuff
    ways: tuple[BeamWay, ...] = ()
    answer: Solved | None = None
    bend: Bend | None = None

    @property
    def method(self) -> Literal["beam", "elements"]:
        """By which of both it is told."""
        return "beam" if self.answer is None else "elements"

    def shares_percent(self, points_mm: Floats) -> Floats:
        """Return the share of the low strength at places (n, 3) of the drawn mesh; not a number where it is not told.

        As forces stay, shares fall with the square of the scale.
        """
        if self.answer is None:
            return beam_shares(self.ways, self.stuff, points_mm) / self.factor**2
        nearest = cKDTree(self.answer.skin_mm).query(points_mm)[1]
        return np.asarray(self.answer.skin_share_percent[nearest] / self.factor**2, dtype=float)


def loaded_field(one: Screened, solid: Solid, survey: Survey, factor: float) -> LoadedField | None:
    """Return the field of a screened part at a scale; None where it could not be screened. Nothing is solved again."""
    question = question_of(one, survey, factor)
    if question is None or one.case is None or one.stuff is None:
        return None
    case, stuff = one.case, one.stuff
    if one.elements is not None and not one.elements.unknown and (found := question.kept(solid)):
        worst, answer = found
        bend = _bend(one, answer, presses_of(worst, survey)[: len(worst.answers)], factor)
        return LoadedField(factor=factor, stuff=stuff, answer=answer, bend=bend)
    shape = solid.vertices_mm.tobytes(), solid.faces.tobytes()
    key = key_of("field", FIELD_VERSION, BEAM_VERSION, *shape, case, stuff, factor)
    ways = kept("strength", key, tuple[BeamWay, ...], lambda: beam_ways(solid, case, stuff, factor))
    return LoadedField(factor=factor, stuff=stuff, ways=ways)


def _bend(one: Screened, answer: Solved, holds: Sequence[Press], factor: float) -> Bend:
    """Return how a part bends at size: as forces stay, with one over the scale."""
    points = answer.skin_mm.astype(float)
    stiff = None if one.material is None else one.material.modulus_along_mpa
    return Bend(
        points_mm=points,
        shift_mm=held_still(points, answer.skin_shift_mm.astype(float), holds) / factor,
        low_share=1.0 if stiff is None else stiff.value / stiff.high,
        high_share=1.0 if stiff is None else stiff.value / stiff.low,
    )
