"""Solve: the calendar with the earliest finish, and among these one in which every plate ends early.

Few plates go to the exact model at once. Many are first spread over attended spans: limits on the finish are halved
between what is proved impossible and what was found, and the minutes are found for each spread. OR-Tools' CP-SAT runs
with one worker, a seed and limits in its own deterministic time, so that the same job gives the same calendar.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.cache import kept, key_of
from planner.schedule.calendar.allowed_starts import clears_of, starts_of
from planner.schedule.calendar.task import Answer, Placed, Shop, Task, finish_of
from planner.schedule.solver.calendar_proof import proved
from planner.schedule.solver.covering import Covering
from planner.schedule.solver.dispatch import first_calendar, in_order
from planner.schedule.solver.minute_model import MinuteModel
from planner.schedule.solver.printer_swaps import steadier
from planner.schedule.solver.span_model import SpreadModel

TIMING_VERSION = 10
"""Raised whenever calendars change, so that kept ones are not trusted."""
SEED = 20
EXACT_N = 8
"""Up to so many plates the exact model is asked at once."""
EXACT_EFFORT, PROBE_EFFORT, MINUTES_EFFORT, EARLY_EFFORT, PROOF_EFFORT = 8.0, 1.0, 0.4, 1.0, 1.5
"""Limits of single searches in the solver's deterministic time, about a second each on a desk computer."""
CLOSE_SHARE = 0.005
"""Limits are halved until what was found is within this share of what is proved impossible."""
GOOD_SHARE = 0.03
BEGINS_N, RAISE_EFFORT, RAISE_NODES_N = 2, 0.3, 60
"""Begins of spans that are tried for a bound, the effort of each by logic, the nodes by branching."""
PROBES_N, QUICK_N = 6, 7
COVER_NODES_N = 300
"""Nodes of the search for a covering; one takes a few hundredths of a second."""
SPARES_MIN = (0, 20, 45)
"""Left free in every span, in turn, where no minutes are found for a spread."""


def solved(tasks: Sequence[Task], shop: Shop) -> Answer:
    """Return the best calendar found for tasks that each have a time somewhere, with a bound on the finish.

    Raises
    ------
    ValueError
        Where some plate has no time on any printer, plates that stay together share no printer that has time for
        all, or a plate waits for one of a higher rank.
    """
    tasks = in_order(tasks)
    facts = [
        (
            (t.plate, sorted(t.takes_min.items()), sorted(t.lost_min.items()), t.rank),
            (t.after, t.stay, t.watched, t.not_before_min),
        )
        for t in tasks
    ]
    return kept("timing", key_of(TIMING_VERSION, facts, shop), lambda: _solved(tasks, shop))


def unmet(tasks: Sequence[Task], shop: Shop) -> tuple[int, ...]:
    """Return the plates that have no time on any printer, or no bed that anybody has the time to clear."""
    return tuple(
        t.plate
        for t in tasks
        if not any(
            starts_of(shop, takes, watched=t.watched) and clears_of(shop, shop.change_min[p])
            for p, takes in t.takes_min.items()
        )
    )


def _solved(tasks: Sequence[Task], shop: Shop) -> Answer:
    """Solve few plates exactly, many by spreading."""
    if not tasks:
        return Answer(placed=(), finish=0, bound=0)
    first = first_calendar(tasks, shop, SEED)
    if not first or proved(first, tasks, shop):
        raise ValueError("no time: some plate has none on any printer that it may run on, or waits contradict ranks")
    placed, bound = (_exact if len(tasks) <= EXACT_N else _spread)(tasks, shop, first)
    known = {task.plate: task for task in tasks}
    placed = MinuteModel(tasks, shop, finish_of(placed, known)).tidied(placed, MINUTES_EFFORT, SEED)
    placed = steadier(placed, tasks, shop)
    placed = tuple(sorted(placed, key=lambda run: (run.start, run.plate)))
    return Answer(placed=placed, finish=finish_of(placed, known), bound=bound)


def _exact(tasks: Sequence[Task], shop: Shop, best: tuple[Placed, ...]) -> tuple[tuple[Placed, ...], int]:
    """Solve twice: for the finish, and with it held, for the sum of all ends."""
    known = {task.plate: task for task in tasks}
    found, bound = MinuteModel(tasks, shop, finish_of(best, known)).found(EXACT_EFFORT, SEED, best)
    best = found or best
    found, _ = MinuteModel(tasks, shop, finish_of(best, known)).found(EXACT_EFFORT, SEED, best, ends=True)
    return found or best, max(bound, _least(tasks, shop))


def _spread(tasks: Sequence[Task], shop: Shop, best: tuple[Placed, ...]) -> tuple[tuple[Placed, ...], int]:
    """Look for early ends, halve the limit on the finish between the bound and the best, and look for early ends."""
    known = {task.plate: task for task in tasks}
    best = _early(tasks, shop, best)
    finish = finish_of(best, known)
    bound = _halved(tasks, shop, _least(tasks, shop), finish)
    covered = Covering(tasks, shop, finish).known
    if covered:
        best, bound = _searched(tasks, shop, best, bound, quick=True)
        bound = bound if _good(best, known, bound) else max(bound, _denied(tasks, shop, finish_of(best, known)))
    else:
        bound = _raised(tasks, shop, bound, finish)
    if not covered or not _good(best, known, bound):
        best, bound = _searched(tasks, shop, best, bound, quick=False)
    finish = finish_of(best, known)
    if finish > (1.0 + GOOD_SHARE) * bound and not covered:  # once more, with patience, for what would be good enough
        limit = int(finish / (1.0 + GOOD_SHARE)) + 1
        if SpreadModel(tasks, shop, limit).never(PROOF_EFFORT, SEED, nodes_n=0):
            bound = limit + 1
    return _early(tasks, shop, best), bound


def _good(best: Sequence[Placed], known: Mapping[int, Task], bound: int) -> bool:
    """Return whether a calendar is close enough to what is proved impossible."""
    return finish_of(best, known) <= (1.0 + GOOD_SHARE) * bound


def _searched(
    tasks: Sequence[Task], shop: Shop, best: tuple[Placed, ...], bound: int, *, quick: bool
) -> tuple[tuple[Placed, ...], int]:
    """Return the best calendar and the bound after limits on the finish were halved between them."""
    known = {task.plate: task for task in tasks}
    low, finish = bound, finish_of(best, known)
    for _ in range(QUICK_N if quick else PROBES_N):
        if finish - low <= CLOSE_SHARE * finish:
            break
        limit = (low + finish) // 2
        placed, never = _by(tasks, shop, limit, quick=quick)
        if placed:
            best = placed
            finish = finish_of(best, known)
        else:
            low = limit + 1
            bound = low if never else bound
    return best, bound


def _halved(tasks: Sequence[Task], shop: Shop, low: int, finish: int) -> int:
    """Return the earliest finish, nearly, that the linear form of the covering does not deny."""
    while finish - low > max(1, CLOSE_SHARE / 2 * finish):
        limit = (low + finish) // 2
        if Covering(tasks, shop, limit).never():
            low = limit + 1
        else:
            finish = limit
    return low


def _denied(tasks: Sequence[Task], shop: Shop, finish: int) -> int:
    """Return a finish that no calendar beats and that makes a found one good enough; 0 where that is not proved."""
    limit = int(finish / (1.0 + GOOD_SHARE)) + 1
    return limit + 1 if Covering(tasks, shop, limit).found(COVER_NODES_N)[1] else 0


def _raised(tasks: Sequence[Task], shop: Shop, low: int, finish: int) -> int:
    """Return the latest begin of an attended span by which no calendar can be done, or the bound known before.

    Between two spans nothing starts, so these are where the relaxation is strongest; the last ones are tried.
    """
    begins = [a for a, _ in shop.attended if low < a < finish][-BEGINS_N:]
    for begin in reversed(begins):
        if SpreadModel(tasks, shop, begin).never(RAISE_EFFORT, SEED, RAISE_NODES_N):
            return begin + 1
    return low


def _by(tasks: Sequence[Task], shop: Shop, limit: int, *, quick: bool) -> tuple[tuple[Placed, ...], bool]:
    """Return a calendar with a finish by a limit (empty: none found), and whether it is sure that there is none.

    ``quick``: only what is found fast counts, for a calendar that is good enough already.
    """
    for spare in SPARES_MIN[: 1 if quick else None]:
        found, none = SpreadModel(tasks, shop, limit, spare).found(PROBE_EFFORT, SEED, quick=quick)
        if not found and not none and not quick:
            found, none = Covering(tasks, shop, limit, spare).found(COVER_NODES_N)
        if not found:
            return (), none and not spare
        placed, _ = MinuteModel(tasks, shop, limit, found).found(MINUTES_EFFORT, SEED, ())
        if placed:
            return placed, False
    return (), False


def _early(tasks: Sequence[Task], shop: Shop, best: tuple[Placed, ...]) -> tuple[Placed, ...]:
    """Return a calendar that finishes no later, with earlier ends of its plates, or the same."""
    finish, spread = finish_of(best, {task.plate: task for task in tasks}), _spread_of(best, shop)
    early, _ = SpreadModel(tasks, shop, finish).found(EARLY_EFFORT, SEED, early=spread)
    for each in (early, spread):
        if each:
            placed, _ = MinuteModel(tasks, shop, finish, each).found(MINUTES_EFFORT, SEED, best, ends=True)
            if placed and sum(run.end for run in placed) < sum(run.end for run in best):
                return placed
    return best


def _least(tasks: Sequence[Task], shop: Shop) -> int:
    """Return a finish that no calendar can beat: the first end of the plate that can end first at the latest."""
    firsts = []
    for task in tasks:
        starts = {p: starts_of(shop, n, watched=task.watched) for p, n in task.takes_min.items()}
        firsts.append(min(s[0][0] + task.takes_min[p] + task.lost_min.get(p, 0) for p, s in starts.items() if s))
    return max(firsts)


def _spread_of(placed: Sequence[Placed], shop: Shop) -> Mapping[int, tuple[str, int]]:
    """Return the spread of a calendar."""
    return {
        run.plate: (run.printer, next(k for k, (a, b) in enumerate(shop.attended) if a <= run.start < b))
        for run in placed
    }
