"""A finding: what was measured, against which limit, and what follows.

Every rule of every room answers with a :class:`Finding`; the worst verdict decides.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

Vec3 = tuple[float, float, float]


class Verdict(StrEnum):
    """The four verdicts, mildest first.

    >>> Verdict.HOLD.severity > Verdict.GO_WITH_WORK.severity
    True
    """

    GO = "go"
    GO_WITH_WORK = "go-with-work"
    HOLD = "hold"
    NO_GO = "no-go"

    @property
    def severity(self) -> int:
        """0 for go up to 3 for no-go."""
        return SEVERITY[self]

    @property
    def passes(self) -> bool:
        """True where a command exits with 0."""
        return self in (Verdict.GO, Verdict.GO_WITH_WORK)


SEVERITY = {verdict: severity for severity, verdict in enumerate(Verdict)}


class Evidence(StrEnum):
    """What a finding's verdict rests on: the weakest input whose range would change it, strongest first."""

    STATED = "stated"
    """A person wrote it."""
    MEASURED = "measured"
    """A mesh, a coupon or a log shows it."""
    USUAL = "usual"
    """A profile's value with its range, judged at the middle."""
    GUESSED = "guessed"
    """Duty, hardware, unit or measure taken from form or names: the finding is a hold with a question."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Extent:
    """How far a place reaches at scale: the area of its surface, both sides, and its length."""

    area_mm2: float
    length_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What a person does so that a finding passes, as data: lists, bags and papers read it, never the sentence.

    Parameters
    ----------
    kind
        ``stock``: another stock size is taken; ``webbing``: a narrower one.
    hardware
        Name of the hardware, cord or strap whose opening it is.
    to_mm
        The opening after drilling or reaming, the peg after sanding, the width after filing; None where nothing is cut.
    takes, takes_mm
        What is taken instead, and its diameter or width.
    outside_mm, bored_mm
        A bush: its outside, and the bore in it.
    """

    kind: Literal["drill", "ream", "bush", "sand", "file", "stock", "webbing"]
    hardware: str
    to_mm: float | None = None
    takes: str = ""
    takes_mm: float | None = None
    outside_mm: float | None = None
    bored_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One rule's answer about one feature of one part.

    Parameters
    ----------
    rule
        Dotted name of the rule, such as ``"wall.thin"``.
    part
        Name of the part; empty for the whole job.
    feature
        What in the part: ``"pivot post in b2"``; empty where the rule speaks of the part itself.
    verdict
        The verdict of this rule alone.
    measured, limit
        Both in ``unit`` and at scale; None where the rule compares no numbers.
    unit
        ``"mm"``, ``"%"``, ``"N"`` … or empty.
    at_mm
        Place in the drawn mesh.
    why
        One sentence with the numbers.
    remedy
        What to do; empty for a plain go.
    source
        Where the limit comes from.
    caution
        A caution that does not change the verdict; empty if none.
    question
        The one measurement or answer that would decide; empty if none.
    extent
        How far a thin wall reaches below its limit; None where it is not thin.
    evidence
        The weakest input whose range would change the verdict.
    question_id
        The question that decides where the evidence is guessed; else empty.
    work
        What the remedy of a go-with-work is, as data; None where nothing is to be done.
    """

    rule: str
    part: str
    verdict: Verdict
    why: str
    feature: str = ""
    measured: float | None = None
    limit: float | None = None
    unit: str = ""
    at_mm: Vec3 | None = None
    remedy: str = ""
    source: str = ""
    caution: str = ""
    question: str = ""
    extent: Extent | None = None
    evidence: Evidence = Evidence.MEASURED
    question_id: str = ""
    work: Work | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Guess:
    """A value nobody stated, taken from a survey or a default and judged at its middle."""

    what: str
    value: str
    why: str


def worst(findings: Iterable[Finding]) -> Verdict:
    """Return the worst verdict; go where there is no finding."""
    return max((f.verdict for f in findings), key=lambda v: v.severity, default=Verdict.GO)
