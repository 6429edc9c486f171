"""What every rule of movement has: the part, what in it, and the finding that comes of a verdict."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Finding, Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveRule:
    """A rule of movement about one joint, cord or tip; ``unit`` and ``source`` are those of its findings."""

    part: str
    feature: str
    rule: str
    unit: str
    source: str

    def found(
        self,
        verdict: Verdict,
        measured: float | None,
        limit: float | None,
        why: str,
        remedy: str = "",
        question: str = "",
    ) -> Finding:
        """Return the finding."""
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=verdict,
            measured=measured,
            limit=limit,
            unit=self.unit,
            why=why,
            remedy=remedy,
            source=self.source,
            question=question,
        )
