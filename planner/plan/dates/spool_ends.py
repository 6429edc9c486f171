"""Spools of a plan: which feeds which plate, and when somebody has to be there because one ends."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from math import ceil, floor
from string import ascii_uppercase

from planner.finding import Finding, Verdict
from planner.job import Job, Material
from planner.packing import Plate
from planner.phrases import listed, moment
from planner.plan.dates.as_it_stands import Drawn
from planner.plan.plates.plate_inputs import PlateInputs
from planner.schedule import Clocks, Feed, Need, PrintRun, Reel, Shop, Timetable, Wall, fed

SOURCE = "[[spool]] left_g, the plates' grams with the reserve, and [plan] attended"

JobToFeed = tuple[PlateInputs, Sequence[Plate], Mapping[str, Drawn], Mapping[int, str]]
"""A job's inputs and plates, what other plates draw from its spools by id, and by plate the spool of the last plan."""


def reels_of(job: Job, material: Material, number: int) -> tuple[Reel, ...]:
    """Return the spools of a material; none where one does not say its grams.

    One without an id has a letter, in the order of the job file, and is the job's own.
    """
    spools = [spool for spool in job.spools if spool.material == material.name]
    if any(spool.left_g is None for spool in spools) or len(spools) > len(ascii_uppercase):
        return ()
    return tuple(
        Reel(
            name=spool.id or letter,
            colour=spool.colour,
            left_g=spool.left_g or 0.0,
            job=None if spool.id else number,
        )
        for letter, spool in zip(ascii_uppercase, spools, strict=False)
    )


def feeds_of(
    jobs: Sequence[JobToFeed], placed: Sequence[Sequence[PrintRun]], wall: Wall, shop: Shop
) -> list[tuple[Feed, ...]]:
    """Return for every job what feeds its plates that have a time; nothing where grams are withheld or not weighed.

    ``placed`` are each job's runs, on the schedule of all.
    Spools with an id serve all jobs: none of their grams feeds two plates, and none feeds two printers at once.
    """
    found: list[tuple[Feed, ...]] = [() for _ in jobs]
    for material in dict.fromkeys(inputs.material.name for inputs, *_ in jobs):
        mine = [k for k, (inputs, *_) in enumerate(jobs) if inputs.material.name == material]
        needs, reels = list[Need](), dict[tuple[int | None, str], Reel]()
        for k in mine:
            inputs, plates, drawn, last = jobs[k]
            own = reels_of(inputs.job, inputs.material, k)
            if own and all(plate.mass_g is not None for plate in plates):
                needs += _needs(inputs, plates, k, last)
                reels |= {reel.key: _less(reel, drawn.get(reel.name), wall) for reel in own}
        runs = [run for k in mine for run in placed[k]]
        feeds = fed(needs, tuple(reels.values()), runs, shop) if needs else ()
        for k in mine:
            found[k] = tuple(feed for feed in feeds if feed.job == k)
    return found


def _needs(inputs: PlateInputs, plates: Sequence[Plate], number: int, last: Mapping[int, str]) -> list[Need]:
    """Return what a job's plates need."""
    job = inputs.job
    reserve, heat_up = job.limits.spool_reserve.value, job.printer.heat_up_s.value / 60.0
    return [
        Need(
            job=number,
            plate=plate.number,
            colour=plate.group.colour,
            grams=reserve * plate.mass_g.value if plate.mass_g else 0.0,
            heat_up_min=heat_up,
            last=last.get(plate.number, ""),
        )
        for plate in plates
    ]


def _less(reel: Reel, drawn: Drawn | None, wall: Wall) -> Reel:
    """Return a spool less what other plates take from it, and when they do."""
    if drawn is None or reel.job is not None:
        return reel
    busy = tuple((floor(wall.minutes_to(a)), ceil(wall.minutes_to(b))) for a, b in drawn.spans)
    return replace(reel, left_g=max(0.0, reel.left_g - drawn.grams), busy=busy)


def watched_note(plates: Iterable[int]) -> str:
    """Say which plates somebody has to be beside."""
    told = listed(str(plate) for plate in sorted(plates))
    return f"plate {told}: somebody must be there all the time, because a spool ends in it"


def ends_at(table: Timetable, feed: Feed) -> tuple[datetime, ...]:
    """Return when somebody has to be there because a spool of a plate ends."""
    start_min = next(run.start_min for run in table.placed if run.plate == feed.plate)
    return tuple(table.at(start_min + end) for end in feed.ends_min)


def spool_lines(clocks: Clocks) -> list[str]:
    """Return what feeds every plate, in sentences."""
    return [_line(clocks.table, feed) for feed in clocks.feeds]


def spool_end_findings(clocks: Clocks) -> tuple[Finding, ...]:
    """Return a caution for every plate in which a spool ends, a hold where nobody is there then."""
    found = []
    for feed in clocks.feeds:
        if not feed.ends_min:
            continue
        told, held = _line(clocks.table, feed), feed.unattended or feed.short_g > 0
        found.append(
            Finding(
                rule="spool.end",
                part="",
                feature=f"plate {feed.plate}",
                verdict=Verdict.HOLD if held else Verdict.GO,
                why=told,
                remedy="use a spool that holds the whole plate, part the plate, or let it run while somebody is there"
                if held
                else "",
                caution="" if held else told,
                source=SOURCE,
            )
        )
    return tuple(found)


def _line(table: Timetable, feed: Feed) -> str:
    """Return what feeds a plate and when its spools end."""
    if not feed.reels:
        return f"no spool is left for plate {feed.plate}: {feed.short_g:.0f} g with the reserve"
    told = f"plate {feed.plate} from spool {feed.reels[0].name} ({feed.reels[0].colour})"
    nexts = [f"spool {reel.name}" for reel in feed.reels[1:]]
    nexts += [f"a new one of {feed.short_g:.0f} g"] * (feed.short_g > 0)
    for reel, end, when, after in zip(feed.reels, feed.ends_min, ends_at(table, feed), nexts, strict=False):
        told += f"; spool {reel.name} ends about {end / 60:.1f} h into it: be there at {moment(when)} with {after}"
    return told + (", when nobody is there" if feed.unattended else "")
