"""A finding about a program: no-go with its remedy where something is wrong, else go."""

from __future__ import annotations

from functools import partial

from planner.finding import Finding, Verdict

FROM_MOTION = "measured from the program's motion"
FROM_WORDS = "measured from the program's motion and words"


def compared_finding(
    rule: str,
    *,
    wrong: bool,
    measured: float | None,
    limit: float | None,
    unit: str,
    why: str,
    remedy: str = "",
    part: str = "",
    caution: str = "",
    worse: Verdict = Verdict.NO_GO,
    source: str = FROM_WORDS,
) -> Finding:
    """Return the finding; ``worse`` and the remedy only where it is ``wrong``."""
    return Finding(
        rule=rule,
        part=part,
        feature=rule.split(".")[1],
        verdict=worse if wrong else Verdict.GO,
        measured=measured,
        limit=limit,
        unit=unit,
        why=why,
        remedy=remedy if wrong else "",
        caution=caution,
        source=source,
    )


motion_finding = partial(compared_finding, source=FROM_MOTION)
"""The same of a finding that rests on what the program's motion lays, rather than on its words."""
