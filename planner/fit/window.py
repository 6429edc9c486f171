"""Which sizes work: the intervals of scale in which every rule passes, each end with its cause."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Finding


@dataclass(frozen=True, slots=True, kw_only=True)
class Interval:
    """One interval of scale in percent; an end that nothing bounds is None."""

    low_percent: float | None
    high_percent: float | None
    low_cause: Finding | None
    high_cause: Finding | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """All intervals in which a condition holds, smallest first.

    ``nearest`` holds the job's scale or lies nearest to it; None where no size passes, and then
    ``causes`` names what fails at the job's scale.
    """

    nearest: Interval | None
    intervals: tuple[Interval, ...]
    causes: tuple[Finding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """``go``: every rule gives go; ``workable``: a check would exit with 0. ``part`` empty: the whole job."""

    part: str
    go: Reach
    workable: Reach
