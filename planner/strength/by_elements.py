"""Finite elements where they are asked for: parts under each load case that may be worst, then under the worst."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from planner.finding import Vec3
from planner.job import Job, Material
from planner.mesh import Solid
from planner.strength.criterion import torn
from planner.strength.elements.case_forces import presses_of
from planner.strength.elements.displacements import UnsolvedError
from planner.strength.elements.nodal_forces import Press
from planner.strength.elements.one_mesh import Stuff
from planner.strength.elements.refined_elements import Solved, solved, solved_before
from planner.strength.elements.stiffness import Moduli
from planner.strength.elements.tetrahedra import UnmeshedError
from planner.strength.judging.beam_share import own_factor, share_at
from planner.strength.loads.part_load import LoadCase
from planner.strength.screened import Screened
from planner.strength.told_by_elements import ByElements
from planner.survey import Survey

CASE_SHARE = 1.0 / 3.0
"""A load case may be worst by elements where cuts give it so much of the worst: a bore triples stress (Kirsch 1898)."""
CASES_MOST_N = 6
"""So many cases are solved at most: all on a part's first mesh, those near the worst on every mesh."""


def with_elements(
    job: Job,
    screens: Sequence[Screened],
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    factor: float,
    *,
    ask: Container[str] = (),
    before: Sequence[Screened] = (),
) -> tuple[Screened, ...]:
    """Return screened parts with what elements say of them at a scale.

    Parameters
    ----------
    ask
        Parts that are solved now. Of all others only an answer that is kept is used, since a solution takes up to a
        minute.
    before
        The same device before a change, such as a remedy that is tried: where no answer is kept for a changed part, its
        notches count for as much as before, so that nothing seems mended because it was not solved again.
    """
    known = {(one.part, one.known): one.elements for one in before}
    found = []
    for one in screens:
        size = own_factor(job, one.part) or factor
        by = _asked(one, solids[one.part], surveys[one.part], size, now=one.part in ask)
        found.append(replace(one, elements=by or known.get((one.part, one.known))))
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What elements are asked about a solid, all at drawn size.

    Parameters
    ----------
    stuff
        What it is made of.
    cases, presses
        The load cases that may be worst, and each as it presses the solid.
    line_mm
        A line's width.
    """

    stuff: Stuff
    cases: tuple[LoadCase, ...]
    presses: tuple[tuple[Press, ...], ...]
    line_mm: float

    def kept(self, solid: Solid) -> tuple[LoadCase, Solved] | None:
        """Return the case that is worst and its answer; None where it is not kept."""
        asked = solid, self.stuff, self.presses, self.line_mm
        if not solved_before(*asked):
            return None
        answer = solved(*asked)
        return self.cases[answer.case_n], answer


def question_of(one: Screened, survey: Survey, factor: float) -> Question | None:
    """Return what elements are asked about a screened part at a scale; None where it has no load.

    Lengths that are printed the same at every scale, the skin and the line, are brought to the drawn size; stress goes
    with one over the square of the scale, as forces stay.
    """
    if one.case is None or one.stuff is None or one.material is None or one.weakest is None:
        return None
    cases = may_be_worst(one)
    stuff = Stuff(
        strengths=one.stuff.strengths,
        normal=one.stuff.normal,
        side_mm=one.stuff.side_mm / factor,
        level_mm=one.stuff.level_mm / factor,
        infill_share=one.stuff.infill_share,
        moduli=_moduli(one.material),
    )
    return Question(
        stuff=stuff,
        cases=cases,
        presses=tuple(presses_of(case, survey) for case in cases),
        line_mm=one.line_mm / factor,
    )


def _asked(one: Screened, solid: Solid, survey: Survey, factor: float, *, now: bool) -> ByElements | None:
    """Return what elements say of a part; None where it has no load, or nothing is kept and it is not asked for now."""
    question = question_of(one, survey, factor)
    if question is None or one.weakest is None:
        return None
    asked = solid, question.stuff, question.presses, question.line_mm
    if not now and not solved_before(*asked):
        return None
    beam_percent = share_at(one.weakest.share_percent, factor)
    try:
        answer = solved(*asked)
    except (UnmeshedError, UnsolvedError) as fault:
        return ByElements(factor=factor, beam_percent=beam_percent, unknown=str(fault))
    return replace(_told(answer, question.stuff, factor, beam_percent), case_said=_case_said(one, question, answer))


def _case_said(one: Screened, question: Question, answer: Solved) -> str:
    """Say which load case is worst, and how many were solved; empty where a part has one alone."""
    if len(one.cases) == 1:
        return ""
    worst, n = question.cases[answer.case_n].said, len(question.cases)
    last = f", {answer.cases_n} of them on every mesh" if n > 1 else ""
    return f"{worst}; {n} of {len(one.cases)} loads were solved{last}"


def may_be_worst(one: Screened) -> tuple[LoadCase, ...]:
    """Return the load cases that may be worst by elements: at each place the worst, then the others, by their cuts."""
    assert one.weakest is not None
    shares = one.weakest.case_shares or (1.0,) * len(one.cases)
    ranked = sorted(range(len(one.cases)), key=lambda k: -shares[k])
    first: dict[Vec3, int] = {}
    for k in ranked:
        first.setdefault(one.cases[k].pushes[0].at_mm, k)
    order = [*first.values(), *(k for k in ranked if k not in first.values())]
    return tuple(one.cases[k] for k in order if shares[k] >= CASE_SHARE)[:CASES_MOST_N] or one.cases[:1]


def _told(answer: Solved, stuff: Stuff, factor: float, beam_percent: float) -> ByElements:
    """Return an answer at size."""
    return ByElements(
        factor=factor,
        beam_percent=beam_percent,
        share_percent=answer.share_percent / factor**2,
        at_mm=answer.weakest_mm,
        stress_mpa=float(np.abs(np.linalg.eigvalsh(answer.stress_mpa)).max()) / factor**2,
        direction=torn(answer.stress_mpa, np.array(stuff.normal), stuff.strengths),
        unknowns_n=answer.unknowns_n,
        seconds=answer.seconds,
        converged_percent=answer.converged_percent,
        stands=answer.stands and not answer.untold_n,
        untold_n=answer.untold_n,
        also_mm=answer.ties_mm,
        meshes_n=answer.meshes_n,
        hides_ratio=answer.hides_ratio,
    )


def _moduli(material: Material) -> Moduli:
    """Return a material's elastic constants, the middles of their ranges: stress hangs on their ratio alone."""
    return Moduli(
        along_mpa=material.modulus_along_mpa.value,
        across_mpa=material.modulus_across_mpa.value,
        poisson_ratio=material.poisson_ratio.value,
    )
