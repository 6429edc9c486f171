"""``size.range``: whether a measure is known well enough, the device being judged over all it may be."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from planner.finding import Evidence, Finding, Verdict, worst
from planner.job import Job, Measure, kind_of, scale_from
from planner.phrases import listed
from planner.rules import Rule, constants, lifted, steps_of
from planner.scale import Scale

PHOTO_OFF_SHARE = 0.03
"""How far a width or length of a photo may be off each way where nobody states it: wider ones are taken again
(``output/asking/photo_words``)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeEnd:
    """The percent asked for with measures at ends of their ranges, and the rules about measures then."""

    percent: float
    rules: tuple[Rule, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Over:
    """The worst verdict somewhere between two sizes, and where it stands first, in percent."""

    verdict: Verdict
    percent: float


def off_mm(measure: Measure) -> float:
    """Return how far a measure may be off each way, in mm; 0 where it is taken for exact."""
    if measure.off_mm is not None:
        return measure.off_mm
    return PHOTO_OFF_SHARE * measure.recipient_mm if measure.how == "photo" else 0.0


def at_range_ends(measures: Sequence[Measure]) -> Iterator[tuple[Measure, ...]]:
    """Yield measures with their ranges at the ends: all low, all high, and each one against all others.

    A size that the largest governs, and how far the smallest and the largest lie apart, are extreme in one of these.
    """
    ranged = [n for n, measure in enumerate(measures) if off_mm(measure) > 0.0]
    if not ranged:
        return
    signs = {tuple(first if n == one else -first for n in ranged) for one in ranged for first in (-1.0, 1.0)}
    for way in sorted(signs | {(-1.0,) * len(ranged), (1.0,) * len(ranged)}):
        by = dict(zip(ranged, way, strict=True))
        yield tuple(_moved(measure, by.get(n, 0.0)) for n, measure in enumerate(measures))


def _moved(measure: Measure, way: float) -> Measure:
    """Return a measure at an end of its range; a body has no length of 0."""
    return replace(measure, recipient_mm=max(measure.recipient_mm + way * off_mm(measure), 1e-3))


def scales_of(measures: Sequence[Measure], devices_mm: Sequence[float]) -> list[tuple[Measure, float]]:
    """Return measures with the percent that each asks for; ``devices_mm`` are the device's own, in mm."""
    return [(one, scale_from(one, mm)) for one, mm in zip(measures, devices_mm, strict=True)]


def range_rules(job: Job, percent: float, ends: Sequence[SizeEnd], rules: Sequence[Rule]) -> tuple[Rule, ...]:
    """Return what the ranges of measures do to a verdict; nothing where every measure is taken for exact.

    ``rules`` are all rules of the job, ``percent`` is its size. What re-boring settles does not count, as openings are
    cut again for each size.
    """
    if not ends:
        return ()
    person = [rule for rule in rules if _about_person(rule)]
    device = [rule for rule in rules if not _about_person(rule) and not _recut(job, rule)]
    s = Scale(percent).factor
    apart = worst(rule.at(s) for rule in person)
    here = _worst([apart, worst(rule.at(s) for rule in device)])
    found = list(_over_all(job, percent, ends, device, apart))
    other = next((one for one in found if one.verdict.passes is not here.passes), None)
    other = other or next((one for one in found if one.verdict is not here), None)
    low, high = min(end.percent for end in ends), max(end.percent for end in ends)
    finding = _finding(job, (min(low, percent), percent, max(high, percent)), here, other)
    return tuple(constants([lifted(finding, job.overrides)]))


def _about_person(rule: Rule) -> bool:
    """Return whether a rule compares what the measures ask for with each other."""
    return kind_of(rule.rule).gives == "measures apart"


def _recut(job: Job, rule: Rule) -> bool:
    """Return whether a rule speaks of a part that is re-bored, and of what re-boring settles."""
    return "rebore" in kind_of(rule.rule).cures and any(part.name == rule.part and part.rebore for part in job.parts)


def _over_all(
    job: Job, percent: float, ends: Sequence[SizeEnd], device: Sequence[Rule], apart: Verdict
) -> Iterator[_Over]:
    """Yield the verdicts at every end, and at each turn and between each two on the way to it from the size.

    ``apart`` is what is said of the measures at the size.
    """
    stepped = [steps_of(rule) for rule in device]
    for end in ends:
        low, high = sorted((Scale(percent).factor, Scale(end.percent).factor))
        turns = sorted({turn for steps in stepped for turn in steps.turns if low <= turn <= high} | {low, high})
        places = [*turns, *((a + b) / 2.0 for a, b in pairwise(turns))]
        still = [steps for steps in stepped if not any(low <= turn <= high for turn in steps.turns)]
        moving = [steps for steps in stepped if any(low <= turn <= high for turn in steps.turns)]
        always = _worst(steps.at(low) for steps in still)
        for place in places:
            yield _Over(
                verdict=_worst([apart, always, *(steps.at(place) for steps in moving)]),
                percent=Scale.of_factor(place).percent,
            )
        last = Scale(end.percent).factor
        said = [lifted(rule.at(last), job.overrides).verdict for rule in end.rules]
        at_end = [always, *(steps.at(last) for steps in moving), *said]
        yield _Over(verdict=_worst(at_end), percent=end.percent)


def _worst(verdicts: Iterable[Verdict]) -> Verdict:
    """Return the worst of verdicts; go where there are none."""
    return max(verdicts, key=lambda one: one.severity, default=Verdict.GO)


def _finding(job: Job, percents: tuple[float, float, float], here: Verdict, other: _Over | None) -> Finding:
    """Return a hold where something else than the verdict here stands in the range, and one of both does not pass."""
    ranged = [measure for measure in job.size.measures if off_mm(measure) > 0.0]
    told = listed(f"{one.name} is known to ± {off_mm(one):.1f} mm" for one in ranged)
    guessed = [one.name for one in ranged if one.off_mm is None]
    low, middle, high = percents
    span = f"{low:.1f} to {high:.1f} %" if high - low > 1e-9 else f"{middle:.1f} %"
    turns = other is not None and not (other.verdict.passes and here.passes)
    beyond = (
        "" if other is None else f"; {here.value} at {middle:.1f} %, {other.verdict.value} at {other.percent:.1f} %"
    )
    names = listed([one.name for one in ranged])
    return Finding(
        rule="size.range",
        part="",
        feature=names,
        verdict=Verdict.HOLD if turns else Verdict.GO,
        why=f"{told}: a size of {span}{beyond or ', one verdict all over it'}",
        remedy="take it again, with a caliper or a sharper photo, and write off_mm" if turns else "",
        source="off_mm in the job file" if not guessed else "3 % each way for a photo: common practice, no source",
        caution="" if turns or other is None else "Over this range other work is to be done: see the sizes that work.",
        question=f"What is {names} in mm, and how far may it be off (off_mm)?" if turns else "",
        evidence=Evidence.GUESSED if guessed and turns else Evidence.STATED,
    )
