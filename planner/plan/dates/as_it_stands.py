"""Standing: how things stand in a chapter before it is planned again: what runs, and what the last plan said."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime

from planner.job import Attended
from planner.packing import Placement, Plate, counted
from planner.schedule import PlateLoad

Moments = tuple[datetime, datetime]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stood:
    """A plate of the last plan that is not printed yet: its printer, its start, and how its pieces lie."""

    printer: str
    start: datetime | None
    placements: tuple[Placement, ...]
    spool: str = ""
    """The id of the spool that was to feed it whole; empty for none."""

    @property
    def pieces(self) -> dict[str, int]:
        """How many pieces of each part."""
        return counted(self.placements)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """What plates of other jobs, or plates that run, take from a spool, and when they do."""

    grams: float = 0.0
    spans: tuple[Moments, ...] = ()

    def __add__(self, more: Drawn) -> Drawn:
        """Return both together."""
        return Drawn(grams=self.grams + more.grams, spans=(*self.spans, *more.spans))


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """How things stand for one job.

    ``running`` says by printer when what runs on it should end, whosever it is; ``until`` when the last piece of this
    job that runs should be there. ``drawn`` is by spool id. ``hours`` are those of printers that have their own.
    """

    stood: tuple[Stood, ...] = ()
    running: Mapping[str, datetime] = field(default_factory=dict)
    until: datetime | None = None
    drawn: Mapping[str, Drawn] = field(default_factory=dict)
    hours: Mapping[str, tuple[Attended, ...]] = field(default_factory=dict)
    built: bool = False
    """Whether the device is built and fitted: no hands work on it any more."""
    tested: bool = False
    """Whether it is built and passed its test: where nothing is to be printed, it waits for its fitting alone."""


def as_stood(
    loads: Sequence[PlateLoad], plates: Sequence[Plate], standing: Standing, material: str
) -> tuple[PlateLoad, ...]:
    """Return loads that know where the last plan has them, by their pieces, and what feeds them, if counted."""
    found = []
    for load, plate, last in zip(loads, plates, _last(plates, standing), strict=True):
        stood = None if last is None or last.start is None else (last.printer, last.start)
        reel = f"{material} {plate.group.colour}" if material else ""
        found.append(replace(load, stood=stood, reel=reel))
    return tuple(found)


def last_spools(plates: Sequence[Plate], standing: Standing) -> dict[int, str]:
    """Return by plate number the spool that the last plan had for it; those that had none are left out."""
    pairs = zip(plates, _last(plates, standing), strict=True)
    return {plate.number: last.spool for plate, last in pairs if last is not None and last.spool}


def _last(plates: Sequence[Plate], standing: Standing) -> list[Stood | None]:
    """Return what the last plan said of every plate, by its pieces; None for one that is new."""
    left, found = [each for each in standing.stood if each.start is not None], list[Stood | None]()
    for plate in plates:
        pieces = counted(plate.placements)
        same = sorted((each for each in left if each.pieces == pieces), key=lambda each: each.printer != plate.printer)
        if same:
            left.remove(same[0])
        found.append(same[0] if same else None)
    return found
