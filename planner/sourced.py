"""A number that knows where it comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

Kind = Literal["exact", "derived", "measured", "common-practice", "memory", "job"]
KINDS: tuple[Kind, ...] = get_args(Kind)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sourced:
    """A value with its range and its origin; the unit stands in the name of the field that holds it."""

    value: float
    """The middle value, used wherever one number is needed."""
    low: float
    """Low end of the range in which the true value lies."""
    high: float
    """High end of that range."""
    kind: Kind
    """Where it comes from; "job": a person stated it."""
    source: str
    """Standard, publication, "from memory", or "common practice, no source"."""

    def __post_init__(self) -> None:
        if not self.low <= self.value <= self.high:
            raise ValueError(f"value {self.value} lies outside its range {self.low} to {self.high}")


def usual(value: float) -> Sourced:
    """Return a usual number without a range: common practice, no source.

    >>> usual(0.3).kind
    'common-practice'
    """
    return Sourced(value=value, low=value, high=value, kind="common-practice", source="common practice, no source")


def stated(value: float, source: str = "job file") -> Sourced:
    """Return a number that a person stated: no range, kind ``job``.

    >>> stated(0.2).low
    0.2
    """
    return Sourced(value=value, low=value, high=value, kind="job", source=source)
