"""A remedy: edits of the job that were made, judged again, and found to settle what they are for."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from planner.finding import Finding, Verdict
from planner.job import CureKind, Edit, kind_of

Told = tuple[str, str, str, str]
"""What tells a finding from its fellows: rule, part, feature, reason."""
CALLED: dict[CureKind, str] = {
    "undo": "no work",
    "drill": "drilling",
    "ream": "reaming",
    "sand": "sanding",
    "hardware": "other hardware",
    "webbing": "narrower webbing",
    "bush": "a bush",
    "rebore": "re-boring",
    "pose": "another pose",
    "settings": "other settings",
    "material": "another material",
    "printer": "another printer",
    "nozzle": "another nozzle",
    "size": "another size",
    "split": "two pieces",
    "needs": "asking for less",
}
"""What each kind of way is called where there is room for a few words."""
FEW_N = 60
"""So many letters of a reason are told then."""
NONE_FOUND = "no remedy was found that works here"


@dataclass(frozen=True, slots=True, kw_only=True)
class Costs:
    """What a remedy costs: minutes of work by hand, and money for what is bought; None where a price is unknown."""

    minutes_min: float
    money: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """A nearer way that does not work, and why.

    ``unless`` is the clause under which it does not, where its trouble is only a question that nobody has answered, and
    ``question_id`` that question.
    """

    kind: CureKind
    text: str
    why: str
    unless: str = ""
    question_id: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """One proved remedy.

    Parameters
    ----------
    n
        Its number, from 1: what ``fitwright check --do`` takes.
    part
        The part that it works on; empty for the whole device.
    does
        The edits of the job file.
    leaves_verdict
        What ``check`` says with this remedy alone.
    refused
        Ways of less effort that were tried before it.
    settles
        The findings that pass with it.
    """

    n: int
    kind: CureKind
    text: str
    part: str
    does: tuple[Edit, ...]
    costs: Costs
    leaves_verdict: Verdict
    refused: tuple[Refused, ...]
    settles: tuple[Told, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedies:
    """All proved remedies of a job, and the findings that none was found for, with what was tried."""

    found: tuple[Remedy, ...] = ()
    unsettled: tuple[tuple[Told, tuple[Refused, ...]], ...] = ()

    def for_finding(self, finding: Finding) -> Remedy | None:
        """Return the remedy that settles a finding, or None."""
        return next((remedy for remedy in self.found if told(finding) in remedy.settles), None)

    def joined(self, more: Remedies) -> Remedies:
        """Return these and more of the same job: those that do the same are one, the others get the next numbers."""
        found = list(self.found)
        for remedy in more.found:
            k = next((k for k, one in enumerate(found) if one.does == remedy.does), None)
            if k is None:
                found.append(replace(remedy, n=len(found) + 1))
            else:
                found[k] = replace(found[k], settles=(*found[k].settles, *remedy.settles))
        return Remedies(found=tuple(found), unsettled=(*self.unsettled, *more.unsettled))

    def refused_for(self, finding: Finding) -> tuple[Refused, ...]:
        """Return what was tried for a finding that no remedy was found for; none for all others."""
        return dict(self.unsettled).get(told(finding), ())

    def numbered(self, n: int) -> Remedy | None:
        """Return the remedy of a number, or None."""
        return next((remedy for remedy in self.found if remedy.n == n), None)

    def shown(self, findings: Sequence[Finding], *, numbered: bool = False, brief: bool = False) -> tuple[Finding, ...]:
        """Return findings with the proved remedy in the place of their hint, or with word that none was found.

        Where ``numbered``, the text says which number ``--do`` takes; where ``brief``, what failed stands in few words.
        """
        tried = dict(self.unsettled)
        return tuple(self._shown(finding, tried, numbered=numbered, brief=brief) for finding in findings)

    def _shown(
        self, finding: Finding, tried: dict[Told, tuple[Refused, ...]], *, numbered: bool, brief: bool
    ) -> Finding:
        """Return one finding with what was proved about it."""
        remedy = self.for_finding(finding)
        if remedy is not None:
            return replace(finding, remedy=remedy.text + (f" (--do {remedy.n})" if numbered else ""))
        refused = tried.get(told(finding))
        if refused is None:
            return finding
        waits = next((each for each in refused if each.question_id), None)
        first = {each.kind: each for each in reversed(refused)}  # one of each kind, the first that was tried
        more = Counter(each.kind for each in refused)
        why = "; ".join(
            f"{CALLED[each.kind]}: {_few_words(each.why)}"
            if brief
            else f"{each.text}: {each.why}"
            + (f" ({more[each.kind] - 1} more like it fail)" if more[each.kind] > 1 else "")
            for each in refused
            if first[each.kind] is each
        )
        kind = kind_of(finding.rule)
        rest = "; change the drawing" if kind.station == "fit" and kind.family != "move" else ""
        by_hand = f"; not tried: {finding.remedy}" if kind.family == "move" and finding.remedy else ""
        lead = f"{NONE_FOUND}{rest}"
        if waits:
            lead = f"answer {waits.question_id} first (fitwright start --ask); unless {waits.unless}, this does: "
            lead += waits.text
        return replace(finding, remedy=lead + (f" (tried: {why})" if why else "") + by_hand)


def _few_words(why: str) -> str:
    """Return the first clause of a reason, in so few words that several fit on a screen.

    >>> _few_words("the nozzle of 0.4 mm lays none so narrow; set another")
    'the nozzle of 0.4 mm lays none so narrow'
    """
    clause = why.partition("; ")[0]
    return clause if len(clause) <= FEW_N else f"{clause[:FEW_N].rpartition(' ')[0].rstrip(',:')} …"


def told(finding: Finding) -> Told:
    """Return what tells a finding from its fellows."""
    return finding.rule, finding.part, finding.feature, finding.why
