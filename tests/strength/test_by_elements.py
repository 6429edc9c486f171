"""What elements say of screened parts: asked or kept, carried over a change, and never a go where they settle nothing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from planner.finding import Verdict
from planner.job import Job, Material, read_job
from planner.strength import ByElements, Screened, Strengths, strength_rules, with_elements
from planner.strength.beam.beam_pass import KNOTS, Weakest
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.elements.refined_elements import Solved
from planner.strength.elements.tetrahedra import UnmeshedError
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from planner.survey import survey
from tests.shapes import cuboid

BAR = cuboid(60.0, 8.0, 8.0)
CASE = known_case(
    [PartLoad(at_mm=(60.0, 4.0, 4.0), force_n=(0.0, 9.0, 0.0))], [Support(at_mm=(0.0, 4.0, 4.0))], "9 N at the tip"
)
WEAK = Weakest(
    at_mm=(0.0, 0.0, 0.0),
    cut_at_mm=(0.0, 0.0, 0.0),
    normal=(1.0, 0.0, 0.0),
    area_mm2=64.0,
    stress_mpa=8.0,
    direction="along",
    case_n=0,
    share_percent=(20.0,) * len(KNOTS),
    cuts_n=1,
)


@pytest.fixture(name="bar")
def _bar(petg: Material) -> Screened:
    """Return a bar that is screened by beam formulas: 20 % at 100 %, 5 % at 200 %."""
    stuff = BeamStuff(
        strengths=Strengths(along_mpa=40.0, across_mpa=25.0, shear_mpa=15.0),
        normal=(0.0, 0.0, 1.0),
        side_mm=1.35,
        level_mm=0.8,
        infill_share=0.2,
    )
    return Screened(
        part="jaw", known=True, stuff=stuff, material=petg, case=CASE, cases=(CASE,), weakest=WEAK, line_mm=0.45
    )


class Solver:
    """Stands for the solver: tells what it was asked for, and says a share of 60 % at drawn size."""

    def __init__(self, changed_percent: float = 1.0, *, refuses: bool = False, case_n: int = 0) -> None:
        self.asked: list[tuple[float, float]] = []
        self.changed_percent, self.refuses, self.case_n = changed_percent, refuses, case_n

    def __call__(self, _solid: Any, stuff: Any, cases: Sequence[Any], line_mm: float) -> Solved:
        """Answer."""
        self.asked.append((stuff.side_mm, line_mm))
        if self.refuses:
            raise UnmeshedError("jaw: the mesher gave up; 6 tries")
        return Solved(
            case_n=self.case_n,
            cases_n=len(cases),
            weakest_mm=(30.0, 8.0, 4.0),
            stress_mpa=np.diag([24.0, 0.0, 0.0]),
            share_percent=60.0,
            converged_percent=self.changed_percent,
            unknowns_n=3000,
            seconds=2.0,
            skin_mm=np.zeros((8, 3), np.float32),
            skin_share_percent=np.zeros(8, np.float32),
            skin_shift_mm=np.zeros((8, 3), np.float32),
        )


def _asked(monkeypatch: pytest.MonkeyPatch, job: Job, bar: Screened, solver: Solver, **more: Any) -> Screened:
    """Return the bar with what a solver says at 200 %."""
    monkeypatch.setattr("planner.strength.by_elements.solved", solver)
    (one,) = with_elements(job, [bar], {"jaw": BAR}, {"jaw": survey(BAR)}, 2.0, **more)
    return one


@pytest.fixture(name="job")
def _job(heron: Path) -> Job:
    """Return a job with a jaw."""
    return read_job(heron)


def test_a_part_is_solved_at_size_with_its_lines_as_printed(
    monkeypatch: pytest.MonkeyPatch, job: Job, bar: Screened
) -> None:
    """By hand at 200 %: skin and line half as thick against the drawing, a quarter of the share and of the stress."""
    solver = Solver()
    one = _asked(monkeypatch, job, bar, solver, ask={"jaw"})
    assert one.elements is not None

    assert solver.asked == [(1.35 / 2.0, 0.45 / 2.0)]
    assert (one.elements.share_percent, one.elements.stress_mpa) == (15.0, 6.0)
    assert (one.elements.beam_percent, one.elements.ratio) == (5.0, 3.0)
    (rule,) = strength_rules(job, [one])
    assert rule.at(2.0).measured == pytest.approx(15.0)
    assert "finite elements" in rule.at(2.0).why
    assert rule.at(0.8).verdict is Verdict.HOLD


def test_nothing_is_solved_that_nobody_asked_for(monkeypatch: pytest.MonkeyPatch, job: Job, bar: Screened) -> None:
    """Without a kept answer the part stays with its beam pass; after a change its notches count as before."""
    solver = Solver()
    plain = _asked(monkeypatch, job, bar, solver)
    before = replace(bar, elements=ByElements(factor=2.0, beam_percent=5.0, share_percent=10.0, stands=True))
    carried = _asked(monkeypatch, job, bar, solver, before=[before])

    assert solver.asked == []
    assert plain.elements is None
    assert carried.elements is not None
    assert carried.elements.ratio == 2.0
    assert strength_rules(job, [carried])[0].at(2.0).measured == pytest.approx(10.0)


@pytest.mark.parametrize(("solver", "says"), [(Solver(refuses=True), "gave up"), (Solver(12.0), "do not settle")])
def test_elements_that_settle_nothing_are_a_hold_where_it_could_matter(
    monkeypatch: pytest.MonkeyPatch, job: Job, bar: Screened, solver: Solver, says: str
) -> None:
    """A mesh that is refused (a notch might quadruple 20 %), or a share of 42 % that still changes by 12 %: a hold."""
    one = _asked(monkeypatch, job, bar, solver, ask={"jaw"})
    (rule,) = strength_rules(job, [one])
    s = 1.0 if solver.refuses else (60.0 / 42.0) ** 0.5

    assert (rule.at(s).verdict, rule.at(2.0).verdict) == (Verdict.HOLD, Verdict.GO)
    assert says in rule.at(2.0).why
    assert any(s < turn < 2.0 for turn in rule.turns())


def test_the_case_that_elements_find_worst_is_told(monkeypatch: pytest.MonkeyPatch, job: Job, bar: Screened) -> None:
    """Of two loads the second by elements, though cuts ranked the first: told with how many were solved on every mesh."""
    other = replace(CASE, said="9 N at the heel")
    weak = replace(WEAK, case_shares=(1.0, 0.9))
    solver = Solver(case_n=1)
    one = _asked(monkeypatch, job, replace(bar, cases=(CASE, other), weakest=weak), solver, ask={"jaw"})
    assert one.elements is not None

    assert one.elements.case_said.startswith("9 N at the ")
    assert one.elements.case_said.endswith("2 of 2 loads were solved, 2 of them on every mesh")
