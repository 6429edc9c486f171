"""What usual values decide: the rules bound again with the ends of every range that a profile gives.

A printer's undersize, a running clearance, a material's strength are judged at their middle. Where an end of the
range changes the verdict, the finding rests on a usual value, and on nothing stronger.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import fields, is_dataclass, replace
from itertools import product
from typing import Any, Literal, TypeVar, cast

from planner.job import Job
from planner.rules.questions.given_answers import Answers, Given, answered
from planner.rules.questions.unanswered_rules_of import Key, by_key, slots_of
from planner.rules.rule import Rule
from planner.sourced import Sourced
from planner.survey import Survey

End = Literal["low", "high"]
ENDS: tuple[End, End] = ("low", "high")
MOVED_MOST = 64
"""So many records are remembered with what they are at an end of their ranges."""
Record = TypeVar("Record")
Otherwise = Mapping[Key, tuple[tuple[Rule, ...], ...]]
"""By rule: what it may be as well, within the ranges of the profiles and under each single answer."""

_MOVED: dict[tuple[int, End], tuple[object, object]] = {}


def moved(record: Record, end: End) -> Record:
    """Return a record with every value that has a range at one end of it."""
    if isinstance(record, Sourced):
        value = record.low if end == "low" else record.high
        return cast("Record", record if value == record.value else replace(record, value=value))
    if isinstance(record, tuple):
        each = tuple(moved(one, end) for one in record)
        return record if all(one is other for one, other in zip(each, record, strict=True)) else cast("Record", each)
    if isinstance(record, dict):
        return cast("Record", {key: moved(one, end) for key, one in record.items()})
    if is_dataclass(record) and not isinstance(record, type):
        ends = {f.name: moved(getattr(record, f.name), end) for f in fields(record)}
        changed = {name: value for name, value in ends.items() if value is not getattr(record, name)}
        return replace(cast("Any", record), **changed) if changed else record
    return record


def at_end(record: Record, end: End) -> Record:
    """Return :func:`moved`, remembered for the very same record: one printer's stands in many changed jobs."""
    held = _MOVED.get((id(record), end))
    if held is None:
        held = record, moved(record, end)  # held, so that no other record takes its number
        while len(_MOVED) >= MOVED_MOST:
            with suppress(KeyError, RuntimeError, StopIteration):  # another thread was sooner
                del _MOVED[next(iter(_MOVED))]
        _MOVED[id(record), end] = held
    return cast("Record", held[1])


def corners(job: Job) -> list[Job]:
    """Return the job with the ranges of its printer and of its limits and materials at their ends, in all four ways."""
    return [
        replace(
            job,
            printer=at_end(job.printer, printer),
            limits=at_end(job.limits, limits),
            materials=at_end(job.materials, limits),
            material=at_end(job.material, limits),
        )
        for printer, limits in product(ENDS, ENDS)
    ]


def otherwise(
    job: Job,
    surveys: Mapping[str, Survey],
    asked: Sequence[Answers],
    rounds: Sequence[Given],
    bind: Callable[[Job], Sequence[Rule]],
) -> Otherwise:
    """Return what the rules of a job may be as well: at the ends of all ranges, before and under each answer.

    ``rounds`` give every answer once; ``bind`` binds the rules of a changed job.
    """
    now = by_key(bind(job))
    givens: list[Given] = [(), *rounds]
    found: dict[Key, list[tuple[Rule, ...]]] = {}
    for corner in corners(job):
        for given in givens:
            slots = slots_of(now, bind(answered(corner, surveys, asked, given)))
            for key, rules in slots.items():
                seen = found.setdefault(key, [])
                if rules != now.get(key, ()) and rules not in seen:
                    seen.append(rules)
    return {key: tuple(seen) for key, seen in found.items() if seen}
