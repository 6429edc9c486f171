"""Spools: which one feeds which plate, so that few end in the middle of one, and none while nobody is there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise, permutations
from typing import Any

from planner.schedule.calendar.schedule_records import Key, PrintRun, Shop
from planner.schedule.calendar.spool_records import Feed, Need, Reel, ReelKey, suits
from planner.schedule.calendar.weekly_spans import Span

EFFORT = 0.25
"""Limit of the search in the solver's deterministic time."""
CHAIN_N = 4
"""At most so many spools feed one plate one after the other."""
TRIES_N = 4
"""So many jobs that grams alone would feed, but no spools in turn, are left out in one order of jobs."""


def fed(needs: Sequence[Need], reels: Sequence[Reel], placed: Sequence[PrintRun], shop: Shop) -> tuple[Feed, ...]:
    """Return what feeds every plate that has a time, in the order of their starts.

    Where the spools do not feed all, as few jobs as an order finds go short: a device that lacks one plate is none.
    """
    found = _fed(needs, reels, placed, shop)
    if len(_starved(found)) < 2:
        return found
    ends = {need.job: max((run.end_min for run in placed if run.job == need.job), default=0) for need in needs}
    grams = {job: sum(need.grams for need in needs if need.job == job) for job in ends}
    for order in (sorted(ends, key=lambda job: (ends[job], job)), sorted(ends, key=lambda job: (grams[job], job))):
        other = _by_job(order, needs, reels, placed, shop)
        if len(_starved(other)) < len(_starved(found)):
            found = other
    return found


def _starved(feeds: Sequence[Feed]) -> set[int]:
    """Return the jobs of which some plate goes short."""
    return {feed.job for feed in feeds if feed.short_g}


def _by_job(
    order: Sequence[int], needs: Sequence[Need], reels: Sequence[Reel], placed: Sequence[PrintRun], shop: Shop
) -> tuple[Feed, ...]:
    """Return what feeds the plates where jobs are fed whole, in an order, and the others with what is left over."""

    def of(jobs: Sequence[int]) -> list[Need]:
        return [need for need in needs if need.job in jobs]

    first = list[int]()
    for job in order:
        first += [job] if _enough(of([*first, job]), reels) else []
    feeds = _fed(of(first), reels, placed, shop)
    for _ in range(TRIES_N):
        if not (short := _starved(feeds)):
            break
        first.remove(max(short, key=first.index))
        feeds = _fed(of(first), reels, placed, shop)
    whole = {reel.key: reel for reel in reels}
    rest = _fed(of([job for job in order if job not in first]), _after(feeds, needs, reels, placed), placed, shop)
    others = [replace(feed, reels=tuple(whole[reel.key] for reel in feed.reels)) for feed in rest]
    starts = {run.key: run.start_min for run in placed}
    return tuple(sorted((*feeds, *others), key=lambda feed: (starts[feed.key], feed.key)))


def _enough(needs: Sequence[Need], reels: Sequence[Reel]) -> bool:
    """Return whether there are grams enough in every colour, whichever spool they are on."""
    for colour in {need.colour for need in needs}:
        mine = [need for need in needs if need.colour == colour]
        there = sum(reel.left_g for reel in reels if any(suits(need, reel) for need in mine))
        if sum(need.grams for need in mine) > there:
            return False
    return True


def _after(
    feeds: Sequence[Feed], needs: Sequence[Need], reels: Sequence[Reel], placed: Sequence[PrintRun]
) -> list[Reel]:
    """Return the spools less what feeds plates, busy while they do."""
    grams, runs = {need.key: need.grams for need in needs}, {run.key: run for run in placed}
    known = {reel.key: reel for reel in reels}
    for feed in feeds:
        rest, run = grams[feed.key], runs[feed.key]
        for reel in (known[one.key] for one in feed.reels):
            taken = min(rest, reel.left_g)
            rest -= taken
            busy = *reel.busy, (run.start_min, run.end_min)
            known[reel.key] = replace(reel, left_g=reel.left_g - taken, busy=busy)
    return list(known.values())


def _fed(needs: Sequence[Need], reels: Sequence[Reel], placed: Sequence[PrintRun], shop: Shop) -> tuple[Feed, ...]:
    """Return what feeds every plate that has a time, in the order of their starts.

    As many plates as possible are fed by one spool (a generalised assignment, solved by CP-SAT); those that are not
    are rather such as run while somebody is there all the time. What is left over feeds them, spool after spool, in
    the order in which an end falls to a time with somebody there. No spool feeds two printers at once.
    """
    runs = {run.key: run for run in placed}
    order = sorted((need for need in needs if need.key in runs), key=lambda n: (runs[n.key].start_min, n.key))
    whole = _as_last(order, reels, runs, shop) or _whole(order, reels, runs, shop)
    left = {reel.key: reel.left_g for reel in reels}
    used: dict[ReelKey, list[Span]] = {reel.key: list(reel.busy) for reel in reels}
    found: dict[Key, Feed] = {}
    for need in order:
        if need.key in whole:
            reel, run = whole[need.key], runs[need.key]
            left[reel.key] -= need.grams
            used[reel.key].append((run.start_min, run.end_min))
            found[need.key] = Feed(
                job=need.job, plate=need.plate, reels=(reel,), ends_min=(), short_g=0.0, unattended=False
            )
    for need in order:
        if need.key not in whole:
            run = runs[need.key]
            free = [
                reel for reel in reels if suits(need, reel) and not any(_meets(run, each) for each in used[reel.key])
            ]
            feed = min(
                _chains(need, run, free, left, shop),
                key=lambda each: (round(each.short_g, 6), each.unattended, len(each.ends_min)),
            )
            rest = need.grams
            for reel in feed.reels:
                taken = min(rest, left[reel.key])
                left[reel.key] -= taken
                rest -= taken
                used[reel.key].append((run.start_min, run.end_min))
            found[need.key] = feed
    return tuple(found[need.key] for need in order)


On = dict[tuple[Key, ReelKey], Any]
"""By plate and spool: the literal that says that the spool feeds the plate from begin to end."""


def _as_last(order: Sequence[Need], reels: Sequence[Reel], runs: Mapping[Key, PrintRun], shop: Shop) -> dict[Key, Reel]:
    """Return the plates on the spools of the last plan, with whole spools for the new ones; empty where that fails.

    What is written on a card stays true while nothing speaks against it.
    """
    kept = dict[Key, Reel]()
    left = {reel.name: reel for reel in reels if reel.job is None}
    for need in (need for need in order if need.last in left):
        reel, run = left[need.last], runs[need.key]
        if suits(need, reel) and need.grams <= reel.left_g and not any(_meets(run, each) for each in reel.busy):
            kept[need.key] = reel
            spans = *reel.busy, (run.start_min, run.end_min)
            left[reel.name] = replace(reel, left_g=reel.left_g - need.grams, busy=spans)
    rest = [need for need in order if need.key not in kept]
    now = [left.get(reel.name, reel) if reel.job is None else reel for reel in reels]
    added = _whole(rest, now, runs, shop) if kept and rest else {}
    if not kept or len(added) < len(rest):
        return {}
    known = {reel.key: reel for reel in reels}
    return {key: known[reel.key] for key, reel in (kept | added).items()}


def _whole(order: Sequence[Need], reels: Sequence[Reel], runs: Mapping[Key, PrintRun], shop: Shop) -> dict[Key, Reel]:
    """Return the plates that one spool feeds from begin to end, as many as can be, with the fewest changes of spool."""
    from ortools.sat.python import cp_model  # noqa: PLC0415  half a second to load, for those who need it

    model = cp_model.CpModel()
    on: On = {
        (need.key, reel.key): model.new_bool_var(f"{need.key}{reel.key}")
        for need in order
        for reel in reels
        if suits(need, reel)
        and need.grams <= reel.left_g
        and not any(_meets(runs[need.key], each) for each in reel.busy)
    }
    for need in order:
        model.add_at_most_one([on[need.key, reel.key] for reel in reels if (need.key, reel.key) in on])
    for reel in reels:
        _keep_within(model, on, reel, [need for need in order if (need.key, reel.key) in on], runs)
    changes = _changes(model, on, [[n.key for n in order if runs[n.key].printer == p] for p in shop.change_min])
    # an end in the middle weighs more than any number of changes between plates, one at night more than many by day
    by_day, by_night = len(order) + 1, (len(order) + 1) ** 2
    worth = {n.key: by_day if _watched(runs[n.key], shop) else by_night for n in order}
    model.maximize(sum(worth[plate] * y for (plate, _), y in on.items()) - sum(changes))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 20
    solver.parameters.max_deterministic_time = EFFORT
    if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return {}
    known = {reel.key: reel for reel in reels}
    return {plate: known[name] for (plate, name), y in on.items() if solver.boolean_value(y)}


def _keep_within(model: Any, on: On, reel: Reel, mine: Sequence[Need], runs: Mapping[Key, PrintRun]) -> None:
    """Let a spool feed no more than it holds, and no two plates at once."""
    tenths = [(round(10 * need.grams), on[need.key, reel.key]) for need in mine]
    model.add(sum(n * y for n, y in tenths) <= int(10 * reel.left_g))
    feeding = []
    for need in mine:
        run = runs[need.key]
        length = run.end_min - run.start_min
        feeding.append(model.new_optional_fixed_size_interval_var(run.start_min, length, on[need.key, reel.key], ""))
    model.add_no_overlap(feeding)


def _changes(model: Any, on: On, queues: Sequence[Sequence[Key]]) -> list[Any]:
    """Return a literal for every two plates in a row on a printer that are not fed by the same spool."""
    changes = []
    names = sorted({name for _, name in on})
    for first, then, name in ((a, b, name) for queue in queues for a, b in pairwise(queue) for name in names):
        if (first, name) in on and (then, name) in on:
            change = model.new_bool_var("")
            model.add(change >= on[first, name] - on[then, name])
            changes.append(change)
    return changes


def _chains(
    need: Need, run: PrintRun, free: Sequence[Reel], left: Mapping[ReelKey, float], shop: Shop
) -> Iterator[Feed]:
    """Yield every order of a few spools that feeds a plate as far as they reach; the last one may come short."""
    rich = sorted((reel for reel in free if left[reel.key] > 0), key=lambda reel: (-left[reel.key], reel.name))
    yield Feed(job=need.job, plate=need.plate, reels=(), ends_min=(), short_g=need.grams, unattended=False)
    for many in range(1, min(CHAIN_N, len(rich)) + 1):
        for reels in permutations(rich[: CHAIN_N + 1], many):
            had = [left[reel.key] for reel in reels]
            if sum(had[:-1]) >= need.grams:
                continue  # the last one would not be needed
            laying = run.end_min - run.start_min - need.heat_up_min
            short = max(0.0, need.grams - sum(had))
            counted = had if short > 0 else had[:-1]  # where all end, the last end is one too
            ends = tuple(need.heat_up_min + laying * sum(counted[: k + 1]) / need.grams for k in range(len(counted)))
            alone = any(not _there(run.start_min + end, shop) for end in ends)
            yield Feed(job=need.job, plate=need.plate, reels=reels, ends_min=ends, short_g=short, unattended=alone)


def _meets(run: PrintRun, span: Span) -> bool:
    """Return whether a run overlaps a span of time."""
    return run.start_min < span[1] and span[0] < run.end_min


def _watched(run: PrintRun, shop: Shop) -> bool:
    """Return whether somebody is there all through a run."""
    return any(a <= run.start_min and run.end_min <= b for a, b in shop.attended)


def _there(minute: float, shop: Shop) -> bool:
    """Return whether somebody is there at a minute."""
    return any(a <= minute < b for a, b in shop.attended)
