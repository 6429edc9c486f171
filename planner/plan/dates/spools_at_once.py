"""Spools at once: how many plates of a colour may run side by side, because so many spools can feed one each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planner.plan.dates.spool_ends import JobToFeed, reels_of
from planner.schedule import Feed, JobLoads, Reel, reels_of_all


def at_once(asking: JobToFeed) -> dict[str, frozenset[str]]:
    """Return a job's spools by id, each with the colours of which it feeds a plate whole; else those with most grams.

    A nearly empty one feeds no plate beside another: counted, it would let two plates run of which one is short.
    """
    inputs, plates, _, _ = asking
    reserve, left = inputs.job.limits.spool_reserve.value, _left_g(asking)
    least = dict[str, float]()
    for plate in plates:
        grams = reserve * plate.mass_g.value if plate.mass_g else 0.0
        least[plate.group.colour] = min(grams, least.get(plate.group.colour, grams))
    named = dict[str, set[str]]()
    for colour, grams in least.items():
        mine = {name: g for name, (reel, g) in left.items() if "any" in (colour, reel.colour) or colour == reel.colour}
        enough = min(grams, max(mine.values(), default=0.0))
        for name in (name for name, g in mine.items() if g >= enough):
            named.setdefault(name, set()).add(f"{inputs.material.name} {colour}")
    return {name: frozenset(feeds) for name, feeds in named.items()}


def with_fewer_at_once(
    asking: Sequence[JobToFeed], loads: Sequence[JobLoads], feeds: Sequence[Sequence[Feed]]
) -> tuple[JobLoads, ...]:
    """Return the loads with one spool less of a colour side by side; empty where that helps no plate that is short.

    Plates side by side empty one spool each: a plate may come short while another spool, idle by then, could feed it.
    The spools with the fewest grams wait: they still feed what suits them.
    """
    short = {(k, feed.plate): feed.short_g for k, mine in enumerate(feeds) for feed in mine if feed.short_g}
    wanting = {load.reel for k, one in enumerate(loads) for load in one.loads if (k, load.plate) in short} - {""}
    counted = {name: reels & wanting for name, reels in reels_of_all(loads).items()}
    printers_n = len({printer.name for one in loads for printer in one.printers})
    several = {reel for reel in wanting if sum(reel in reels for reels in counted.values()) > 1}
    left = {name: grams for each in asking for name, (_, grams) in _left_g(each).items()}
    used = sum(map(_needed_g, asking)) - sum(short.values())
    if not several or printers_n < 2 or sum(left.values()) - used < min(short.values()):
        return ()
    waits = set[tuple[str, str]]()
    for reel in several:
        mine = sorted((n for n, reels in counted.items() if reel in reels), key=lambda n: (left.get(n, 0.0), n))
        at_once_n = max(1, min(len(mine), printers_n) - 1)  # as many as printers would be no limit
        waits |= {(name, reel) for name in mine[: len(mine) - at_once_n]}
    return tuple(
        replace(one, reels={n: frozenset(r for r in reels if (n, r) not in waits) for n, reels in one.reels.items()})
        for one in loads
    )


def short_g(feeds: Sequence[Sequence[Feed]]) -> float:
    """Return the grams that no spool has, to a tenth: less is no difference."""
    return round(sum(feed.short_g for mine in feeds for feed in mine), 1)


def _left_g(asking: JobToFeed) -> dict[str, tuple[Reel, float]]:
    """Return the job's spools that have grams, by id, with those that no other plate takes."""
    inputs, _, drawn, _ = asking
    found = dict[str, tuple[Reel, float]]()
    for reel in reels_of(inputs.job, inputs.material, 0):
        if reel.left_g > 0 and reel.job is None:
            taken = drawn[reel.name].grams if reel.name in drawn else 0.0
            found[reel.name] = reel, max(0.0, reel.left_g - taken)
        elif reel.left_g > 0:
            found[f"{inputs.job.path} {reel.name}"] = reel, reel.left_g
    return found


def _needed_g(asking: JobToFeed) -> float:
    """Return the grams of a job's plates, the reserve included."""
    inputs, plates, _, _ = asking
    return inputs.job.limits.spool_reserve.value * sum(plate.mass_g.value for plate in plates if plate.mass_g)
