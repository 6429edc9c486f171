"""How a job stands at its size: every rule's answer by what it speaks of, so that two states can be compared."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Protocol, TypeVar, cast

from planner.digits import REPEATS_MM
from planner.finding import Finding, Vec3, Verdict, worst
from planner.job import HandWork, Job, kind_of
from planner.mesh import Solid
from planner.rules import Rule, WithoutLayers
from planner.scale import Scale
from planner.strength import Screened
from planner.survey import Survey

Worked = TypeVar("Worked")
Key = tuple[str, str, str]
"""A rule, the part and the feature that it speaks of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """A job with its bound rules, asked at its own size.

    ``solids`` are the meshes as drawn, which ``surveys`` measured, ``screens`` their loaded parts under their loads.
    ``more`` are findings that no rule makes at every size, such as those that need layers. ``settings`` are the
    settings rules among ``rules``, to be asked under other settings, and ``on_layers`` asks a changed job for those
    that need layers, on the layers that there are. ``memo`` keeps what ways have worked out for it, as many findings
    ask for the same.
    """

    job: Job
    percent: float
    surveys: Mapping[str, Survey]
    downs: Mapping[str, Vec3]
    rules: tuple[Rule, ...]
    more: tuple[Finding, ...] = ()
    settings: WithoutLayers | None = None
    on_layers: Callable[[Job], Sequence[Finding]] | None = None
    solids: Mapping[str, Solid] = field(default_factory=dict)
    screens: tuple[Screened, ...] = ()
    memo: dict[str, object] = field(default_factory=dict)
    answers: Mapping[Key, tuple[Finding, ...]] = field(init=False)

    def __post_init__(self) -> None:
        """Ask every rule once."""
        factor, answers = Scale(self.percent).factor, dict[Key, list[Finding]]()
        for rule in self.rules:
            answers.setdefault((rule.rule, rule.part, rule.feature), []).append(rule.at(factor))
        for finding in self.more:
            answers.setdefault((finding.rule, finding.part, finding.feature), []).append(finding)
        object.__setattr__(self, "answers", {key: tuple(found) for key, found in answers.items()})

    def once(self, name: str, work: Callable[[], Worked]) -> Worked:
        """Return what some work gives, done the first time that it is asked for under a name."""
        if name not in self.memo:
            self.memo[name] = work()
        return cast("Worked", self.memo[name])

    def worst_of(self, key: Key) -> Finding | None:
        """Return the worst answer of a rule about a feature, None where it says nothing."""
        return max(self.answers.get(key, ()), key=lambda f: f.verdict.severity, default=None)

    def severity_at(self, part: str, feature: str) -> int:
        """Return how severe the worst answer of any rule about a feature is."""
        every = [f for (_, p, where), found in self.answers.items() if (p, where) == (part, feature) for f in found]
        return worst(every).severity

    @property
    def moves(self) -> bool:
        """Whether its movement is judged."""
        return any(kind_of(rule).family == "move" for rule, _, _ in self.answers)

    @property
    def verdict(self) -> Verdict:
        """The worst verdict of the rules of fit."""
        factor = Scale(self.percent).factor
        return worst(rule.at(factor) for rule in self.rules)


def decided(job: Job, key: Key, finding: Finding) -> bool:
    """Return whether a finding asks for nothing that the job does not state already."""
    if finding.verdict is not Verdict.GO_WITH_WORK:
        return finding.verdict is Verdict.GO
    _, part, feature = key
    return any(work.part == part and _speaks_of(work, feature) and work.told in finding.remedy for work in job.works)


def _speaks_of(work: HandWork, feature: str) -> bool:
    """Return whether work is done at a feature: named, or all of a size."""
    return feature in (*work.bores, *work.pegs, f"in {work.into}") or not (work.bores or work.pegs or work.into)


class Again(Protocol):
    """What judges a changed job of the same meshes."""

    def __call__(self, job: Job, *, posed: bool = True, strong: bool = True, asked: bool = True) -> Stand:
        """Return how it stands; where not ``posed``, in the poses and with the movement of before.

        Where not ``posed`` or not ``strong``, with the strength of before. Where not ``asked``, as if its guesses were
        facts: what does not pass then passes under no answers, either, as a hold at best.

        That is quick, and proves nothing where a change may alter them.
        """


def spoiled(before: Stand, after: Stand) -> list[Finding]:
    """Return what is worse after a change than before it.

    Work that the change states is no spoiling where all that is said of that feature is no worse than it was: a bore
    that rattled may be drilled for a larger screw.
    """
    found = []
    for key in after.answers:
        now, was = after.worst_of(key), before.worst_of(key)
        assert now is not None
        if _thinner(was, now):  # a wall that is too thin already is no reason to cut it thinner
            found.append(now)
            continue
        if now.verdict.severity <= (was.verdict.severity if was else 0):
            continue
        if was is None and kind_of(now.rule).cures == ("undo",) and now.verdict.passes:
            continue  # work that the change itself states, on a peg that no rule spoke of
        _, part, feature = key
        if was is None and now.verdict.passes and now.verdict.severity <= _ended(before, after, part, feature).severity:
            continue  # other hardware is there now, judged by another rule, and no worse
        no_worse = after.severity_at(part, feature) <= before.severity_at(part, feature)
        if no_worse and decided(after.job, key, now):
            continue
        found.append(now)
    return sorted(found, key=lambda f: -f.verdict.severity)


def _ended(before: Stand, after: Stand, part: str, feature: str) -> Verdict:
    """Return the worst that was said of a feature by rules that do not speak of it any more."""
    gone = [key for key in before.answers if key[1:] == (part, feature) and key not in after.answers]
    return worst(finding for key in gone for finding in before.answers[key])


def _thinner(was: Finding | None, now: Finding) -> bool:
    """Return whether a wall that does not pass is left thinner than it was, by more than a hand can tell."""
    if was is None or now.verdict.passes or kind_of(now.rule).gives != "wall left":
        return False
    return was.measured is not None and now.measured is not None and now.measured < was.measured - REPEATS_MM
