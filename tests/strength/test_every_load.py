"""All loads on a part together: its own, what others pass on, what hangs at a tip; a cover has none."""

from __future__ import annotations

from dataclasses import replace

from planner.strength.every_load import EveryLoad
from planner.strength.hung.hung_loads import HungLoads
from planner.strength.loads.passed_on import loads_on_others
from planner.survey import survey
from tests.conftest import MakeJob
from tests.strength.hung.chain import hung

STATED = "[use]\nload_n = 10.0\nhang_n = 3.0\n"


def _every(weight: HungLoads, *, hangs: bool = True) -> EveryLoad:
    """Return the loads of a chain on two straps, of which the finger is driven; whether its weight hangs there."""
    job, claims = weight.job, weight.ways["finger"].claims
    surveys = {name: survey(solid) for name, solid in weight.solids.items()}
    return EveryLoad(
        job=job,
        surveys=surveys,
        claims=claims,
        frames=weight.frames,
        held=weight.held,
        load_n=10.0,
        at_load=weight.tips,
        moved=(),
        gripped="",
        others=loads_on_others(job, surveys, claims, weight.frames, weight.held, weight.tips, (), 10.0),
        hung=weight if hangs else None,
    )


def test_a_shell_is_under_what_hangs_at_a_tip_and_under_nothing_else(make_job: MakeJob) -> None:
    """All straps holding is known, one alone is asked; without a weight a shell is not screened, as before."""
    weight = hung(make_job, use=STATED)
    plate = weight.job.part("plate")
    found = _every(weight).on(plate)

    assert found is not None
    assert [[case.said.split(",")[1] for case in each] for each in found] == [
        [" all straps holding"],
        [" levered over its near edge and held by the farthest strap alone"],
    ]
    assert _every(weight, hangs=False).on(plate) is None


def test_a_part_has_its_own_loads_beside_what_hangs(make_job: MakeJob) -> None:
    """The finger's own 10 N and the 3 N that hang there are known; where the arm is pressed nobody has stated."""
    every = _every(hung(make_job, use=STATED))
    finger, arm = (every.on(every.job.part(name)) for name in ("finger", "arm"))

    assert finger is not None
    assert arm is not None
    assert [case.said.split(" (")[0] for case in finger[0]] == ["10 N at the tip", "3 N"]
    assert [case.said.split(" (")[0] for case in arm[0]] == ["3 N"]
    assert all(case.asks for case in arm[1])


def test_a_cover_is_not_screened(make_job: MakeJob) -> None:
    """It carries nothing."""
    every = _every(hung(make_job))
    assert every.on(replace(every.job.part("tab"), duty="cover")) is None
