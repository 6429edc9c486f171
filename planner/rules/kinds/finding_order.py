"""The order in which findings are shown: what puts every other number in doubt, then worst first."""

from __future__ import annotations

from collections.abc import Iterable

from planner.finding import Finding
from planner.job import kind_of


def by_severity(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return findings that put all others in doubt first, then worst first, in their own order within a verdict.

    A part in the wrong unit, for one, fails everywhere else, too.
    """
    return tuple(sorted(findings, key=lambda finding: (not _in_doubt(finding), -finding.verdict.severity)))


def _in_doubt(finding: Finding) -> bool:
    """Return whether a finding puts every other number in doubt."""
    return not finding.verdict.passes and kind_of(finding.rule).undermines
