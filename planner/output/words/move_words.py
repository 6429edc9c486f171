"""How a device moves, in one line: what the rules of movement that pass have to say."""

from __future__ import annotations

from collections.abc import Sequence

from planner.finding import Finding, Verdict
from planner.job import kind_of
from planner.phrases import plural


def move_line(findings: Sequence[Finding]) -> str:
    """Return one sentence about ranges, travel, pull and return, as far as they pass; empty where nothing moves."""
    passes = [f for f in findings if f.verdict is Verdict.GO and f.measured is not None]
    of = {
        given: [f for f in passes if kind_of(f.rule).gives == given] for given in ("range", "travel", "pull", "return")
    }
    reached = [f for f in of["range"] if f.limit is not None]
    told = [f"{plural(len(reached), 'joint')} can reach what is needed"] if reached else []
    told += [f"{f.feature} takes {f.measured:.1f} of {f.limit:.1f} mm of travel" for f in of["travel"] if f.limit]
    told += [f"at most {f.measured:.0f} N of pull" for f in of["pull"]]
    told += ["opens again by itself"] if of["return"] else []
    return f"It moves: {'; '.join(told)}." if told else ""
