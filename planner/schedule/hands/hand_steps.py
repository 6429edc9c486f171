"""Steps: what hands do after the printer, in which order, with which waits; the critical path through them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.schedule.calendar.weekly_spans import Span, worked


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """Work of a length that begins a wait after the steps it needs are done, and not before a minute."""

    name: str
    takes_min: int
    after: tuple[str, ...] = ()
    wait_min: int = 0
    not_before_min: int = 0
    why: str = ""
    role: str = "maker"
    """Who does it: a maker, a tester or a fitter."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leeway:
    """When a step can begin at the earliest and must at the latest, where hands are always there; slack between."""

    earliest_min: int
    latest_min: int

    @property
    def slack_min(self) -> int:
        """How long it may be put off; 0 on the critical path."""
        return self.latest_min - self.earliest_min


@dataclass(frozen=True, slots=True, kw_only=True)
class StepRun:
    """A step in the calendar, in minutes from the schedule's start; it may rest while nobody is there."""

    step: Step
    start_min: int
    end_min: int


def leeways(steps: Sequence[Step]) -> dict[str, Leeway]:
    """Return every step's leeway by the critical path method (Kelley and Walker 1959): forward, then backward.

    Steps come in an order in which each stands after those it needs.
    """
    known = {step.name: step for step in steps}
    early: dict[str, int] = {}
    for step in steps:
        needs = [early[name] + known[name].takes_min + step.wait_min for name in step.after]
        early[step.name] = max([step.not_before_min, *needs])
    whole = max((early[step.name] + step.takes_min for step in steps), default=0)
    late = {step.name: whole - step.takes_min for step in steps}
    for step in reversed(steps):
        for name in step.after:
            late[name] = min(late[name], late[step.name] - step.wait_min - known[name].takes_min)
    return {name: Leeway(earliest_min=early[name], latest_min=late[name]) for name in known}


def placed_steps(steps: Sequence[Step], attended: Sequence[Span], begin: int) -> tuple[StepRun, ...] | None:
    """Return when one pair of hands does the steps, one after the other, from a minute on; None: not within a year."""
    ends: dict[str, int] = {}
    hands, found = begin, []
    for step in steps:
        ready = max([hands, step.not_before_min, *(ends[name] + step.wait_min for name in step.after)])
        end = worked(attended, ready, step.takes_min)
        if end is None:
            return None
        start = worked(attended, ready, 0)
        ends[step.name] = hands = end
        found.append(StepRun(step=step, start_min=ready if start is None else start, end_min=end))
    return tuple(found)


def hands_min(steps: Sequence[Step], changes: Mapping[str, int]) -> int:
    """Return the minutes that hands are needed for: the steps, and clearing every bed."""
    return sum(step.takes_min for step in steps) + sum(changes.values())
