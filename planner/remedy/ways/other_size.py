"""Another size of the whole device: the nearest at which everything works and nothing gets worse."""

from __future__ import annotations

from collections.abc import Iterator
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace

from planner.finding import Finding, Verdict
from planner.job import Edit
from planner.remedy.candidate import Candidate
from planner.remedy.group import Group
from planner.remedy.rule_answers import Again, Key, Stand
from planner.rules import Rule, Wrapped
from planner.size import nearest_percent, window

LARGEST_PERCENT = 1000.0
"""No device is printed at more than ten times its drawn size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _NoWorse(Wrapped):
    """A rule that passes where it says nothing worse than ``most``."""

    most: Verdict

    def at(self, s: float) -> Finding:
        """Return the finding as go where it is no worse, as no-go else."""
        finding = self.inner.at(s)
        return replace(finding, verdict=self.turned(finding.verdict))

    def turned(self, verdict: Verdict) -> Verdict:
        """Return go for a verdict that is no worse, no-go else."""
        return Verdict.GO if verdict.severity <= self.most.severity else Verdict.NO_GO

    def turns(self) -> tuple[float, ...]:
        """Return the turns of the rule itself."""
        return self.inner.turns()


def other_size(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield the nearest size at which the whole device works and no work is added that is not needed now.

    A size that settles one finding and leaves the device stopped by others would be no size to print at.
    """
    percent, more = stand.once("size", lambda: _for_device(stand))
    if percent is None or percent == stand.percent:
        yield _no_size(stand, group)
        return
    edit = Edit(table="size", put={"percent": percent})
    yield Candidate(kind="size", text=f"print at {percent:.4g} %{more}", does=(edit,))


def _for_device(stand: Stand) -> tuple[float | None, str]:
    """Return the nearest size at which the whole device works, or what stops it is gone, and what is said then."""
    failing = {key for key, found in stand.answers.items() if any(not f.verdict.passes for f in found)}
    ends = {key for key, found in stand.answers.items() if any(f.verdict is Verdict.NO_GO for f in found)}
    percent, more = _nearest(stand, failing), ""
    if percent is None:  # what is open at every size, such as a nut that nobody named, is answered and not scaled
        percent, more = _nearest(stand, ends), "; what is open stays open"
    return percent, more


def _no_size(stand: Stand, group: Group) -> Candidate:
    """Return the refusal of every size: what would get worse, or still fail, where the group itself passes."""
    own = [rule for rule in stand.rules if (rule.rule, rule.part, rule.feature) in group.keys]
    percent = nearest_percent(window(own, stand.percent).workable, stand.percent) if own else None
    if percent is None or percent > LARGEST_PERCENT:
        return Candidate(kind="size", text="print at another size", why_not="no size makes it pass")
    if percent == stand.percent:  # its work passes as ordered, and only was not proved
        return Candidate(kind="size", text="print at another size", why_not="its own size is the nearest that passes")
    bad = []
    for rule in stand.rules:
        there, now = rule.at(percent / 100.0), stand.worst_of((rule.rule, rule.part, rule.feature))
        if not there.verdict.passes or there.verdict.severity > (now.verdict.severity if now else 0):
            bad.append(there)
    first = max(bad, key=lambda finding: finding.verdict.severity, default=None)
    if first is None:
        why = "no size makes everything work without making something worse"
    else:
        more = f", and {len(bad) - 1} more get worse or fail" if len(bad) > 1 else ""
        why = f"it passes at {percent:.4g} %, but there {first.part or first.feature}: {first.why}{more}"
    return Candidate(kind="size", text="print at another size", why_not=why)


def _nearest(stand: Stand, settled: AbstractSet[Key]) -> float | None:
    """Return the nearest size at which some findings pass and no other gets worse; None where there is none."""
    rules: list[Rule] = []
    for rule in stand.rules:
        key = (rule.rule, rule.part, rule.feature)
        now = stand.worst_of(key)
        verdict = now.verdict if now else Verdict.GO
        rules.append(
            _NoWorse(inner=rule, most=Verdict.GO_WITH_WORK if key in settled and not verdict.passes else verdict)
        )
    return nearest_percent(window(rules, stand.percent).passes, stand.percent)  # the person's rules, too
