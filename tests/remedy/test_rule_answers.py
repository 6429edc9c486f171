"""How a job stands, and what a change spoils in it."""

from __future__ import annotations

from collections.abc import Sequence

from planner.finding import Verdict
from planner.job import Edit, with_edits
from planner.plan.changed_job import stands
from planner.remedy import spoiled
from planner.remedy.rule_answers import decided
from tests.conftest import MakeJob
from tests.remedy.devices import pinned

KEY = ("bore.tight", "a", "b1")


def test_drilling_spoils_nothing_and_too_wide_a_drill_does(make_job: MakeJob) -> None:
    """From 4.8 to 5.2 mm a pin of 5 turns; at 7.8 mm it rattles, and a bush would have to follow."""
    stand, again = stands(pinned(make_job, 5.0, 5.0))

    def drilled(to_mm: float) -> list[str]:
        put: dict[str, str | float | Sequence[str]] = {"part": "a", "bores": ["b1"], "kind": "drill", "to_mm": to_mm}
        after = again(with_edits(stand.job, [Edit(table="work", put=put)]))
        return [finding.rule for finding in spoiled(stand, after)]

    assert drilled(5.2) == []
    assert drilled(12.0) == ["bore.loose"]


def test_work_is_decided_once_the_job_states_it(make_job: MakeJob) -> None:
    """A tight bore asks for a drill until the job says so."""
    stand, again = stands(pinned(make_job, 5.0, 5.0))
    put: dict[str, str | float | Sequence[str]] = {"part": "a", "bores": ["b1"], "kind": "drill", "to_mm": 5.2}
    after = again(with_edits(stand.job, [Edit(table="work", put=put)]))
    now, then = stand.worst_of(KEY), after.worst_of(KEY)

    assert now is not None
    assert then is not None
    assert now.verdict is then.verdict is Verdict.GO_WITH_WORK
    assert not decided(stand.job, KEY, now)
    assert decided(after.job, KEY, then)


def test_a_wall_that_is_too_thin_already_is_not_cut_thinner(make_job: MakeJob) -> None:
    """3.7 mm from the edge a bore of 5 leaves 1.2 mm of the 1.35 needed: drilled to 5.2 it is 1.1, which is worse."""
    stand, again = stands(pinned(make_job, 5.0, 5.0, y_mm=(3.7,)))
    put: dict[str, str | float | Sequence[str]] = {"part": "a", "bores": ["b1"], "kind": "drill", "to_mm": 5.2}
    (worse,) = spoiled(stand, again(with_edits(stand.job, [Edit(table="work", put=put)])))

    assert (worse.rule, round(worse.measured or 0.0, 1)) == ("bore.edge", 1.1)
