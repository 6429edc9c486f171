"""Spools of a plan: which feeds which plate, and when somebody has to be there because one ends."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from string import ascii_uppercase

from planner.finding import Finding, Verdict
from planner.job import Job, Material
from planner.packing import Plate
from planner.phrases import listed, moment
from planner.schedule import Clocks, Feed, Need, PrintRun, Reel, Shop, Timetable, fed

SOURCE = "[[spool]] left_g, the plates' grams with the reserve, and [plan] attended"


def reels_of(job: Job, material: Material) -> tuple[Reel, ...]:
    """Return the spools of a material, lettered in the order of the job file; none where one does not say its grams."""
    spools = [spool for spool in job.spools if spool.material == material.name]
    if any(spool.left_g is None for spool in spools) or len(spools) > len(ascii_uppercase):
        return ()
    return tuple(
        Reel(name=letter, colour=spool.colour, left_g=spool.left_g or 0.0)
        for letter, spool in zip(ascii_uppercase, spools, strict=False)
    )


def feeds_of(
    job: Job, material: Material, plates: Sequence[Plate], placed: Sequence[PrintRun], shop: Shop
) -> tuple[Feed, ...]:
    """Return what feeds every plate that has a time; nothing where grams are withheld or spools not weighed."""
    reels = reels_of(job, material)
    if not reels or any(plate.mass_g is None for plate in plates):
        return ()
    reserve, heat_up = job.limits.spool_reserve.value, job.printer.heat_up_s.value / 60.0
    needs = [
        Need(
            plate=plate.number,
            colour=plate.group.colour,
            grams=reserve * plate.mass_g.value if plate.mass_g else 0.0,
            heat_up_min=heat_up,
        )
        for plate in plates
    ]
    return fed(needs, reels, placed, shop)


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
