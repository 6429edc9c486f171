"""Matter in a mesh that is not sound: where the surface has gaps nobody knows where the matter ends."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from planner.finding import Finding, Verdict
from planner.job import Job, kind_of
from planner.rules.rule import Rule, Wrapped
from planner.survey import Survey

REMEDY = "repair the mesh, then check again"


@dataclass(frozen=True, slots=True, kw_only=True)
class InOpenMesh(Wrapped):
    """A rule about the matter of a part whose mesh is not sound: its no-go is a hold until the mesh is repaired."""

    def at(self, s: float) -> Finding:
        """Return the finding, a no-go turned into a hold."""
        found = self.inner.at(s)
        if found.verdict is not Verdict.NO_GO:
            return found
        why = f"{found.why}; the mesh is not sound, so this is not certain"
        return replace(found, verdict=Verdict.HOLD, why=why, remedy=REMEDY, question="", question_id="")

    def turned(self, verdict: Verdict) -> Verdict:
        """Return hold for a no-go."""
        return Verdict.HOLD if verdict is Verdict.NO_GO else verdict

    def turns(self) -> tuple[float, ...]:
        """Return the turns of the rule itself."""
        return self.inner.turns()


def unsure(job: Job, rules: Sequence[Rule], surveys: Mapping[str, Survey]) -> list[Rule]:
    """Return rules, those wrapped that measure matter of an unsound mesh which nobody has answered for."""
    kinds = ((override.part, kind_of(override.rule)) for override in job.overrides)
    lifted = {part for part, kind in kinds if kind.of_file and kind.of_matter}
    open_ = {name for name, found in surveys.items() if not found.sound and not lifted & {"", name}}
    return [InOpenMesh(inner=rule) if rule.part in open_ and kind_of(rule.rule).of_matter else rule for rule in rules]
