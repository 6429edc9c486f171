"""The settings rules as far as they need no layers: what ``check`` and ``window`` ask, and what they cannot.

What hangs on layers is asked under both ends of what is not known of them: where both answer alike, that is the
answer, and a plan that knows the layers agrees; where they do not, the rule is not asked here, and is named.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from planner.finding import Finding, Vec3, Verdict
from planner.job import Job, Material, kind_of, rule_kinds
from planner.rules.questions.asked_at_range_ends import compared
from planner.rules.questions.usual_values import corners
from planner.rules.rule import Rule, lifted, positive
from planner.rules.settings.filling import filled_up_to
from planner.rules.settings.settings_rules import case_of, height_findings, settings_findings
from planner.scale import Scale
from planner.survey import Survey

Key = tuple[str, str, str]
"""A rule, the part and the feature that it speaks of."""
FAMILY = "settings"
FAR = (1e-3, 1e3)
"""Scales so far out that a rule about a part, which compares it with one limit, has said all that it may say."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedHere:
    """What the settings rules say without layers, by what they speak of, and the names of those not asked."""

    findings: Mapping[Key, Finding]
    unasked: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WithoutLayers:
    """A job's settings, asked without layers at any scale; each scale is asked once."""

    job: Job
    material: Material
    surveys: Mapping[str, Survey]
    downs: Mapping[str, Vec3]
    _known: dict[float, AskedHere] = field(default_factory=dict, init=False, compare=False, repr=False)
    _told: dict[tuple[float, bool], Mapping[Key, Finding]] = field(
        default_factory=dict, init=False, compare=False, repr=False
    )
    _ends: list[Job] = field(default_factory=list, init=False, compare=False, repr=False)
    """The job with its ranges at their ends; the same at every scale."""

    def at(self, s: float) -> AskedHere:
        """Return what is said at a scale."""
        if s not in self._known:
            self._known[s] = self._asked(s)
        return self._known[s]

    def rested(self, s: float) -> AskedHere:
        """Return what is said at a scale, each finding with what it rests on; of layers, what asks for most counts."""
        here = self.at(s)

        def ask(job: Job) -> list[Finding]:
            there = replace(self, job=job, material=job.material_named(self.material.name))
            return list(there._said(s, mildest=False).values())  # noqa: SLF001  another of its own kind

        if not self._ends:
            self._ends.extend(corners(self.job))
        found = compared(list(here.findings.values()), self._ends, ask)
        return replace(here, findings={(f.rule, f.part, f.feature): f for f in found})

    @property
    def rules(self) -> tuple[Rule, ...]:
        """The same as rules that know where they turn."""
        most = self._said(1.0, mildest=False)
        return tuple(SettingAsked(key=key, asked=self, at_turn=self._turns(finding)) for key, finding in most.items())

    def _turns(self, finding: Finding) -> tuple[float, ...]:
        """Return where the verdict of a rule may turn: lengths of a part grow with the scale, its limits do not."""
        key = (finding.rule, finding.part, finding.feature)
        if finding.part:
            own = self.job.part(finding.part).scale_percent
            ends = [self._said(s, mildest=False)[key].verdict for s in FAR]
            if own is not None or not finding.measured or finding.limit is None or len(set(ends)) == 1:
                return ()
            return positive(finding.limit / finding.measured)
        if finding.verdict is Verdict.GO or "layers" not in kind_of(finding.rule).asks:
            return ()
        cases = [
            case_of(self.job, self.material, self.surveys, self.downs, Scale(100.0), height_mm=height)
            for height in {self.job.own_height_mm(part.name) for part in self.job.parts}
        ]
        return positive(*(filled_up_to(case, part.name) or 0.0 for case in cases for part in case.job.parts))

    def _asked(self, s: float) -> AskedHere:
        """Ask all rules at a scale, taking of the layers what asks for most, and what asks for least."""
        most, least = self._said(s, mildest=False), self._said(s, mildest=True)
        found: dict[Key, Finding] = {}
        doubtful: dict[str, None] = {}
        for key, finding in most.items():
            mild = least.get(key)
            if finding.verdict is Verdict.GO or (mild is not None and mild.verdict is finding.verdict):
                found[key] = lifted(mild or finding, self.job.overrides)
            else:
                doubtful[finding.rule] = None
        asked = {rule for rule, _, _ in found}
        layered = [name for name, kind in rule_kinds().items() if kind.family == FAMILY and "layers" in kind.asks]
        unasked = [*doubtful, *(name for name in layered if name not in asked | doubtful.keys())]
        return AskedHere(findings=found, unasked=tuple(unasked))

    def _said(self, s: float, *, mildest: bool) -> Mapping[Key, Finding]:
        """Return what all rules say with one end of what is not known."""
        if (s, mildest) not in self._told:
            self._told[s, mildest] = self._say(s, mildest=mildest)
        return self._told[s, mildest]

    def _say(self, s: float, *, mildest: bool) -> dict[Key, Finding]:
        """Ask all rules once."""
        found = [
            finding
            for ask in (settings_findings, height_findings)
            for finding in ask(
                self.job,
                self.material,
                surveys=self.surveys,
                estimates={},
                downs=self.downs,
                scale=Scale.of_factor(s),
                mildest=mildest,
            )
        ]
        return {(finding.rule, finding.part, finding.feature): finding for finding in found}


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingAsked:
    """One settings rule about one feature, as a function of scale."""

    key: Key
    asked: WithoutLayers
    at_turn: tuple[float, ...]

    @property
    def rule(self) -> str:
        """Name of the rule."""
        return self.key[0]

    @property
    def part(self) -> str:
        """Name of the part; empty for the whole job."""
        return self.key[1]

    @property
    def feature(self) -> str:
        """Which setting, or what of the part."""
        return self.key[2]

    def at(self, s: float) -> Finding:
        """Return the finding at a scale; where only layers tell, a go that says so, which ``check`` does not count."""
        found = self.asked.at(s).findings.get(self.key)
        if found is not None:
            return found
        rule, part, feature = self.key
        why = "not asked without layers: a plan does"
        return Finding(rule=rule, part=part, feature=feature, verdict=Verdict.GO, why=why, caution=why)

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which the verdict may turn."""
        return self.at_turn
