"""Findings that one remedy should settle together: one rule, one part, one thing that goes in."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from planner.assembly import Claim, claims_of
from planner.finding import Evidence, Finding, Verdict
from planner.job import RuleKind, kind_of
from planner.remedy.remedy import Told, told
from planner.remedy.standing import Key, Stand, decided


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Findings to settle, with the key that each is found again by; ``claims`` are the hardware in their bores."""

    kind: RuleKind
    part: str
    keys: tuple[Key, ...]
    findings: tuple[Finding, ...]
    claims: tuple[Claim, ...]

    @property
    def features(self) -> tuple[str, ...]:
        """The features it speaks of."""
        return tuple(feature for _, _, feature in self.keys)

    def only(self, keys: Sequence[Key]) -> Group:
        """Return a group of some of its findings."""
        kept = [(key, finding) for key, finding in zip(self.keys, self.findings, strict=True) if key in keys]
        features = {key[2] for key, _ in kept}
        return replace(
            self,
            keys=tuple(key for key, _ in kept),
            findings=tuple(finding for _, finding in kept),
            claims=tuple(claim for claim in self.claims if claim.bore.id in features),
        )

    def alone(self) -> tuple[Group, ...]:
        """Return a group for each finding by itself."""
        return tuple(self.only([key]) for key in self.keys)


def groups_of(stand: Stand, about: Collection[Told] | None = None) -> list[Group]:
    """Return what is to be settled, worst first: what does not work, and work that the job does not state yet.

    ``about`` leaves out all but some findings.
    """
    claims = claims_of(stand.job, stand.surveys).claims
    gathered: dict[tuple[str, str, str], list[tuple[Key, Finding]]] = {}
    for key in stand.answers:
        finding = stand.worst_of(key)
        assert finding is not None
        if not _to_settle(stand, key, finding) or (about is not None and told(finding) not in about):
            continue
        rule, part, feature = key
        names = [claim.hardware.name for claim in claims if (claim.part, claim.bore.id) == (part, feature)]
        sunk = finding.work.hardware if finding.work else ""  # a head in its seat is no claim
        gathered.setdefault((rule, part, ", ".join(names) or sunk or finding.feature), []).append((key, finding))
    groups = [_group(list(found), claims) for found in gathered.values()]
    return sorted(groups, key=lambda group: -max(f.verdict.severity for f in group.findings))


def _group(found: Sequence[tuple[Key, Finding]], claims: Sequence[Claim]) -> Group:
    """Return one group."""
    (rule, part, _), _ = found[0]
    features = {key[2] for key, _ in found}
    return Group(
        kind=kind_of(rule),
        part=part,
        keys=tuple(key for key, _ in found),
        findings=tuple(finding for _, finding in found),
        claims=tuple(claim for claim in claims if claim.part == part and claim.bore.id in features),
    )


def _to_settle(stand: Stand, key: Key, finding: Finding) -> bool:
    """Return whether a remedy is looked for: not for what hangs on an answer, and not for work that is stated."""
    if not kind_of(finding.rule).cures or finding.question_id or finding.evidence is Evidence.GUESSED:
        return False
    return not finding.verdict.passes or (
        finding.verdict is Verdict.GO_WITH_WORK and not decided(stand.job, key, finding)
    )
