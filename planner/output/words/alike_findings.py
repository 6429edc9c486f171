"""Findings that one sentence can tell: the same rule with the same verdict, in one part or in several."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from planner.finding import Evidence, Finding, Verdict
from planner.phrases import listed

NUMBERED = re.compile(r"--do \d+")
CUT = ("drill", "ream")
"""What is the same work in another part if it cuts to the same size."""
NAMED_MOST = 4
"""So many parts are named; the others are counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Alike:
    """Findings of one rule and verdict, the one that misses its limit most first."""

    findings: tuple[Finding, ...]

    @property
    def worst(self) -> Finding:
        """The finding that misses its limit most."""
        return self.findings[0]

    @property
    def also(self) -> str:
        """Where else it is so; empty where it stands alone.

        A part's own further places come first, then other parts with how many places each has.
        """
        counts: dict[str, int] = {}
        numbers: dict[str, list[str]] = {}
        for finding in self.findings[1:]:
            counts[finding.part] = counts.get(finding.part, 0) + 1
            numbers.setdefault(finding.part, []).extend(NUMBERED.findall(finding.remedy))
        mine = NUMBERED.findall(self.worst.remedy)

        def does(part: str) -> str:
            all_of = list(dict.fromkeys(numbers.get(part, ())))
            if mine and not all_of:  # what does for the first does nothing for this one
                return " (no remedy)"
            new = [number for number in all_of if number not in mine]
            return f" ({' '.join(new)})" if new else ""

        here = counts.pop(self.worst.part, 0)
        told = [f"{here} more here{does(self.worst.part)}"] if here else []
        named = list(counts.items())[:NAMED_MOST]
        told += [(part or "the job") + (f" ({n})" if n > 1 else "") + does(part) for part, n in named]
        rest = sum(n for _, n in list(counts.items())[NAMED_MOST:])
        told += [f"{rest} more"] if rest else []
        return f"Also: {listed(told)}." if told else ""


def alike(findings: Sequence[Finding]) -> list[Alike]:
    """Return findings grouped by rule and verdict; work by what is to be done, too, as each is done by itself."""
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        key = (finding.rule, finding.verdict, finding.evidence, _work(finding))
        groups.setdefault(key, []).append(finding)
    return [Alike(findings=tuple(sorted(group, key=_missed_share, reverse=True))) for group in groups.values()]


def _work(finding: Finding) -> object:
    """Return what is to be done, wherever it is done; None where nothing is."""
    if finding.verdict is not Verdict.GO_WITH_WORK:
        return None
    if finding.work is None or finding.work.kind not in CUT or finding.evidence is Evidence.GUESSED:
        return finding.remedy
    return replace(finding.work, hardware=""), bool(NUMBERED.search(finding.remedy))


def _missed_share(finding: Finding) -> float:
    """Return by which share of its limit a finding misses it; 0 where it compares no numbers."""
    if finding.measured is None or finding.limit is None:
        return 0.0
    return abs(finding.measured - finding.limit) / max(abs(finding.limit), 1e-9)
