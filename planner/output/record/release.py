"""The release: whether tests, lots, roles and fresh measures are complete, or exceptions are approved."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from planner.errors import RecordError, nearest
from planner.finding import Finding
from planner.job import Measure, Override, kind_of
from planner.output.papers.function_test import Trial, trials_of
from planner.output.record.record import ROLES, Lift, Of, Record, lots_of, of_plan
from planner.output.words.shortened import short
from planner.plan import Plan
from planner.rules import lifted
from planner.size import sizing


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """One item that is missing for a release. ``item`` is its name in the record's overrides."""

    item: str
    what: str
    todo: str
    lift: Lift | None = None
    """Who answers for it in the job file already."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """One thing that stood against a release, and who answers for it."""

    missing: Missing
    lift: Lift


@dataclass(frozen=True, slots=True, kw_only=True)
class Release:
    """The outcome.

    ``needless`` are overrides of what was not missing; ``strange`` trials, lots and measures not of this plan.
    """

    record: Record
    day: date
    missing: tuple[Missing, ...]
    answered: tuple[Answered, ...]
    needless: tuple[Lift, ...]
    strange: tuple[str, ...]

    @property
    def released(self) -> bool:
        """True where nothing is missing that nobody answers for."""
        return not self.missing


def release(plan: Plan, record: Record, today: date) -> Release:
    """Judge a record against its plan.

    Parameters
    ----------
    plan
        The plan of the same job, made again today: a hold in it blocks the release, too.
    today
        The day of the hand-over, against which measures are fresh or not.

    Raises
    ------
    RecordError
        Where an override names an item that this plan does not have.
    """
    found = [*_plan(plan, record), *_roles(record), *_trials(plan, record, today), *_lots(plan, record)]
    found += _measures(plan, record, today)
    items = {one.item for one in found} | known_items(plan)
    for lift in record.lifts:
        if lift.item not in items:
            phrase = f"no item is called '{lift.item}'"
            raise RecordError(where="record.toml [[override]] item", wrong=phrase, todo=nearest(lift.item, items))
    by_item = {lift.item: lift for lift in record.lifts}
    lifts = [(one, by_item.get(one.item) or one.lift) for one in found]
    trials, lots = {trial.name for trial in trials_of(plan)}, set(lots_of(plan))
    measures = {measure.name for measure in plan.job.size.measures}
    return Release(
        record=record,
        day=today,
        missing=tuple(one for one, lift in lifts if lift is None),
        answered=tuple(Answered(missing=one, lift=lift) for one, lift in lifts if lift is not None),
        needless=tuple(lift for lift in record.lifts if lift.item not in {one.item for one in found}),
        strange=tuple(
            [f"trial: {one.trial}" for one in record.trials if one.trial not in trials]
            + [f"lot: {one.of}" for one in record.lots if one.of not in lots]
            + [f"measure: {one.name}" for one in record.measures if one.name not in measures]
        ),
    )


def known_items(plan: Plan) -> set[str]:
    """Return every item that an override may name."""
    return {
        "plan",
        "same device",
        "test day",
        "measures",
        *(f"role: {role}" for role in ROLES),
        *(f"trial: {trial.name}" for trial in trials_of(plan)),
        *(f"lot: {name}" for name in lots_of(plan)),
        *(f"measure: {measure.name}" for measure in plan.job.size.measures),
    }


def _plan(plan: Plan, record: Record) -> Iterator[Missing]:
    """Yield what the plan itself holds against it, and what the record was written for instead."""
    stops = [finding for finding in plan.findings if not finding.verdict.passes]
    only_late = bool(stops) and all(kind_of(finding.rule).late for finding in stops)
    if not plan.verdict.passes and not only_late:  # a missed date is no fault of the device: it may be handed over late
        first = next((finding for finding in stops if not kind_of(finding.rule).late), plan.findings[0])
        yield Missing(item="plan", what=f"the plan says {plan.verdict.value}: {first.why}", todo=first.remedy)
    mine = of_plan(plan, record.of.paper)
    apart = [phrase for phrase in _apart(record.of, mine) if phrase]
    if apart:
        yield Missing(
            item="same device",
            what="the record is of another device: " + "; ".join(apart),
            todo="plan again and fill in the record of that plan, or name the right record with --record",
        )


def _apart(theirs: Of, mine: Of) -> Iterator[str]:
    """Yield every point in which two devices differ."""
    for key, phrase in (
        ("job", "job"),
        ("recipient", "recipient"),
        ("scale_percent", "scale"),
        ("side", "side"),
        ("printer", "printer"),
        ("material", "material"),
    ):
        one, other = getattr(theirs, key), getattr(mine, key)
        if one != other and not (key == "scale_percent" and abs(one - other) < 1e-3):
            yield f"{phrase} {one or 'none'}, now {other or 'none'}"
    if theirs.parts_sha256 != mine.parts_sha256:
        yield "a mesh, a count, the size of a part or a mirrored part has changed"
    if theirs.settings_sha256 != mine.settings_sha256:
        yield "the print settings have changed"


def _roles(record: Record) -> Iterator[Missing]:
    """Yield every role that nobody has."""
    for role, who in record.roles:
        if not who:
            phrase = "handed it over" if role == "handed_over" else f"{role} it"
            yield Missing(
                item=f"role: {role}",
                what=f"nobody is named who {phrase}",
                todo=f"write a role, not a name, into [role] {role}",
            )


def _trials(plan: Plan, record: Record, today: date) -> Iterator[Missing]:
    """Yield every trial that was not passed, and a test without its day."""
    results = {one.trial: one for one in record.trials}
    for trial in trials_of(plan):
        one = results.get(trial.name)
        item = f"trial: {trial.name}"
        if one is None or not one.result:
            yield Missing(item=item, what=f"{trial.name} was not tested", todo=f"{trial.how}: {trial.passes}")
        elif one.result == "fail":
            phrase = f" ({one.remark})" if one.remark else ""
            yield Missing(item=item, what=f"{trial.name} failed{phrase}", todo="repair it and repeat every test")
        elif trial.most_g is not None:
            yield from _over(trial, item, one.reading)
    if record.tested_on is None:
        yield Missing(item="test day", what="the test has no day", todo="write the day of the last test into [test] on")
    elif record.tested_on > today:
        phrase = f"the test is dated {record.tested_on}, which is in the future"
        yield Missing(item="test day", what=phrase, todo="correct the day")
    else:
        born = _earliest(plan)
        if born is not None and record.tested_on < born:
            phrase = f"the test is dated {record.tested_on}, before the first day of this job, {born}"
            yield Missing(item="test day", what=phrase, todo="correct the day")


def _earliest(plan: Plan) -> date | None:
    """Return the first day that a job knows: a measure's, or the plan's start; None where it names none."""
    days = [measure.taken for measure in plan.job.size.measures if measure.taken is not None]
    start = plan.job.calendar.start if plan.job.calendar else None
    return min([*days, *([start.date()] if start else [])], default=None)


def _over(trial: Trial, item: str, reading: str) -> Iterator[Missing]:
    """Yield a reading in grams that is over its limit, or that cannot be compared with it."""
    read, most = grams_read(reading), trial.most_g or 0.0
    if read is None:
        phrase = f"{trial.name} is recorded as passed, but '{short(reading, 40)}' is not a reading in grams"
        yield Missing(
            item=item, what=phrase, todo=f"write what the scales read, such as {most:g} g; at most {most:g} g passes"
        )
    elif read > most:
        phrase = f"{trial.name} is recorded as passed, but reads {read:g} g; at most {most:g} g passes"
        yield Missing(item=item, what=phrase, todo="weigh it again, or make it lighter")


def grams_read(reading: str) -> float | None:
    """Return a reading in grams; None where it is none, so that no unit is guessed.

    >>> grams_read("231,5 g"), grams_read("0.2315 kg"), grams_read("231.5"), grams_read("about 8 oz")
    (231.5, 231.5, 231.5, None)
    """
    found = re.fullmatch(r"\s*(\d+(?:[.,]\d+)?)\s*(g|kg)?\s*", reading)
    return None if found is None else float(found[1].replace(",", ".")) * (1000.0 if found[2] == "kg" else 1.0)


def _lots(plan: Plan, record: Record) -> Iterator[Missing]:
    """Yield every material whose lot nobody wrote down."""
    lots = {one.of: one.lot for one in record.lots}
    for name in lots_of(plan):
        if not lots.get(name):
            yield Missing(
                item=f"lot: {name}",
                what=f"{name} has no lot",
                todo="from the pack, or where and when bought",
            )


def _measures(plan: Plan, record: Record, today: date) -> Iterator[Missing]:
    """Yield measures that are missing, old, or ask for another size, by the rules of ``fit`` on this very day."""
    job, now = plan.job, {one.name: one for one in record.measures}
    if not job.size.measures:
        phrase = "the job has no measure of the recipient, so its age cannot be checked"
        yield Missing(item="measures", what=phrase, todo="add [[size.measure]] to the job and plan again")
        return
    fresh: list[Measure] = []
    for measure in job.size.measures:
        one, item = now.get(measure.name), f"measure: {measure.name}"
        if one is None or one.recipient_mm is None or one.taken is None:
            todo = "measure, and write the mm and the day into [[measure]]"
            yield Missing(item=item, what=f"{measure.name} has no value or no day", todo=todo)
        elif one.taken > today:
            yield Missing(
                item=item, what=f"{measure.name} is dated {one.taken}, which is in the future", todo="correct it"
            )
        else:
            fresh.append(replace(measure, recipient_mm=one.recipient_mm, taken=one.taken))
    size = replace(job.size, percent=plan.scale_percent, what_if=False, measures=tuple(fresh))
    solids = {part.part.name: part.solid for part in plan.parts}
    for finding in sizing(replace(job, size=size, calendar=None), solids, today).at_its_size():
        if not finding.verdict.passes:
            item = "measures" if kind_of(finding.rule).gives == "measures apart" else f"measure: {finding.feature}"
            lift = _by_job(finding, job.overrides, item)
            yield Missing(item=item, what=finding.why, todo=finding.remedy or finding.question, lift=lift)


def _by_job(finding: Finding, overrides: tuple[Override, ...], item: str) -> Lift | None:
    """Return the override of the job file that lifts a hold, if one does."""
    one = next((o for o in overrides if o.rule == finding.rule and o.part in ("", finding.part)), None)
    if one is None or not lifted(finding, (one,)).verdict.passes:
        return None
    return Lift(item=item, role=one.role, reason=f"{one.reason} (in the job file)")
