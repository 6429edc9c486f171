"""Where a device is kept, and how hot it gets there."""

from __future__ import annotations

from dataclasses import dataclass

from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class Environment:
    """A place and the temperature that a device reaches there."""

    name: str
    about: str
    """The place, in words."""
    hottest_c: Sourced
    """The hottest that a device gets there."""
