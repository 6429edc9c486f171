"""Trials: a job under every change that was tried, and whether a change is a remedy."""

from __future__ import annotations

from collections.abc import Sequence

from planner.errors import FitwrightError
from planner.finding import Evidence, Finding, Verdict
from planner.job import CureKind, Edit, Job, kind_of, with_edits
from planner.remedy.candidate import Candidate
from planner.remedy.group import Group
from planner.remedy.remedy import Refused, Remedy, told
from planner.remedy.rule_answers import Again, Key, Stand, decided, spoiled
from planner.rules import Rule, is_unanswered

POSING = ("pose", "settings", "material", "printer", "nozzle")
"""Kinds after which parts may be laid another way."""
MOVING = ("drill", "ream", "sand", "hardware", "bush", "undo", "material", "printer", "needs")
"""Kinds after which a device may move another way."""


class Trials:
    """A job and what became of it under every change that was tried: no change is judged twice."""

    def __init__(self, stand: Stand, again: Again) -> None:
        self.stand, self.again = stand, again
        self._jobs: dict[str, Job] = {}
        self._known: dict[tuple[str, bool, bool, bool], Stand] = {}

    def after(self, does: Sequence[Edit], *, posed: bool, strong: bool = True, asked: bool = True) -> Stand:
        """Return how the job stands with some edits made; where not ``strong``, with the strength of before.

        Where not ``asked``, with its guesses taken for facts.
        """
        does_key, strong = repr(does), posed and strong
        key = (does_key, posed, strong, asked)
        if key not in self._known:
            if does_key not in self._jobs:
                self._jobs[does_key] = with_edits(self.stand.job, does)
            self._known[key] = self.again(self._jobs[does_key], posed=posed, strong=strong, asked=asked)
        return self._known[key]


def may_lie_otherwise(trials: Trials, kind: CureKind) -> bool:
    """Return whether parts may lie, or move, another way after a change of some kind."""
    return kind in POSING or (kind in MOVING and trials.stand.moves)


def proved(trials: Trials, group: Group, candidate: Candidate) -> Remedy | Refused:
    """Return a candidate as a remedy where its edits settle the group and spoil nothing, else why not."""
    if candidate.why_not:
        return Refused(kind=candidate.kind, text=candidate.text, why=candidate.why_not)
    try:
        whole, quick = (
            may_lie_otherwise(trials, candidate.kind),
            group.kind.family != "move" or candidate.kind == "size",
        )
        breaks = group.kind.gives == "strength" and candidate.kind != "size"
        why = _still_fails(trials, group, candidate) if quick and not breaks else ""
        if why:
            return Refused(kind=candidate.kind, text=candidate.text, why=why)
        # What the quickest refuses needs no more; where a part breaks, only its strength anew tells anything.
        after = trials.after(candidate.does, posed=not quick or breaks, strong=breaks)
        why = why_not(trials.stand, group, after)
        if not why and (whole or not quick):
            after = trials.after(candidate.does, posed=True)
            why = why_not(trials.stand, group, after)
    except FitwrightError as problem:
        return Refused(kind=candidate.kind, text=candidate.text, why=f"{problem.where}: {problem.wrong}")
    if why:
        unless, question_id = _waits(trials.stand, group, after)
        return Refused(kind=candidate.kind, text=candidate.text, why=why, unless=unless, question_id=question_id)
    return Remedy(
        n=0,
        kind="drill" if candidate.kind == "undo" else candidate.kind,
        text=candidate.text,
        part=candidate.part,
        does=candidate.does,
        costs=candidate.costs,
        leaves_verdict=after.verdict,
        refused=(),
        settles=tuple(told(finding) for finding in group.findings),
    )


def _still_fails(trials: Trials, group: Group, candidate: Candidate) -> str:
    """Return why a change leaves something of a group failing whatever is answered; empty where that is not so plain.

    What hangs on answers as the job stands is told with them, so it is tried with them.
    """
    open_now = trials.stand.once("hanging", lambda: _hanging(trials.stand.rules))
    sure = [key for key in group.keys if key not in open_now]
    if not sure:
        return ""
    after = trials.after(candidate.does, posed=False, strong=False, asked=False)
    fails = [now for key in sure if (now := after.worst_of(key)) and not now.verdict.passes]
    return fails[0].why if fails else ""


def _hanging(rules: Sequence[Rule]) -> frozenset[Key]:
    """Return what is asked under several answers."""
    return frozenset((rule.rule, rule.part, rule.feature) for rule in rules if is_unanswered(rule))


def why_not(stand: Stand, group: Group, after: Stand) -> str:
    """Return why a change is no remedy: what it spoils, or does not settle; empty where it is one."""
    for finding in spoiled(stand, after):
        if kind_of(finding.rule).gives == "wall left" and finding.measured is not None and finding.limit is not None:
            return (
                f"it leaves {finding.measured:.2f} mm beside {finding.feature} in {finding.part}; "
                f"{finding.limit:.2f} mm is needed"
            )
        return finding.why
    for key, was in zip(group.keys, group.findings, strict=True):
        now = after.worst_of(key) or (None if group.part else of_rule(after, key))
        if now is None and (group.kind.cures == ("undo",) or not _has(after, group.part)):
            continue  # work, or a part, that is taken out is not judged any more
        if now is None and group.kind.family == "settings":
            now = of_rule(after, key)  # it names another layer height now
        if now is None and not group.kind.must_be and _fits(after, key):
            continue  # what goes in there asks no more for it, and fits
        if now is None:
            return f"{key[2]} of {key[1]} would not be judged any more"
        if not now.verdict.passes or (was.verdict.passes and not decided(after.job, key, now)):
            return now.why
    return ""


def _has(after: Stand, part: str) -> bool:
    """Return whether a part is still printed; where a group speaks of no part, there is none to miss."""
    return not part or any(one.name == part for one in after.job.parts)


def _waits(stand: Stand, group: Group, after: Stand) -> tuple[str, str]:
    """Return the clause and the question that alone keep a change from settling a group; empty where more does."""
    if spoiled(stand, after):
        return "", ""
    left = [now for key in group.keys if (now := after.worst_of(key)) and not now.verdict.passes]
    asks = {(now.why.removeprefix("if ").partition(": ")[0], now.question_id) for now in left}
    if len(asks) != 1 or not all(now.verdict is Verdict.HOLD and now.evidence is Evidence.GUESSED for now in left):
        return "", ""
    return asks.pop()


def of_rule(after: Stand, key: Key) -> Finding | None:
    """Return the worst answer of a rule about its part: once it goes, it may speak of another setting or material."""
    rule, part, _ = key
    found = [f for (name, where, _), each in after.answers.items() if (name, where) == (rule, part) for f in each]
    return max(found, key=lambda f: f.verdict.severity, default=None)


def _fits(after: Stand, key: Key) -> bool:
    """Return whether hardware in a feature is judged at all, and fits there or is drilled as stated."""
    _, part, feature = key
    asked = [one for one in after.answers if one[1:] == (part, feature) and kind_of(one[0]).must_be]
    return bool(asked) and all((f := after.worst_of(one)) is not None and decided(after.job, one, f) for one in asked)
