"""Spools, what plates need of them, and what feeds what."""

from __future__ import annotations

from dataclasses import dataclass

from planner.schedule.calendar.schedule_records import Key
from planner.schedule.calendar.weekly_spans import Span

ReelKey = tuple[int | None, str]
"""The job whose own a spool is, and its name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reel:
    """A spool at hand: its id or a letter, its colour ("any": serves all), grams left, when it feeds something else.

    ``job`` is the one whose own it is; None: it has an id, and serves all jobs.
    """

    name: str
    colour: str
    left_g: float
    job: int | None = None
    busy: tuple[Span, ...] = ()

    @property
    def key(self) -> tuple[int | None, str]:
        """What tells it from others."""
        return self.job, self.name


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """A plate's colour and grams, the reserve included; nothing is laid in its first ``heat_up_min``."""

    plate: int
    colour: str
    grams: float
    heat_up_min: float = 0.0
    job: int = 0
    last: str = ""
    """The spool that the last plan had for it; empty for none."""

    @property
    def key(self) -> Key:
        """Its job and its number there."""
        return self.job, self.plate


@dataclass(frozen=True, slots=True, kw_only=True)
class Feed:
    """The spools of a plate in order, and for every one but the last the minutes after the plate's start it ends at.

    ``short_g`` is what no spool has for it; ``unattended`` says that nobody is there at some end.
    """

    plate: int
    reels: tuple[Reel, ...]
    ends_min: tuple[float, ...]
    short_g: float
    unattended: bool
    job: int = 0

    @property
    def key(self) -> Key:
        """Its job and its number there."""
        return self.job, self.plate


def suits(need: Need, reel: Reel) -> bool:
    """Return whether a spool has the plate's colour; "any" on either side suits all. A job's own feeds no other."""
    if reel.job not in (None, need.job):
        return False
    return "any" in (need.colour, reel.colour) or need.colour == reel.colour
