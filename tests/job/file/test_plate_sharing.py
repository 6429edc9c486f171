"""Spares, and parts that lie together or apart: what the job file says, and what it may not."""

from __future__ import annotations

import pytest

from planner.errors import JobError
from planner.plan import rules_of
from tests.conftest import MakeJob
from tests.shapes import cuboid

PARTS = '[job]\nname = "x"\n' + "".join(f'[[part]]\nname = "{n}"\nmesh = "{n}.stl"\n' for n in "abc")


def test_spares_are_printed_beside_what_is_built_in(make_job: MakeJob) -> None:
    """Count is what the device has; spares come on top."""
    job = make_job(PARTS + "count = 2\nspares = 1\n", a=cuboid(9, 9, 9), b=cuboid(9, 9, 9), c=cuboid(9, 9, 9))

    assert (job.part("c").count, job.part("c").printed_n) == (2, 3)
    assert job.part("a").printed_n == 1


def test_sets_that_share_a_part_are_one_set(make_job: MakeJob) -> None:
    """a with b, and b with c: all three lie together."""
    text = PARTS + '[plan]\ntogether = [["a", "b"], ["b", "c"]]\n'
    job = make_job(text, a=cuboid(9, 9, 9), b=cuboid(9, 9, 9), c=cuboid(9, 9, 9))
    rules = rules_of(job, job.printer)

    assert rules.together == (frozenset("abc"),)


@pytest.mark.parametrize(
    ("plan", "told"),
    [
        ('together = ["a", "b"]', "a list of lists"),
        ('together = [["a"]]', "at least 2"),
        ('together = [["a", "a"]]', "twice"),
        ('apart = [["a", "bb"]]', "no part is called 'bb'"),
        ('together = [["a", "b"], ["b", "c"]]\napart = [["a", "c"]]', "together as well"),
    ],
)
def test_rules_that_cannot_be_are_refused(make_job: MakeJob, plan: str, told: str) -> None:
    """One sentence each; contradictions too."""
    with pytest.raises(JobError, match=told):
        make_job(PARTS + f"[plan]\n{plan}\n", a=cuboid(9, 9, 9), b=cuboid(9, 9, 9), c=cuboid(9, 9, 9))
