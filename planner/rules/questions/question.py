"""What to answer or measure next: each question with how many findings its answer settles."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from planner.assembly import Doubt
from planner.finding import Finding, worst

QUESTIONS_MOST = 3
"""So many measurements are asked for."""
ALL_MOST = 8
"""Measurements are asked for only as far as there are fewer questions than these."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One question. ``options`` are pairs of what an answer file says and a clause; none where a number is asked for.

    ``shares`` say how likely each option is by name and form, 0 to 1. ``features`` are the parts and features of the
    findings that it settles, ``settles_n`` how many these are.
    """

    id: str
    text: str
    options: tuple[tuple[str, str], ...]
    default: str
    settles_n: int
    features: tuple[tuple[str, str], ...]
    shares: tuple[float, ...] = ()

    @property
    def default_share(self) -> float | None:
        """How likely the default is; None where nothing tells."""
        named = [share for (name, _), share in zip(self.options, self.shares, strict=False) if name == self.default]
        return named[0] if named else None


def questions_about(findings: Sequence[Finding], doubts: Iterable[Doubt]) -> tuple[Question, ...]:
    """Return the doubts that decide findings, most settling first, then the measurements that would decide."""
    about: dict[str, list[Finding]] = {}
    for finding in findings:
        if finding.question_id:
            about.setdefault(finding.question_id, []).append(finding)
    known = {doubt.id: doubt for doubt in doubts}
    asked = [_of_doubt(known[name], mine) for name, mine in about.items() if name in known]
    asked.sort(key=lambda question: (not question.id.startswith("unit"), -question.settles_n))  # no size means anything
    measured = _measurements([finding for finding in findings if finding.question_id not in known])
    return (*asked, *measured[: max(0, ALL_MOST - len(asked))])


def questions_of(findings: Sequence[Finding]) -> tuple[str, ...]:
    """Return the texts of the questions that would change the verdict, worst first, each once, three at most.

    Where something does not pass, only an answer about that can; else any answer may make it worse.
    """
    return tuple(dict.fromkeys(finding.question for finding in _deciding(findings)))[:QUESTIONS_MOST]


def _deciding(findings: Sequence[Finding]) -> list[Finding]:
    """Return the findings whose question may change the verdict."""
    decides = [f for f in findings if not f.verdict.passes] if not worst(findings).passes else findings
    return [finding for finding in decides if finding.question]


def _of_doubt(doubt: Doubt, mine: Sequence[Finding]) -> Question:
    """Return the question of a doubt."""
    return Question(
        id=doubt.id,
        text=doubt.text,
        options=tuple((option.name, option.text) for option in doubt.options),
        default=doubt.default,
        settles_n=len(mine),
        features=tuple(dict.fromkeys((finding.part, finding.feature) for finding in mine)),
        shares=tuple(option.share for option in doubt.options),
    )


def _measurements(findings: Sequence[Finding]) -> list[Question]:
    """Return what is to be measured, or told in words, worst first."""
    about: dict[str, list[Finding]] = {}
    for finding in _deciding(findings):
        about.setdefault(finding.question, []).append(finding)
    return [
        Question(
            id=mine[0].question_id or _id(mine[0]),
            text=text,
            options=(),
            default="",
            settles_n=len(mine),
            features=tuple(dict.fromkeys((finding.part, finding.feature) for finding in mine)),
        )
        for text, mine in list(about.items())[:QUESTIONS_MOST]
    ]


def _id(finding: Finding) -> str:
    """Return a readable name for a question that no answer file answers."""
    return "-".join(re.findall(r"[a-z0-9.]+", f"{finding.rule} {finding.part} {finding.feature}".lower()))
