"""One loaded part all over: by elements where their answer is kept, else by beam formulas."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from planner.cache import kept, key_of
from planner.mesh import Solid
from planner.strength.beam.beam_pass import BEAM_VERSION
from planner.strength.by_elements import Question, question_of
from planner.strength.elements.solved import Solved, solved, solved_before
from planner.strength.field.beam_field import beam_shares, beam_ways
from planner.strength.field.bend import Bend, held_still
from planner.strength.screened import Screened
from planner.survey import Survey

Floats = NDArray[np.float64]
FIELD_VERSION = 1
"""Raised whenever a result changes, so that kept ones are not trusted."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LoadedField:
    """What a load does all over a part, at size.

    Parameters
    ----------
    method
        By which of both it is told.
    shares_percent
        Gives the share of the low strength at places (n, 3) of the drawn mesh; not a number where it is not told.
    bend
        How it bends; None where elements were not asked.
    """

    method: Literal["beam", "elements"]
    shares_percent: Callable[[Floats], Floats]
    bend: Bend | None = None


def loaded_field(one: Screened, solid: Solid, survey: Survey, factor: float) -> LoadedField | None:
    """Return the field of a screened part at a scale; None where it could not be screened. Nothing is solved anew."""
    question = question_of(one, survey, factor)
    if question is None or one.case is None or one.stuff is None:
        return None
    if one.elements is not None and not one.elements.unknown and solved_before(solid, *question):
        return _by_elements(one, solved(solid, *question), question, factor)
    case, stuff = one.case, one.stuff
    shape = solid.vertices_mm.tobytes(), solid.faces.tobytes()
    key = key_of("field", FIELD_VERSION, BEAM_VERSION, *shape, case, stuff, factor)
    ways = kept("strength", key, lambda: beam_ways(solid, case, stuff, factor))
    return LoadedField(method="beam", shares_percent=lambda points: beam_shares(ways, stuff, points) / factor**2)


def _by_elements(one: Screened, answer: Solved, question: Question, factor: float) -> LoadedField:
    """Return what elements found: shares fall with the square of the scale, bends with the scale, as forces stay."""
    tree = cKDTree(answer.skin_mm)
    _, loads, _ = question
    answers_n = 0 if one.case is None else len(one.case.answers)
    still = held_still(answer.skin_mm.astype(float), answer.skin_shift_mm.astype(float), loads[:answers_n])
    stiff = None if one.material is None else one.material.modulus_along_mpa
    return LoadedField(
        method="elements",
        shares_percent=lambda points: answer.skin_share_percent[tree.query(points)[1]] / factor**2,
        bend=Bend(
            points_mm=answer.skin_mm.astype(float),
            shift_mm=still / factor,
            low_share=1.0 if stiff is None else stiff.value / stiff.high,
            high_share=1.0 if stiff is None else stiff.value / stiff.low,
        ),
    )
