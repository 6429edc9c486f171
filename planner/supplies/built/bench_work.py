"""Work by hand on printed openings, as the check asks for it."""

from __future__ import annotations

from collections.abc import Sequence

from planner.finding import Finding, Verdict, Work
from planner.job import Job, kind_of
from planner.supplies.supplies import BenchWork


def bench_work(job: Job, findings: Sequence[Finding]) -> tuple[BenchWork, ...]:
    """Return all work that the check asks for on openings, in the order of the findings."""
    counts = {part.name: part.count for part in job.parts}
    return tuple(
        BenchWork(
            part=finding.part,
            count=counts.get(finding.part, 1),
            feature=finding.feature,
            what=finding.remedy,
            at_mm=finding.at_mm,
            work=finding.work,
        )
        for finding in findings
        if finding.verdict is Verdict.GO_WITH_WORK and kind_of(finding.rule).bench
    )


def works_on(name: str, findings: Sequence[Finding]) -> tuple[tuple[Finding, Work], ...]:
    """Return the findings that ask for work on the openings of one piece of hardware, cord or strap, with that work."""
    return tuple(
        (finding, finding.work)
        for finding in findings
        if finding.work is not None and finding.work.hardware == name and finding.verdict is Verdict.GO_WITH_WORK
    )
