"""What edits change, kept apart: laid over a job one by one, they give the job of the edited file."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from pathlib import Path

from planner.job import Edit, Job, changes_of, read_job, with_edits

EDITS = [
    [Edit(table="part", name="cuff", put={"duty": "load"})],
    [Edit(table="part", name="cuff", put={"spares": 2}), Edit(table="use", put={"load_n": 12.0})],
    [Edit(table="hardware", name="pivot post", drop=True)],
    [Edit(table="hardware", name="new pin", put={"kind": "dowel-pin", "diameter_mm": 4.0, "joins": ["cuff"]})],
    [Edit(table="strap", name="cuff strap", put={"webbing_mm": 15.0})],
    [Edit(table="job", put={"material": "pla"})],
    [],
]


def _plain(job: Job) -> Job:
    """Return a job without its notes, which no edit states."""
    return replace(job, notes=())


def test_each_changes_the_job_as_its_edits_do(heron: Path) -> None:
    """For edits of six tables, added, changed and dropped entries: the same job as the edited text reads as."""
    job = read_job(heron)

    for edits, changes in zip(EDITS, changes_of(job, EDITS), strict=True):
        assert _plain(changes.on(job)) == _plain(with_edits(job, edits)), edits


def test_two_laid_over_each_other_are_both_made(heron: Path) -> None:
    """Answers to two questions, also about the same part, come to the job of both edits."""
    job = read_job(heron)
    changes = changes_of(job, EDITS)

    for one, other in combinations(range(len(EDITS)), 2):
        both = changes[other].on(changes[one].on(job))
        assert _plain(both) == _plain(with_edits(job, [*EDITS[one], *EDITS[other]])), (EDITS[one], EDITS[other])


def test_what_a_job_holds_by_now_stays(heron: Path) -> None:
    """A stack filled in from the bores is kept when only the diameter is answered."""
    job = read_job(heron)
    first = job.hardware[0]
    filled = replace(job, hardware=(replace(first, stack_mm=33.0), *job.hardware[1:]))
    (changes,) = changes_of(job, [[Edit(table="hardware", name=first.name, put={"diameter_mm": 6.0})]])

    after = changes.on(filled).hardware[0]
    assert (after.diameter_mm, after.stack_mm) == (6.0, 33.0)


def test_a_unit_asks_for_new_measures_and_a_duty_does_not(heron: Path) -> None:
    """Only answers that leave the surveys as they are can be judged with them."""
    unit = [Edit(table="part", name="cuff", put={"mesh_unit": "inch"})]
    size = [Edit(table="size", put={"percent": 90.0})]
    found = changes_of(read_job(heron), [unit, size, *EDITS])

    assert [one.remeasures for one in found] == [True, True] + [False] * len(EDITS)
