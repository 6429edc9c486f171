"""Ways by hand on printed openings: drill, ream, glue in a bush, or leave out work that spoils."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from planner.assembly import claims_of, drill_of, ends_of
from planner.digits import hardly_apart
from planner.finding import Finding
from planner.job import CureKind, Edit, HandWork, Job, read_hands_on
from planner.phrases import listed
from planner.remedy.candidate import Candidate
from planner.remedy.group import Group
from planner.remedy.remedy import Costs
from planner.remedy.rule_answers import Again, Stand
from planner.rules import at_least
from planner.scale import Scale
from planner.survey import Bore, Survey

DRILL_STEPS_MM = (0.1, 0.05, 0.01)
"""Drills come in steps of 0.1 mm, some of 0.05; a reamer is set to 0.01."""
ROUND_MM = 1e-6
SAME_MM = 0.01
"""Steps of a stack that differ by less are one size."""


def drilled(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield drilling all bores of a group to what each needs, in steps that drills are sold in."""
    pairs = [(f.measured, f.limit) for f in group.findings if f.measured is not None and f.limit is not None]
    near = bool(pairs) and all(hardly_apart(measured, limit) for measured, limit in pairs)
    for step in DRILL_STEPS_MM:
        works = works_for(stand, group.part, group.findings, group.features, "drill", step)
        candidate = _by_hand(stand, group, "drill", works)
        if any(_wide(stand, work) for work in works):  # such a one is reamed, or drawn at its size
            yield replace(candidate, why_not=f"no hand turns a drill of over {_most_mm(stand, 'drill_most_mm'):g} mm")
            return
        yield replace(candidate, text=f"try it first; if it binds, {candidate.text}") if near else candidate


def reamed(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield reaming the straight bores of a group."""
    if not _straight(stand.surveys[group.part], group.features):
        yield Candidate(kind="ream", part=group.part, text=f"ream it in {group.part}", why_not="it is curved")
        return
    for step in DRILL_STEPS_MM:
        works = works_for(stand, group.part, group.findings, group.features, "ream", step)
        candidate, why = _by_hand(stand, group, "ream", works), too_much(stand, works, group.findings, group.features)
        yield replace(candidate, why_not=why) if why else candidate


def bushed(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield a bush in every bore of a group, the bore drilled for it where it is too narrow."""
    if not group.claims:
        return
    claim, job = group.claims[0], stand.job
    ends = ends_of(claim.hardware, claim.fit, job.limits, job.tables)
    if ends is None or claim.fit == "pilot" or claim.hardware.kind == "insert":
        why = "a bush holds no thread and no insert"
        yield Candidate(kind="bush", text=f"glue in a bush in {group.part}", part=group.part, why_not=why)
        return
    inside = up(ends[0], 0.1) if up(ends[0], 0.1) <= ends[1] else up(ends[0], 0.01)
    outside = inside + 2 * job.limits.bush_wall_mm.value
    widest = min(finding.measured or 0.0 for finding in group.findings)
    works: list[HandWork] = []
    if widest < outside:
        works.append(HandWork(part=group.part, kind="drill", to_mm=up(outside, 0.1), bores=group.features))
    works.append(HandWork(part=group.part, kind="bush", to_mm=inside, bores=group.features))
    candidate, why = _by_hand(stand, group, "bush", works), too_much(stand, works[:-1], group.findings, group.features)
    yield replace(candidate, why_not=why) if why else candidate


def _most_mm(stand: Stand, key: str) -> float:
    """Return one of the limits of what a hand widens."""
    return stand.job.limits.of("bore.tight", key).value


def _wide(stand: Stand, work: HandWork) -> bool:
    """Return whether some work is wider than any drill that a hand turns."""
    return work.to_mm > _most_mm(stand, "drill_most_mm")


def too_much(stand: Stand, works: Sequence[HandWork], findings: Sequence[Finding], features: Sequence[str]) -> str:
    """Return why a hand does not widen bores so far; empty where it does."""
    has_mm = {name: finding.measured or 0.0 for name, finding in zip(features, findings, strict=True)}
    most_mm = _most_mm(stand, "scrape_mm")
    for work in works:
        if _wide(stand, work) and any(not at_least(has_mm[name] + most_mm, work.to_mm) for name in work.bores):
            return f"of a bore over {_most_mm(stand, 'drill_most_mm'):g} mm a hand takes off {most_mm:g} mm at most"
    return ""


def without_work(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield leaving out the work that the job states for the bores of a group."""
    spoils = [work for work in stand.job.works if work.part == group.part and set(work.bores) & set(group.features)]
    if spoils:
        told = ", then ".join(work.told for work in spoils)
        edits = tuple(Edit(table="work", name=called(work), drop=True) for work in spoils)
        yield Candidate(kind="drill", text=f"do not {told} in {group.part}", part=group.part, does=edits)


def works_for(
    stand: Stand, part: str, findings: Sequence[Finding], features: Sequence[str], kind: CureKind, step_mm: float
) -> list[HandWork]:
    """Return the drilling that makes each bore as wide as its finding needs, bores of one size together."""
    factor, survey = _factor(stand, part), stand.surveys[part]
    bores = {bore.id: bore for bore in survey.bores}
    usual = _usual_mm(stand, part, features)
    sizes: dict[tuple[float, float | None], list[str]] = {}
    for finding, feature in zip(findings, features, strict=True):
        bore = bores.get(feature)
        if bore is None or finding.limit is None:
            continue
        stop_mm = _stop_mm(bore, survey.stack_of(bore))
        depth = None if stop_mm is None else math.floor(stop_mm * factor * 10 + ROUND_MM) / 10
        least = max(usual.get(feature, 0.0), finding.limit)
        sizes.setdefault((up(least, step_mm), depth), []).append(feature)
    return [
        HandWork(part=part, kind="ream" if kind == "ream" else "drill", to_mm=to, bores=tuple(ids), depth_mm=depth)
        for (to, depth), ids in sizes.items()
    ]


def _stop_mm(bore: Bore, stack: Sequence[Bore]) -> float | None:
    """Return how deep a drill goes from the outside, as drawn, so that it spares what is narrower; None for through.

    It comes from the side away from the narrower steps, through those that are as wide or wider.
    """
    narrower = [other for other in stack if other.drawn_diameter_mm < bore.drawn_diameter_mm - SAME_MM]
    if not narrower:
        return None if bore.through or len(stack) > 1 else bore.depth_mm
    here = _along(bore, bore)
    side = min((_along(other, bore) - here for other in narrower), key=abs)
    sign = 1.0 if side >= 0.0 else -1.0
    before = [other for other in stack if sign * (_along(other, bore) - here) <= 0.0]
    outer = min(sign * _along(other, bore) - other.depth_mm / 2 for other in before)
    return sign * here + bore.depth_mm / 2 - outer


def _along(bore: Bore, axis_of: Bore) -> float:
    """Return where a bore's middle lies along the axis of another."""
    return sum(a * b for a, b in zip(bore.centre_mm, axis_of.axis, strict=True))


def _usual_mm(stand: Stand, part: str, features: Sequence[str]) -> dict[str, float]:
    """Return what bores are drilled to for the hardware in them: the widest, where several pieces share one."""
    job, found = stand.job, dict[str, float]()
    for claim in claims_of(job, stand.surveys).claims:
        hardware = claim.hardware
        size = drill_of(hardware, claim.fit, job.limits, job.tables)
        if claim.part == part and claim.bore.id in features and size is not None:
            found[claim.bore.id] = max(found.get(claim.bore.id, 0.0), size)
    return found


def up(value_mm: float, step_mm: float) -> float:
    """Return a length rounded up to a step.

    >>> up(2.363, 0.1), up(3.1, 0.1)
    (2.4, 3.1)
    """
    return round(math.ceil(value_mm / step_mm - ROUND_MM) * step_mm, 4)


def edits_of(works: Iterable[HandWork]) -> tuple[Edit, ...]:
    """Return the edits that write work into a job."""
    return tuple(Edit(table="work", name=called(work), put=_put(work)) for work in works)


def called(work: HandWork) -> str:
    """Return what an edit calls a piece of work."""
    where = (*work.bores, *work.pegs, *([work.into] if work.into else []))
    return f"{work.kind} {work.part} {', '.join((*where, *([f'{work.drawn_mm:g}'] if work.drawn_mm else [])))}"


def minutes_for(job: Job, works: Iterable[HandWork]) -> float:
    """Return how long work takes on all copies of its parts."""
    each = read_hands_on().drill_min.value
    places_n = ((work, max(1, len(work.bores) + len(work.pegs))) for work in works)
    return sum(each * n * job.part(work.part).printed_n for work, n in places_n)


def _put(work: HandWork) -> dict[str, str | float | tuple[str, ...]]:
    """Return the keys of a piece of work."""
    stop: dict[str, float] = {} if work.depth_mm is None else {"depth_mm": work.depth_mm}
    where: dict[str, str | float | tuple[str, ...]] = {}
    for key in ("bores", "pegs", "into", "drawn_mm"):
        if value := getattr(work, key):
            where[key] = value
    return {"part": work.part, **where, "kind": work.kind, "to_mm": work.to_mm, **stop}


def _by_hand(stand: Stand, group: Group, kind: CureKind, works: Sequence[HandWork]) -> Candidate:
    """Return the candidate of some work."""
    return Candidate(
        kind=kind,
        text=orders(works),
        part=group.part,
        does=edits_of(works),
        costs=Costs(minutes_min=minutes_for(stand.job, works), money=0.0),
        why_not="" if works else "there is no straight bore to work on",
    )


def orders(works: Sequence[HandWork]) -> str:
    """Say work as an order.

    >>> orders([HandWork(part="jaw", kind="drill", to_mm=5.2, bores=("b1", "b2"))])
    'drill b1 and b2 of jaw to 5.2 mm'
    """
    said = []
    for work in works:
        which = f"{listed(work.bores or work.pegs)} of {work.part}"
        if work.kind == "file":
            which = f"{work.part}, drawn {work.drawn_mm:g} mm wide in {work.into},"
        kind, rest = work.told.split(" to ", 1) if not work.fills else ("", work.told)
        said.append(f"{rest} in {which}" if work.fills else f"{kind} {which} to {rest}")
    return ", then ".join(said)


def _straight(survey: Survey, features: Sequence[str]) -> bool:
    """Return whether all features are bores."""
    return set(features) <= {bore.id for bore in survey.bores}


def _factor(stand: Stand, part: str) -> float:
    """Return the factor that a part is printed at; the least where it is scaled unevenly."""
    own = stand.job.part(part).scale_percent
    if isinstance(own, tuple):
        return min(own) / 100.0
    return Scale(stand.percent if own is None else own).factor
