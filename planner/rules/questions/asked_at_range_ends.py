"""What findings rest on, for rules that are no functions of scale: they are asked again at the ends of all ranges."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from planner.finding import Evidence, Finding, Verdict, worst
from planner.job import Job
from planner.rules.questions.usual_values import corners

Ask = Callable[[Job], Sequence[Finding]]
"""Gives the findings of a job whose printer, limits and materials may stand at an end of their ranges."""


def resting(job: Job, ask: Ask) -> tuple[Finding, ...]:
    """Return what is found, each finding with what it rests on.

    Usual where an end of a range changes the verdict; else measured where it speaks of a part, and stated where it
    compares what the job and its profiles say. What hangs on a guess stays so.
    """
    found = ask(job)
    return compared(found, corners(job) if found else (), ask)


def compared(found: Sequence[Finding], ends: Iterable[Job], ask: Ask) -> tuple[Finding, ...]:
    """Return findings with what they rest on, by what is found with the job's ranges at each of their ends."""
    others = [_by_key(ask(end)) for end in ends] if found else []
    return tuple(_resting(finding, others) for finding in found)


Answers = dict[tuple[str, str, str | None], list[Finding]]


def _by_key(findings: Iterable[Finding]) -> Answers:
    """Return findings by rule, part and feature, and by rule and part alone."""
    by_key: Answers = {}
    for finding in findings:
        for feature in (finding.feature, None):
            by_key.setdefault((finding.rule, finding.part, feature), []).append(finding)
    return by_key


def _resting(finding: Finding, others: Sequence[Answers]) -> Finding:
    """Return one finding with what it rests on; a feature that is not there at an end stands for its rule."""
    if finding.evidence is Evidence.GUESSED:
        return finding
    for other in others:
        named = other.get((finding.rule, finding.part, finding.feature))
        there = named or other.get((finding.rule, finding.part, None))
        if (worst(there) if there else Verdict.GO) is not finding.verdict:
            return replace(finding, evidence=Evidence.USUAL)
    return replace(finding, evidence=Evidence.MEASURED if finding.part else Evidence.STATED)
