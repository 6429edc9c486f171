"""Spools: which one feeds which plate, so that few end in the middle of one, and none while nobody is there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise, permutations
from typing import Any

from planner.schedule.calendar.schedule_records import PrintRun, Shop

EFFORT = 1.0
"""Limit of the search in the solver's deterministic time."""
CHAIN_N = 4
"""At most so many spools feed one plate one after the other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reel:
    """A spool at hand: a letter in the order of the job file, its colour ("any": serves all), grams left on it."""

    name: str
    colour: str
    left_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """A plate's colour and grams, the reserve included; nothing is laid in its first ``heat_up_min``."""

    plate: int
    colour: str
    grams: float
    heat_up_min: float = 0.0


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


def fed(needs: Sequence[Need], reels: Sequence[Reel], placed: Sequence[PrintRun], shop: Shop) -> tuple[Feed, ...]:
    """Return what feeds every plate that has a time, in the order of their starts.

    As many plates as possible are fed by one spool (a generalised assignment, solved by CP-SAT); those that are not
    are rather such as run while somebody is there all the time. What is left over feeds them, spool after spool, in
    the order in which an end falls to a time with somebody there. No spool feeds two printers at once.
    """
    runs = {run.plate: run for run in placed}
    order = sorted((need for need in needs if need.plate in runs), key=lambda n: (runs[n.plate].start_min, n.plate))
    whole = _whole(order, reels, runs, shop)
    left = {reel.name: reel.left_g for reel in reels}
    used: dict[str, list[PrintRun]] = {reel.name: [] for reel in reels}
    found: dict[int, Feed] = {}
    for need in order:
        if need.plate in whole:
            reel = whole[need.plate]
            left[reel.name] -= need.grams
            used[reel.name].append(runs[need.plate])
            found[need.plate] = Feed(plate=need.plate, reels=(reel,), ends_min=(), short_g=0.0, unattended=False)
    for need in order:
        if need.plate not in whole:
            run = runs[need.plate]
            free = [
                reel for reel in reels if _suits(need, reel) and not any(_meet(run, each) for each in used[reel.name])
            ]
            feed = min(
                _chains(need, run, free, left, shop),
                key=lambda each: (round(each.short_g, 6), each.unattended, len(each.ends_min)),
            )
            rest = need.grams
            for reel in feed.reels:
                taken = min(rest, left[reel.name])
                left[reel.name] -= taken
                rest -= taken
                used[reel.name].append(run)
            found[need.plate] = feed
    return tuple(found[need.plate] for need in order)


On = dict[tuple[int, str], Any]
"""By plate and spool: the literal that says that the spool feeds the plate from begin to end."""


def _whole(order: Sequence[Need], reels: Sequence[Reel], runs: Mapping[int, PrintRun], shop: Shop) -> dict[int, Reel]:
    """Return the plates that one spool feeds from begin to end, as many as can be, with the fewest changes of spool."""
    from ortools.sat.python import cp_model  # noqa: PLC0415  half a second to load, for those who need it

    model = cp_model.CpModel()
    on: On = {
        (need.plate, reel.name): model.new_bool_var(f"{need.plate}{reel.name}")
        for need in order
        for reel in reels
        if _suits(need, reel) and need.grams <= reel.left_g
    }
    for need in order:
        model.add_at_most_one([y for (plate, _), y in on.items() if plate == need.plate])
    for reel in reels:
        _keep_within(model, on, reel, [need for need in order if (need.plate, reel.name) in on], runs)
    changes = _changes(model, on, [[n.plate for n in order if runs[n.plate].printer == p] for p in shop.change_min])
    # an end in the middle weighs more than any number of changes between plates, one at night more than many by day
    by_day, by_night = len(order) + 1, (len(order) + 1) ** 2
    worth = {n.plate: by_day if _watched(runs[n.plate], shop) else by_night for n in order}
    model.maximize(sum(worth[plate] * y for (plate, _), y in on.items()) - sum(changes))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 20
    solver.parameters.max_deterministic_time = EFFORT
    if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return {}
    known = {reel.name: reel for reel in reels}
    return {plate: known[name] for (plate, name), y in on.items() if solver.boolean_value(y)}


def _keep_within(model: Any, on: On, reel: Reel, mine: Sequence[Need], runs: Mapping[int, PrintRun]) -> None:
    """Let a spool feed no more than it holds, and no two plates at once."""
    tenths = [(round(10 * need.grams), on[need.plate, reel.name]) for need in mine]
    model.add(sum(n * y for n, y in tenths) <= int(10 * reel.left_g))
    for one, other in combinations(mine, 2):
        if _meet(runs[one.plate], runs[other.plate]):
            model.add(on[one.plate, reel.name] + on[other.plate, reel.name] <= 1)


def _changes(model: Any, on: On, queues: Sequence[Sequence[int]]) -> list[Any]:
    """Return a literal for every two plates in a row on a printer that are not fed by the same spool."""
    changes = []
    names = sorted({name for _, name in on})
    for first, then, name in ((a, b, name) for queue in queues for a, b in pairwise(queue) for name in names):
        if (first, name) in on and (then, name) in on:
            change = model.new_bool_var("")
            model.add(change >= on[first, name] - on[then, name])
            changes.append(change)
    return changes


def _chains(need: Need, run: PrintRun, free: Sequence[Reel], left: Mapping[str, float], shop: Shop) -> Iterator[Feed]:
    """Yield every order of a few spools that feeds a plate as far as they reach; the last one may come short."""
    rich = sorted((reel for reel in free if left[reel.name] > 0), key=lambda reel: (-left[reel.name], reel.name))
    yield Feed(plate=need.plate, reels=(), ends_min=(), short_g=need.grams, unattended=False)
    for many in range(1, min(CHAIN_N, len(rich)) + 1):
        for reels in permutations(rich[: CHAIN_N + 1], many):
            had = [left[reel.name] for reel in reels]
            if sum(had[:-1]) >= need.grams:
                continue  # the last one would not be needed
            laying = run.end_min - run.start_min - need.heat_up_min
            short = max(0.0, need.grams - sum(had))
            counted = had if short > 0 else had[:-1]  # where all end, the last end is one too
            ends = tuple(need.heat_up_min + laying * sum(counted[: k + 1]) / need.grams for k in range(len(counted)))
            alone = any(not _there(run.start_min + end, shop) for end in ends)
            yield Feed(plate=need.plate, reels=reels, ends_min=ends, short_g=short, unattended=alone)


def _suits(need: Need, reel: Reel) -> bool:
    """Return whether a spool has the plate's colour; "any" on either side suits all."""
    return "any" in (need.colour, reel.colour) or need.colour == reel.colour


def _meet(one: PrintRun, other: PrintRun) -> bool:
    """Return whether two runs overlap in time."""
    return one.start_min < other.end_min and other.start_min < one.end_min


def _watched(run: PrintRun, shop: Shop) -> bool:
    """Return whether somebody is there all through a run."""
    return any(a <= run.start_min and run.end_min <= b for a, b in shop.attended)


def _there(minute: float, shop: Shop) -> bool:
    """Return whether somebody is there at a minute."""
    return any(a <= minute < b for a, b in shop.attended)
